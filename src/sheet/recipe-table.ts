import { counted, refuse } from "../trade/refusal";
import { list, nameOf, type Column, type Named } from "./arguments";
import { isBlank, shapeOf, type Cell } from "./cells";
import { refuseTotal } from "./headings";
import { blankIs, notNegative, share } from "./kinds";
import { block, hasListUnder, isAmong, namedList, namedMatrix, type NamedMatrix } from "./names";

/** In a table of recipes a blank is a solid that is not used; the sum of the row shows a forgotten one. */
const recipeShare = blankIs(share, 0);

/** Recipes, one a row and one column a solid, with the names of both. */
export function recipeTable(argument: Named): NamedMatrix<number> {
  return namedMatrix(argument, recipeShare);
}

/** Recipes that are each a list of its own. */
interface NamedRecipes extends Column<number[]> {
  readonly names: readonly string[];
  readonly solids: readonly string[];
}

/** The rows of a table of recipes that has names of both; nothing where the range is a single list, under its heading or not. */
export function namedRecipes(argument: Named): NamedRecipes | undefined {
  if (hasListUnder(argument, "share")) return undefined;
  const { name, figures, rowNames, columnNames, above } = block(argument, share);
  if (rowNames === undefined || columnNames === undefined || columnNames.length === 1) return undefined;
  refuseTotal(name, rowNames, "row", above);
  refuseTotal(name, columnNames, "column", 1);
  return {
    name,
    rows: figures.length,
    columns: 1,
    items: figures.map((row) => [row]),
    read: (row) => list({ [name]: [(row as Cell[]).map((cell) => (isBlank(cell) ? 0 : cell))] }, share),
    names: rowNames,
    solids: columnNames,
  };
}

/** Refuses recipes of which the names of the other side are those of another argument. */
export function expectNamesAlong(
  { name, rows, columns }: NamedMatrix<number>,
  side: "row" | "column",
  argument: Named,
  heading: string,
): void {
  const [own, other] = side === "row" ? [rows, columns] : [columns, rows];
  const { names } = namedList(argument, notNegative, heading).along;
  if (names === undefined || own.names === undefined || other.names === undefined) return;
  if (names.some((one) => isAmong(one, own.names ?? [])) || !names.every((one) => isAmong(one, other.names ?? [])))
    return;
  refuse(name, `turned beside ${nameOf(argument)[0]}`, `must have its names along the ${side}s: TRANSPOSE`);
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
