import { rowsOf, type Cell, type Cells } from "./cells";

/** The cells of a list one below the other, so that a list lying in a row broadcasts like one in a column. */
export function columnOf(cells: Cells | null | undefined): Cells {
  return ([] as Cell[]).concat(...rowsOf(cells)).map((cell) => [cell]);
}
