import { HEADING_SYNONYMS } from "../tables/headings";
import { refuse, shortened } from "../trade/refusal";
import { isBlank, type Cell, type Cells } from "./cells";

/** A key as a person says it: by_product is "by product". */
export function spoken(key: string): string {
  return key.replace(/_/g, " ");
}

/**
 * Reads the first row as headings where it is one: words in all its cells, of which at least one is a heading of this
 * table. A row with a number, a date or a blank is data. Columns may then stand in any order among others.
 */
export function headingsIn(
  name: string,
  cells: Cells,
  keys: readonly string[],
  isNeeded: (key: string) => boolean,
): ReadonlyMap<string, number> | undefined {
  const first = cells[0] as Cell[];
  if (!first.every((cell) => typeof cell === "string" && !isBlank(cell.trim()))) return undefined;
  const seen = (first as string[]).map(plainHeading);
  const known = new Map(keys.map((key) => [key, placesOf(key, seen)]));
  if (keys.every((key) => (known.get(key) as number[]).length === 0)) return undefined;
  const list = clipped(first as string[]);
  const places = new Map<string, number>();
  const missing: string[] = [];
  for (const key of keys) {
    const found = known.get(key) as number[];
    if (found.length > 1) refuse(name, `headed ${list}`, `${spoken(key)} must stand once`);
    if (found.length === 1) places.set(key, found[0] as number);
    else if (isNeeded(key)) missing.push(spoken(key));
  }
  if (missing.length > 0) refuse(name, `headed ${list}`, `${missing.join(", ")} is missing`);
  return places;
}

/** A column of a user's table that is headed so, with the column of names beside it. */
export function columnUnder(
  cells: Cells,
  heading: string,
):
  | { readonly figures: Cells; readonly rowNames: readonly string[] | undefined; readonly columnNames: undefined }
  | undefined {
  const [first, ...below] = cells as [Cell[], ...Cell[][]];
  const isText = (cell: Cell): cell is string => typeof cell === "string" && !isBlank(cell.trim());
  if (below.length === 0 || first.length < 2 || !first.every(isText)) return undefined;
  const seen = first.map(plainHeading);
  const [place, ...others] = placesOf(heading, seen);
  if (place === undefined || others.length > 0) return undefined;
  const [
    named = first.findIndex((_, at) => at !== place && below.every((row) => isBlank(row[at]) || isText(row[at]))),
  ] = placesOf("name", seen).filter((at) => at !== place);
  return {
    figures: below.map((row) => [row[place]]),
    rowNames: named < 0 ? undefined : below.map((row) => (isText(row[named]) ? row[named].trim() : "")),
    columnNames: undefined,
  };
}

/** The columns under a heading; its own name goes before its synonyms. */
export function placesOf(key: string, seen: readonly string[]): number[] {
  const under = (word: string): number[] => {
    const wanted = plainHeading(word);
    return seen.map((heading, place) => (heading === wanted ? place : -1)).filter((place) => place >= 0);
  };
  const own = under(key);
  if (own.length > 0) return own;
  return ([] as number[]).concat(...(HEADING_SYNONYMS[key] ?? []).map(under));
}

/** Without case, without a unit or percent in brackets at the end; "By-product" is "by product". */
export function plainHeading(text: string): string {
  return text
    .replace(/[([][^)\]]*[)\]]\s*$/, "")
    .replace(/%\s*$/, "")
    .replace(/[\s_-]+/g, " ")
    .trim()
    .toLowerCase();
}

export function clipped(headings: readonly string[]): string {
  return shortened(headings.map((heading) => heading.trim()).join(", "), 50);
}

const TOTALS = /^(grand |sub)?(totals?|sum|in all)\s*:?$/i;

/** Taken along among things with names, a total would count everything twice. */
export function refuseTotal(
  argument: string,
  names: readonly string[] | undefined,
  what: "row" | "column" | "item",
  before: number,
): void {
  const place = names === undefined ? -1 : names.findIndex((name) => TOTALS.test(name));
  if (place < 0) return;
  refuse(`${argument} ${what} ${place + 1 + before}`, `called ${(names as string[])[place]}`, "leave totals out");
}

/** Is the row of a table called a total? Taken along it would count everything twice. */
export function isCalledTotal(row: readonly Cell[]): boolean {
  return row.some((cell) => typeof cell === "string" && TOTALS.test(cell.trim()));
}

/** Is a row the sum of those above it, in at least two columns of amounts that add up? */
export function isSumOf(above: readonly (readonly Cell[])[], row: readonly Cell[], places: readonly number[]): boolean {
  if (above.length < 2) return false;
  const summed = places.filter((place) => {
    const total = row[place];
    if (typeof total !== "number" || total === 0) return false;
    let sum = 0;
    for (const other of above) sum += typeof other[place] === "number" ? other[place] : 0;
    return Math.abs(sum - total) <= 1e-9 * Math.abs(total);
  });
  return summed.length >= 2;
}
