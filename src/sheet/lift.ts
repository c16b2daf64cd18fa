import { beyondNumbers, counted, refuse } from "../trade/refusal";
import type { Column } from "./arguments";
import { isBlank, shapeOf, type Cell, type Result, type Results } from "./cells";
import { enoughTold, errorIn, toldBefore, worksheetError } from "./errors";
import { standsForItself } from "./kinds";
import { expectCells, expectLifted } from "./work";

type Columns<A extends readonly unknown[]> = { readonly [K in keyof A]: Column<A[K]> };
type OutCell = Results[number][number];
type Calculation<R> = (...values: unknown[]) => R;

/**
 * Lifts a calculation on single values over ranges: the arguments broadcast, a blank row stays blank, a bad row
 * becomes an error in its own cell. An argument of one cell is read once, and a fault in it is the whole call's.
 */
export function lift<A extends readonly unknown[]>(
  calculate: (...values: A) => Result,
  ...columns: Columns<A>
): Results {
  const { rows, across, values, varying } = prepared(columns);
  const call = calculate as unknown as Calculation<Result>;
  if (varying.length === 0) return [[finite(call(...values))]];
  const only = varying[0] as Varying;
  if (varying.length === 1 && across === 1 && only.index === 0 && values.length <= 5) {
    return liftedColumn(call, only.column, values, (row) => liftedCell(call, values, varying, row, 0));
  }
  const results = new Array<OutCell[]>(rows);
  for (let row = 0; row < rows; row++) {
    const cells = [liftedCell(call, values, varying, row, 0)];
    for (let place = 1; place < across; place++) cells.push(liftedCell(call, values, varying, row, place));
    results[row] = cells;
  }
  return results;
}

/**
 * The usual case, written out because people have long columns of it: numbers that stand for themselves down the first
 * argument, one cell for each of the others. Whatever is out of the usual is worked out by `otherwise`.
 */
function liftedColumn(
  calculate: Calculation<Result>,
  column: Column<unknown>,
  [, second, third, fourth, fifth]: readonly unknown[],
  otherwise: (row: number) => OutCell,
): Results {
  const results = new Array<OutCell[]>(column.rows);
  for (let row = 0; row < results.length; row++) {
    const item = (column.items[row] as Cell[])[0];
    try {
      results[row] = [
        standsForItself(item, column) ? finite(calculate(item, second, third, fourth, fifth)) : otherwise(row),
      ];
    } catch (thrown) {
      results[row] = [worksheetError(thrown)];
    }
  }
  return results;
}

/** The same for a calculation whose one result is a row of cells. */
export function liftRows<A extends readonly unknown[]>(
  width: number,
  calculate: (...values: A) => readonly Result[],
  ...columns: Columns<A>
): Results {
  const { rows, across, values, varying } = prepared(columns);
  if (across > 1) {
    const wide = columns.find((column: Column<unknown>) => column.columns > 1) as Column<unknown>;
    refuse(wide.name, `${counted(across, "column")} wide`, "must be one column, because each result is a row");
  }
  const longest = most(columns, "rows");
  expectCells(longest.name, rows * width, () => `${rows} rows for ${width} columns of results`);
  const call = calculate as unknown as Calculation<readonly Result[]>;
  if (varying.length === 0) return [call(...values).map(finite)];

  const results = new Array<OutCell[]>(rows);
  for (let row = 0; row < rows; row++) {
    try {
      const instead = filled(values, varying, row, 0);
      results[row] = instead === undefined ? call(...values).map(finite) : new Array<OutCell>(width).fill(instead);
    } catch (thrown) {
      results[row] = new Array<OutCell>(width).fill(worksheetError(thrown));
    }
  }
  return results;
}

/** An argument of more than one item, and how it runs along the result. */
interface Varying {
  readonly index: number;
  readonly column: Column<unknown>;
  readonly down: boolean;
  readonly along: boolean;
}

/** The result's shape; the values of arguments of one item, read once; and the arguments that vary. */
function prepared(columns: readonly Column<unknown>[]): {
  rows: number;
  across: number;
  values: unknown[];
  varying: Varying[];
} {
  const [rows, across] = commonShape(columns);
  const values: unknown[] = [];
  const varying: Varying[] = [];
  columns.forEach((column, index) => {
    const down = column.rows > 1;
    const along = column.columns > 1;
    values.push(down || along ? undefined : single(column));
    if (down || along) varying.push({ index, column, down, along });
  });
  return { rows, across, values, varying };
}

function single(column: Column<unknown>): unknown {
  const item = (column.items[0] as unknown[])[0];
  if (!blankItem(item)) return column.read(item, column.name);
  return column.fallback ? column.fallback.value : refuse(column.name, "blank", "must be given");
}

/** A blank cell; or, where an item is a whole row of cells, a row of blanks. */
function blankItem(item: unknown): boolean {
  return isBlank(item) || (Array.isArray(item) && item.every(isBlank));
}

function liftedCell(
  calculate: Calculation<Result>,
  values: unknown[],
  varying: readonly Varying[],
  row: number,
  place: number,
): OutCell {
  try {
    const instead = filled(values, varying, row, place);
    return instead === undefined ? finite(calculate(...values)) : instead;
  } catch (thrown) {
    return worksheetError(thrown);
  }
}

/**
 * Reads the varying arguments of one place into `values`. What it returns stands in the place of a result: a blank where
 * a required one is blank, an error that came in, and, once so many cells were refused, the refusal of what cannot
 * be read: throwing takes longer than all the rest.
 */
function filled(values: unknown[], varying: readonly Varying[], row: number, place: number): OutCell | undefined {
  for (let index = 0; index < varying.length; index++) {
    const { index: at, column, down, along } = varying[index] as Varying;
    const item = (column.items[down ? row : 0] as Cell[])[along ? place : 0];
    if (standsForItself(item, column)) values[at] = item;
    else if (!blankItem(item)) {
      const error = errorIn(item);
      if (error !== undefined) return worksheetError(error);
      const refused = enoughTold() ? column.refusalOf?.(item) : undefined;
      if (refused !== undefined) return toldBefore(refused);
      values[at] = column.read(item, column.name);
    } else if (column.fallback) values[at] = column.fallback.value;
    else return "";
  }
  return undefined;
}

/** Equal shapes, a single cell against anything, one row or column against a matching matrix, a column against a row. */
function commonShape(columns: readonly Column<unknown>[]): [rows: number, columns: number] {
  const longest = most(columns, "rows");
  const widest = most(columns, "columns");
  for (const column of columns) {
    if (column.rows !== longest.rows && column.rows !== 1) misfit(column, longest);
    if (column.columns !== widest.columns && column.columns !== 1) misfit(column, widest);
  }
  const [rows, across] = [longest.rows, widest.columns];
  expectLifted(longest.name, rows * across, cellsRead(columns), () => {
    const crossed = longest.columns !== across && widest.rows !== rows;
    return `${crossed ? `crossed with ${widest.name} ` : ""}${shapeOf(rows, across)}`;
  });
  return [rows, across];
}

/**
 * What a result takes, as cells to be read: what long columns cost grows with the arguments that vary, and a word
 * takes as long to look up as two numbers.
 */
function cellsRead(columns: readonly Column<unknown>[]): number {
  const varying = columns.filter((column) => column.rows > 1 || column.columns > 1);
  return Math.max(varying.length, varying.every((column) => column.plain) ? 1 : 2);
}

function most(columns: readonly Column<unknown>[], side: "rows" | "columns"): Column<unknown> {
  return columns.reduce((sofar, column) => (column[side] > sofar[side] ? column : sofar));
}

/** The smaller of the two is to be mended. */
function misfit(one: Column<unknown>, other: Column<unknown>): never {
  const [less, more] = one.rows * one.columns > other.rows * other.columns ? [other, one] : [one, other];
  const wanted = `must be one cell or match ${more.name}, which is ${shapeOf(more.rows, more.columns)}`;
  refuse(less.name, shapeOf(less.rows, less.columns), wanted);
}

/** No result may be NaN or Infinity; and no cell may show -0. */
export function finite<R extends Results[number][number]>(result: R): R | number {
  if (typeof result !== "number") return result;
  if (!Number.isFinite(result)) beyondNumbers();
  return result + 0;
}

/** Makes sure of the same for a table or list of results, where they stand. */
export function finiteRows(rows: Results): Results {
  for (const row of rows) {
    for (let place = 0; place < row.length; place++) {
      const cell = row[place] as OutCell;
      row[place] = finite(cell);
    }
  }
  return rows;
}

/** One cell of a table that may have to be an error while the rest of the table stands. */
export function cellOrError(calculate: () => Result): Results[number][number] {
  try {
    return finite(calculate());
  } catch (thrown) {
    return worksheetError(thrown);
  }
}
