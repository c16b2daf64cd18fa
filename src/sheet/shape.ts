import { nameOf, type Named } from "./arguments";
import { inReadingOrder, rowsOf, type Cells, type Result, type Results } from "./cells";
import { finite } from "./lift";

/** One value for each item of a list, laid out as the list lies in the sheet; blank after its last item. */
export function inShapeOf(argument: Named, values: readonly Result[]): Results {
  const [, cells] = nameOf(argument);
  let next = 0;
  return cells.map((row) => row.map(() => (next < values.length ? finite(values[next++] as Result) : "")));
}

/** One row of results for each row of a table that is not blank; a blank one stays blank at its place. */
export function inPlaces(blanks: readonly boolean[], rows: Results): Results {
  let next = 0;
  const width = rows[0]?.length ?? 0;
  const placed = blanks.map((blank) => (blank ? new Array<Result>(width).fill("") : (rows[next++] as Results[number])));
  return [...placed, ...rows.slice(next)];
}

/** Results as one column. */
export function asColumn(results: readonly Result[]): Results {
  return results.map((result) => [finite(result)]);
}

/** The cells of a list one below the other, so that a list lying in a row broadcasts like one in a column. */
export function columnOf(cells: Cells | null | undefined): Cells {
  return inReadingOrder(rowsOf(cells)).map((cell) => [cell]);
}

/** Rows for columns. */
export function transposed(rows: Results): Results {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] as Results[number][number]));
}
