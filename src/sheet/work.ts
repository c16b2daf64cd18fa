import { impossible, type Subject } from "../trade/refusal";

/** As many cells as two whole columns of the sheet. A calculation of them takes less than three seconds. */
const MOST_CELLS = 2 ** 21;

/** Items of one list, rows of a table, or cells that each foot with others: each costs some microseconds. */
const [MOST_ITEMS, MOST_ROWS, MOST_FOOTED] = [500_000, 250_000, 500_000];

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

export function expectItems(subject: Subject, items: number): void {
  expectAtMost(MOST_ITEMS, subject, items, () => `${items} items long`);
}

export function expectRows(subject: Subject, rows: number): void {
  expectAtMost(MOST_ROWS, subject, rows, () => `${rows} rows long`);
}

/** Every line against every charge. */
export function expectFooted(subject: Subject, rows: number, of: string, others: number): void {
  const cells = rows * others;
  expectAtMost(MOST_FOOTED, subject, cells, () => `${rows} for ${others} ${of}, ${cells} cells`);
}
