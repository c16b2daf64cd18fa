import { rowsOf, type Cell, type Cells, type Result, type Results } from "./cells";

/** The cells of a list one below the other, so that a list lying in a row broadcasts like one in a column. */
export function columnOf(cells: Cells | null | undefined): Cells {
  return ([] as Cell[]).concat(...rowsOf(cells)).map((cell) => [cell]);
}

/** One result per item of a list, in the shape of the list; blank cells after the last item stay blank. */
export function shapedLike(cells: Cells, results: readonly Result[]): Results {
  let next = 0;
  return rowsOf(cells).map((row) => row.map(() => results[next++] ?? ""));
}
