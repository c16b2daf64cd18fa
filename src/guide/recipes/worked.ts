import { workedRows } from "../work";
import type { Implementation, Rows } from "../page/values";
import type { Recipe, RecipeFormula } from "./recipe";

export interface WorkedFormula extends RecipeFormula {
  readonly rows: Rows;
}

/** A recipe as the sheet works it out; an error in it stops the build. */
export function workedRecipe(
  { cells, tables, formulas }: Recipe,
  functions: ReadonlyMap<string, Implementation>,
): WorkedFormula[] {
  const named = new Map<string, Rows>(cells.map(({ name, value }) => [name, [[value]]]));
  const cellsOf = (reference: string): Rows => {
    const [, name = reference, column] = /^(\w+)\[(.+)\]$/.exec(reference) ?? [];
    const rows = tables.find((table) => table.name === name)?.rows ?? named.get(name);
    if (rows === undefined) throw new Error(`nothing is called ${name}`);
    const [heads = [], ...body] = rows;
    if (column === undefined || column === "#All") return rows.map((row) => [...row]);
    const place = heads.indexOf(column);
    if (place < 0) throw new Error(`${name} has no column ${column}`);
    return body.map((row) => [row[place] ?? null]);
  };
  return formulas.map((own) => {
    const rows = workedRows(own.formula, functions, cellsOf);
    named.set(own.name, rows);
    return { ...own, rows };
  });
}
