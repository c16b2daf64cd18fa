import { HEADING_SYNONYMS } from "../tables/headings";
import { refuse, shortened } from "../trade/refusal";
import { isBlank, type Cell, type Cells } from "./cells";
import { readsAsNumber } from "./kinds";
import { isMisspelt } from "./words";

/** Signs and codes of currencies. */
export const MONEY = "[€$£¥]|EUR|USD|GBP|CHF|JPY|CNY|AUD|NZD|CAD|SEK|NOK|DKK|PLN|CZK|TRY|ZAR|INR";
const MEASURE = "kg|g|t|lb|oz|km|m|yd|h|%";
/** A unit behind a word, as in "Tariff €/kg" or "mass in kg". */
const WITH_UNIT = new RegExp(`^(.*[a-z]{3},?)\\s+(?:in\\s+)?(?:${MONEY}|${MEASURE})(?:\\s*/\\s*(?:${MEASURE}))?\\s*$`);

/** A key as a person says it: by_product is "by product". */
export function spoken(key: string): string {
  return key.replace(/_/g, " ");
}

/** A column of a table: its key, and what people call it. */
export interface Heading {
  readonly key: string;
  readonly synonyms: readonly string[];
  /** Must the table have it? */
  readonly needed: boolean;
  /** Key and synonyms as headings are compared. */
  readonly plain: { readonly own: string; readonly others: readonly string[] };
}

/** Synonyms of keys that hold in one table only. */
export type FurtherSynonyms = Readonly<Record<string, readonly string[]>>;

export function headingOf(key: string, needed: boolean, further: FurtherSynonyms = {}): Heading {
  const own = plainHeading(key);
  const words = [...(HEADING_SYNONYMS[key] ?? []), ...(further[key] ?? [])];
  const synonyms = words.filter((word, place) => word !== own && words.indexOf(word) === place);
  return { key, needed, synonyms, plain: { own, others: synonyms.map(plainHeading) } };
}

const listHeadings = new Map<string, Heading>();

/** The heading of a list, which is made once; lists are read often. */
export function listHeading(key: string): Heading {
  let heading = listHeadings.get(key);
  if (heading === undefined) listHeadings.set(key, (heading = headingOf(key, true)));
  return heading;
}

type Listener = (argument: string, headings: readonly Heading[]) => void;

let listener: Listener | undefined;

/** Told of the headings of every table and list that is read, so that the build learns which argument takes which. */
export function listenToHeadings(told: Listener | undefined): void {
  listener = told;
}

export function tellHeadings(argument: string, headings: readonly Heading[]): void {
  listener?.(argument, headings);
}

/** The column of names, of a table whose rows may have some; its heading may be any that no figures stand under. */
export const NAME = "name";
export const NAMES = headingOf(NAME, false);

/**
 * Reads the first row as headings where it is one: words in all its cells, of which at least one is a heading of this
 * table. A row with a number, a date or a blank is data. Columns may then stand in any order among others.
 */
export function headingsIn(
  name: string,
  cells: Cells,
  headings: readonly Heading[],
): ReadonlyMap<string, number> | undefined {
  const first = cells[0] as Cell[];
  const places = isAllWords(first) ? claimed(name, first, cells, headings) : undefined;
  const missing = headings.filter(({ key, needed }) => needed && !places?.has(key));
  refuseTurned(name, cells, headings, places === undefined ? 0 : places.size);
  if (places !== undefined && missing.length === 0) return places;
  refuseTitle(name, cells, headings);
  if (places === undefined) return undefined;
  return refuse(
    name,
    `headed ${clipped(first as string[])}`,
    `${missing.map(({ key }) => spoken(key)).join(", ")} is missing`,
  );
}

/**
 * The columns of a first row of words: under their own names first, then under synonyms that no other has taken, where
 * of several one with figures goes before those without. A first column of texts is one of names whatever it is headed.
 */
function claimed(
  name: string,
  first: readonly string[],
  cells: Cells,
  headings: readonly Heading[],
): ReadonlyMap<string, number> | undefined {
  const seen = first.map(plainHeading);
  const places = new Map<string, number>();
  const taken = new Set<number>();
  const take = ({ key }: Heading, words: readonly string[]): void => {
    const all = placesUnder(words, seen).filter((place) => !taken.has(place));
    const figured = all.length > 1 ? all.filter((place) => cells.some((row) => typeof row[place] === "number")) : [];
    const found = figured.length === 1 ? figured : all;
    if (found.length > 1) refuse(name, `headed ${clipped(first)}`, `${spoken(key)} must stand once`);
    for (const place of found) {
      places.set(key, place);
      taken.add(place);
    }
  };
  for (const heading of headings) take(heading, [heading.plain.own]);
  for (const heading of headings) if (!places.has(heading.key)) take(heading, heading.plain.others);
  if (places.size === 0) return undefined;
  refuseMisspelt(
    name,
    first,
    taken,
    headings.filter(({ key }) => key !== NAME && !places.has(key)),
  );
  const mayBeNamed = headings.some(({ key }) => key === NAME) && !places.has(NAME) && !taken.has(0);
  if (mayBeNamed && isOfNames(cells.slice(1))) places.set(NAME, 0);
  return places;
}

/** Does the first column hold texts and blanks only, and one text at least? */
function isOfNames(below: Cells): boolean {
  const holdsText = ([cell]: readonly Cell[]): boolean => typeof cell === "string" && !isBlank(cell.trim());
  return below.some(holdsText) && below.every((row) => isBlank(row[0]) || holdsText(row));
}

/** A column whose heading is only misspelt would be passed over like a remark, and its figures with it. */
function refuseMisspelt(
  name: string,
  first: readonly string[],
  taken: ReadonlySet<number>,
  headings: readonly Heading[],
): void {
  first.forEach((written, place) => {
    if (taken.has(place)) return;
    const heading = plainHeading(written);
    for (const { key, plain } of headings) {
      const near = [spoken(key), ...plain.others].find((word) => isMisspelt(heading, word));
      if (near !== undefined) refuse(name, `headed "${shortened(written.trim())}"`, `write ${near}, or another word`);
    }
  });
}

/** Do more headings stand below each other in the first column, each before its own figures, than in the first row? */
function refuseTurned(name: string, cells: Cells, headings: readonly Heading[], across: number): void {
  const column = cells.slice(0, MOST_COLUMNS).map(([cell]) => (typeof cell === "string" ? plainHeading(cell) : ""));
  const found = headings.filter((heading) => placesOf(heading, column).length > 0);
  if (found.length < 2 || found.length <= across || (cells[0] as Cell[]).length < 2) return;
  if (headings.every((heading) => !heading.needed || found.indexOf(heading) >= 0)) {
    refuse(name, "headed down its first column", "must have its headings in the first row: TRANSPOSE turns it");
  }
}

/** A longer first column is one of data, and is not looked through. */
const MOST_COLUMNS = 100;

/** So many rows of title may stand above a table before nobody takes them for its title. */
const MOST_TITLES = 6;

/** Is the first row a title, and the headings follow? */
function refuseTitle(name: string, cells: Cells, headings: readonly Heading[]): void {
  const needed = headings.filter((heading) => heading.needed);
  for (let row = 1; row < Math.min(cells.length, MOST_TITLES); row++) {
    const below = cells[row] as Cell[];
    if (!isAllWords(below)) continue;
    const seen = (below as string[]).map(plainHeading);
    if (needed.length > 0 && needed.every((heading) => placesOf(heading, seen).length === 1)) {
      refuse(`${name} row 1`, "above the headings", `begin with the headings, in row ${row + 1}`);
    }
  }
}

function isAllWords(row: readonly Cell[]): row is readonly string[] {
  return row.every((cell) => typeof cell === "string" && !isBlank(cell.trim()));
}

/** A first row of words of which none is a heading of the table, in a range that cannot be read without headings. */
export function refuseUnknownHeadings(name: string, cells: Cells, headings: readonly Heading[]): void {
  const first = cells[0] as Cell[];
  if (cells.length < 2 || !isAllWords(first) || first.some(readsAsNumber)) return;
  const known = headings.filter(({ needed }) => needed).map(({ key }) => spoken(key));
  refuse(name, `headed ${clipped(first)}`, `must have headings such as ${known.join(", ")}`);
}

/** The number of a lot is its name. */
function nameIn(cell: Cell): string {
  return typeof cell === "number" || typeof cell === "string" ? String(cell).trim() : "";
}

/** A column of a user's table that is headed so, with the column of names beside it. */
export function columnUnder(
  cells: Cells,
  heading: Heading,
):
  | {
      readonly figures: Cells;
      readonly rowNames: readonly string[] | undefined;
      readonly columnNames: undefined;
      readonly headed: string;
    }
  | undefined {
  const [first, ...below] = cells as [Cell[], ...Cell[][]];
  const isText = (cell: Cell): cell is string => typeof cell === "string" && !isBlank(cell.trim());
  if (below.length === 0 || first.length < 2 || !isAllWords(first)) return undefined;
  const seen = first.map(plainHeading);
  const [place, ...others] = placesOf(heading, seen);
  if (place === undefined || others.length > 0) return undefined;
  const [
    named = first.findIndex((_, at) => at !== place && below.every((row) => isBlank(row[at]) || isText(row[at]))),
  ] = placesOf(NAMES, seen).filter((at) => at !== place);
  return {
    figures: below.map((row) => [row[place]]),
    rowNames: named < 0 ? undefined : below.map((row) => nameIn(row[named])),
    columnNames: undefined,
    headed: first[place] as string,
  };
}

/** The columns under a heading; its own name goes before its synonyms. */
export function placesOf({ plain }: Heading, seen: readonly string[]): number[] {
  const own = placesUnder([plain.own], seen);
  return own.length > 0 ? own : placesUnder(plain.others, seen);
}

/** The columns under one of some words as they are written, or else in the plural. */
function placesUnder(words: readonly string[], seen: readonly string[]): number[] {
  const exact: number[] = [];
  const plural: number[] = [];
  seen.forEach((heading, place) => {
    if (heading === "") return;
    if (words.indexOf(heading) >= 0) exact.push(place);
    else if (words.some((word) => heading === `${word}s` || heading === `${word}es`)) plural.push(place);
  });
  return exact.length > 0 ? exact : plural;
}

/** "price per kg" says what it is a price of, and stays whole. */
function withoutUnit(text: string): string {
  const [, words] = WITH_UNIT.exec(text) ?? [];
  return words === undefined || /\b(per|in)$/.test(words) ? text : words.replace(/,$/, "");
}

/** Without case, without a unit or percent at the end, in brackets or not; "By-product" is "by product". */
export function plainHeading(text: string): string {
  return withoutUnit(text.replace(/[([][^)\]]*[)\]]\s*$/, ""))
    .replace(/%\s*$/, "")
    .replace(/[\s_-]+/g, " ")
    .trim()
    .toLowerCase();
}

export function clipped(headings: readonly string[]): string {
  return shortened(headings.map((heading) => heading.trim()).join(", "), 50);
}

/** Also as German, French and Italian books have it: a column of figures is the same in every language. */
const TOTALS =
  /^((grand[ -]|sub[ -]?)?(totals?|sum)|in all|(zwischen|gesamt)?summe|gesamt|insgesamt|somme|sous-total|totale)\s*:?$/i;
/** So a row is called in its first column, as what it is of may be remarked or styled in another. */
const CALLED =
  /^((mean|average|overall|[ØΣ])\s*:?$|((grand|sub)[ -]?)?(total|sum) (of|cost|charges|kg|lb|mass|weight|value|quantity)\b)/i;

/** Taken along among things with names, a total would count everything twice. */
export function refuseTotal(
  argument: string,
  names: readonly string[] | undefined,
  what: "row" | "column" | "item",
  before: number,
): void {
  const place = names === undefined ? -1 : names.findIndex((name) => isCalledTotal([name]));
  if (place < 0) return;
  refuse(`${argument} ${what} ${place + 1 + before}`, `called ${(names as string[])[place]}`, "leave totals out");
}

/** Is the row of a table called a total? Taken along it would count everything twice. */
export function isCalledTotal(row: readonly Cell[]): boolean {
  return CALLED.test(String(row[0])) || row.some((cell) => typeof cell === "string" && TOTALS.test(cell.trim()));
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
