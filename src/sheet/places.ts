import { Place, saying, type Refusal, type Words } from "../trade/refusal";
import { spoken } from "./headings";

/** For each table and matrix of the present call, the rows and columns of its range, from 1, in which its entries stand. */
const rowsOf = new Map<string, readonly number[]>();
const columnsOf = new Map<string, readonly number[]>();

/** What was read for one call says nothing of the next. */
export function forgetPlaces(): void {
  rowsOf.clear();
  columnsOf.clear();
}

/** Headings, names and blank rows are no entries, so an entry's row is not its place among the entries. */
export function entriesStandIn(argument: string, rows: readonly number[], columns?: readonly number[]): void {
  rowsOf.set(argument, rows);
  if (columns) columnsOf.set(argument, columns);
}

/** A refusal as the person at the sheet finds its places: "rates row 4, date, is 3 May, as in row 2; give one a date". */
export function inWords({ subject, came, allowed }: Refusal): string {
  const own = subject instanceof Place ? subject.list : subject;
  const text = (words: Words): string =>
    typeof words === "string"
      ? words
      : words.map((part) => (part instanceof Place ? placeInWords(part, own) : part)).join("");
  return saying(typeof subject === "string" ? subject : subjectInWords(subject), text(came), text(allowed));
}

function subjectInWords(place: Place): string {
  return placeInWords(place) + (typeof place.field === "string" ? "," : "");
}

/** With the name of the list, unless the talk is of that list already. */
function placeInWords({ list, index, field }: Place, own?: string): string {
  const rows = rowsOf.get(list);
  const entry = rows || field !== undefined ? `row ${rows?.[index] ?? index + 1}` : `item ${index + 1}`;
  const where = list === own ? entry : `${list} ${entry}`;
  if (field === undefined) return where;
  return typeof field === "number"
    ? `${where}, column ${columnsOf.get(list)?.[field] ?? field + 1}`
    : `${where}, ${spoken(field)}`;
}
