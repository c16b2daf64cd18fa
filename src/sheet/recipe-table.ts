import { counted, refuse } from "../trade/refusal";
import type { Named } from "./arguments";
import { shapeOf } from "./cells";
import { blankIs, share } from "./kinds";
import { namedMatrix, type NamedMatrix } from "./names";

/** In a table of recipes a blank is a solid that is not used; the sum of the row shows a forgotten one. */
const recipeShare = blankIs(share, 0);

/** Recipes, one a row and one column a solid, with the names of both. */
export function recipeTable(argument: Named): NamedMatrix<number> {
  return namedMatrix(argument, recipeShare);
}

/** Refuses recipes that fit another argument only when they are turned. */
export function expectTurned(table: NamedMatrix<number>, side: "row" | "column", of: string, count: number): void {
  const { name, rows, columns } = table;
  const [own, other] = side === "row" ? [rows.count, columns.count] : [columns.count, rows.count];
  if (own === count || other !== count || own === 1 || other === 1) return;
  refuse(
    name,
    shapeOf(rows.count, columns.count),
    `must have ${counted(count, side)}, one an item of ${of}: TRANSPOSE`,
  );
}
