import { impossible, type Subject } from "../trade/refusal";

/** As many cells as two whole columns of the sheet, of results or read. Working them out takes less than three seconds. */
const MOST_CELLS = 2 ** 21;

/** Items of one list, rows of a table, or cells that each foot with others: each costs some microseconds. */
const [MOST_ITEMS, MOST_ROWS, MOST_FOOTED] = [500_000, 250_000, 500_000];

/** Of a search for recipes, in units of about two and a half microseconds. */
const MOST_EFFORT = 1_180_000;

/** Shades of up to 31 bands, those of which each may need its bands found, and solids of which each is tried with others. */
const [MOST_SHADES_DOWN, MOST_SHADES, MOST_BLENDED, MOST_SOLIDS] = [150_000, 50_000, 10_000, 1000];

/**
 * A sheet stands still while a function runs, so work beyond what a sheet can wait for is refused before it begins:
 * counted and not timed, so that the same call is answered or refused on every machine.
 */
function expectAtMost(most: number, subject: Subject, count: number, came: () => string): void {
  if (count > most) impossible(subject, came(), `at most ${most} in one call`);
}

export function expectCells(subject: Subject, cells: number, shape: () => string): void {
  expectAtMost(MOST_CELLS, subject, cells, () => `${shape()}, ${cells} cells`);
}

/** Results of which each takes as much work as so many of one number. */
export function expectLifted(subject: Subject, results: number, read: number, shape: () => string): void {
  const each = read > 1 ? `, each the work of ${read}` : "";
  expectAtMost(Math.floor(MOST_CELLS / read), subject, results, () => `${shape()}, ${results} cells${each}`);
}

export function expectItems(subject: Subject, items: number, most = MOST_ITEMS): void {
  expectAtMost(most, subject, items, () => `${items} items long`);
}

/** Shades down a column, each by itself. */
export function expectShadeColumn(subject: Subject, shades: number): void {
  expectAtMost(MOST_SHADES_DOWN, subject, shades, () => `${shades} shades`);
}

/** Shades that are taken together; as solids of a blend, fewer. */
export function expectShades(subject: Subject, shades: number, blended: boolean): void {
  expectAtMost(blended ? MOST_BLENDED : MOST_SHADES, subject, shades, () => `${shades} shades`);
}

/** Solids to choose a recipe from, so many at a time; with what that takes. */
export function expectSolids(solids: number, parts: number, effortOf: (parts: number) => number): void {
  expectAtMost(MOST_SOLIDS, "solids", solids, () => `${solids} solids`);
  let most = Math.min(parts, solids);
  if (effortOf(most) <= MOST_EFFORT) return;
  while (most > 1 && effortOf(most) > MOST_EFFORT) most--;
  expectAtMost(most, "parts", parts, () => `${parts} for ${solids} solids`);
}

/** Shades of which each has its recipe looked for. */
export function expectTargets(targets: number, solids: number, parts: number, effort: number): void {
  const most = Math.max(1, Math.floor(MOST_EFFORT / effort));
  expectAtMost(most, "target", targets, () => `${targets} shades for ${solids} solids, ${parts} at a time`);
}

export function expectRows(subject: Subject, rows: number): void {
  expectAtMost(MOST_ROWS, subject, rows, () => `${rows} rows long`);
}

/** Every line against every charge. */
export function expectFooted(subject: Subject, rows: number, of: string, others: number): void {
  const cells = rows * others;
  expectAtMost(MOST_FOOTED, subject, cells, () => `${rows} for ${others} ${of}, ${cells} cells`);
}
