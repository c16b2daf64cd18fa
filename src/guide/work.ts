import { evaluate } from "./page/evaluate";
import { CellError, type Implementation, type Rows } from "./page/values";
import { textOf } from "./page/written";

/** What a drawing asks for its figures: the functions as they were built. */
export interface Work {
  /** The table that a formula gives. */
  readonly table: (formula: string) => Rows;
  readonly number: (formula: string) => number;
  readonly word: (formula: string) => string;
}

/** The rows that a formula gives, as arrays of this runtime; an error among them stops the build. */
export function workedRows(
  formula: string,
  functions: ReadonlyMap<string, Implementation>,
  cells?: (reference: string) => Rows,
): Rows {
  const rows = Array.from(evaluate(formula, functions, cells), (row) => [...row]);
  for (const value of rows.flat())
    if (value instanceof CellError) throw new Error(`${formula} gives ${value.code} ${value.message}`);
  return rows;
}

export function workOf(functions: ReadonlyMap<string, Implementation>): Work {
  const table = (formula: string) => workedRows(formula, functions);
  const single = (formula: string) => table(formula)[0]?.[0];
  return { table, number: (formula) => Number(single(formula)), word: (formula) => textOf(single(formula)) };
}
