import { rowsOf, type Cell, type Cells, type Result } from "./cells";

/** One result for each item of a list, in the shape the list came in: a column for a column, a row for a row. */
export function shapedLike(list: Cells, results: readonly Result[]): Result[][] {
  let next = 0;
  // The list ends at its last item; the blank cells after it stay blank.
  return rowsOf(list).map((row) => row.map(() => results[next++] ?? ""));
}

/** The cells of an argument below one another in reading order, whatever shape they came in. */
export function asColumn(cells: Cells | null | undefined): Cells {
  return ([] as Cell[]).concat(...rowsOf(cells)).map((cell) => [cell]);
}
