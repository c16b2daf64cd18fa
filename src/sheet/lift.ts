import { impossible, refuse } from "../trade/refusal";
import type { Column } from "./arguments";
import { shapeOf, type Result, type Results } from "./cells";
import { worksheetError } from "./errors";

type Columns<A extends readonly unknown[]> = { readonly [K in keyof A]: Column<A[K]> };

/**
 * Lifts a calculation on single values over ranges: the arguments broadcast, a blank row stays blank, a bad row
 * becomes an error in its own cell. An argument of one cell is read once, and a fault in it is the whole call's.
 */
export function lift<A extends readonly unknown[]>(
  calculate: (...values: A) => Result,
  ...columns: Columns<A>
): Results {
  return over(columns, calculate, (outcome) => [finite(outcome)], [""], 1);
}

/** The same for a calculation whose one result is a row of cells. */
export function liftRows<A extends readonly unknown[]>(
  width: number,
  calculate: (...values: A) => readonly Result[],
  ...columns: Columns<A>
): Results {
  const blank = new Array<string>(width).fill("");
  return over(columns, calculate, (outcome) => outcome.map(finite), blank, width);
}

/** The common loop: `row` turns one outcome into the cells of one item. */
function over<A extends readonly unknown[], O>(
  columns: Columns<A>,
  calculate: (...values: A) => O,
  cellsOf: (outcome: O) => Result[],
  blank: readonly Result[],
  width: number,
): Results {
  const [rows, across] = commonShape(columns);
  const values: unknown[] = [];
  const varying: { index: number; column: Column<unknown>; down: boolean; along: boolean }[] = [];
  columns.forEach((column: Column<unknown>, index: number) => {
    if (column.rows === 1 && column.columns === 1) {
      values[index] = single(column);
    } else {
      varying.push({ index, column, down: column.rows > 1, along: column.columns > 1 });
    }
  });
  if (varying.length === 0) return [cellsOf(calculate(...(values as unknown as A)))];

  const results: Results = new Array(rows);
  for (let row = 0; row < rows; row++) {
    const cells: Results[number] = [];
    for (let place = 0; place < across; place++) {
      try {
        let skip = false;
        for (const { index, column, down, along } of varying) {
          const atRow = down ? row : 0;
          const atColumn = along ? place : 0;
          if (!column.blank(atRow, atColumn)) values[index] = column.at(atRow, atColumn);
          else if (column.fallback) values[index] = column.fallback.value;
          else skip = true;
        }
        append(cells, skip ? blank : cellsOf(calculate(...(values as unknown as A))));
      } catch (thrown) {
        const error = worksheetError(thrown);
        for (let index = 0; index < width; index++) cells.push(error);
      }
    }
    results[row] = cells;
  }
  return results;
}

function append(cells: Results[number], more: readonly Result[]): void {
  for (const cell of more) cells.push(cell);
}

function single(column: Column<unknown>): unknown {
  if (!column.blank(0, 0)) return column.at(0, 0);
  return column.fallback ? column.fallback.value : refuse(column.name, "blank", "must be given");
}

/** Equal shapes, a single cell against anything, one row or column against a matching matrix. */
function commonShape(columns: readonly Column<unknown>[]): [rows: number, columns: number] {
  let widest = columns[0] as Column<unknown>;
  for (const column of columns) if (column.rows * column.columns > widest.rows * widest.columns) widest = column;
  for (const column of columns) {
    const fits =
      (column.rows === widest.rows || column.rows === 1) && (column.columns === widest.columns || column.columns === 1);
    if (!fits) {
      refuse(
        column.name,
        shapeOf(column.rows, column.columns),
        `must be one cell or match ${widest.name}, which is ${shapeOf(widest.rows, widest.columns)}`,
      );
    }
  }
  return [widest.rows, widest.columns];
}

/** No result may be NaN or Infinity; and no cell may show -0. */
export function finite<R extends Results[number][number]>(result: R): R | number {
  if (typeof result !== "number") return result;
  if (!Number.isFinite(result))
    impossible("the result", "beyond what a cell can hold", "check the size of the arguments");
  return result + 0;
}

/** Makes sure of the same for a table or list of results. */
export function finiteRows(rows: readonly (readonly Results[number][number][])[]): Results {
  return rows.map((row) => row.map((cell) => finite(cell)));
}

/** One cell of a table that may have to be an error while the rest of the table stands. */
export function cellOrError(calculate: () => Result): Results[number][number] {
  try {
    return finite(calculate());
  } catch (thrown) {
    return worksheetError(thrown);
  }
}
