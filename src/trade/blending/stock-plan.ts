import { settledAmounts, type Limit } from "../solvers/linear-programme";
import { at, counted, refuse } from "../refusal";
import { binding, expectShareBounds } from "./share-bounds";
import { wholeRecipe } from "../whole-recipe";

/** What stands beside each colourway: what a unit of its mass is worth, the most wanted, its bounds among all made. */
export interface Colourways {
  readonly values: readonly number[];
  /** Infinity where there is none. */
  readonly limits: readonly number[];
  readonly minShare: readonly number[];
  readonly maxShare: readonly number[];
}

/**
 * Mass of each colourway that makes the most of the stock of solids. Making nothing is always possible, and no recipe
 * is without mass, so there is always a best plan.
 */
export function stockPlan(
  given: readonly (readonly number[])[],
  stock: readonly number[],
  { values, limits, minShare, maxShare }: Colourways,
): number[] {
  const recipes = given.map((recipe, row) => wholeRecipe(at("recipes", row), recipe));
  const solids = (recipes[0] as readonly number[]).length;
  if (stock.length !== solids)
    refuse("stock", `${counted(stock.length, "item")} long`, `must have one per solid of recipes, ${solids}`);
  expectShareBounds(minShare, maxShare);
  const programme: Limit[] = stock.map((most, solid) => ({
    coefficients: recipes.map((recipe) => recipe[solid] as number),
    most,
  }));
  recipes.forEach((_, row) => {
    const oneOf = (own: number, other: number) => recipes.map((__, index) => (index === row ? own : other));
    const { least, most } = binding(minShare[row] as number, maxShare[row] as number);
    programme.push({ coefficients: oneOf(1, 0), most: limits[row] });
    if (least !== undefined) programme.push({ coefficients: oneOf(1 - least, -least), least: 0 });
    if (most !== undefined) programme.push({ coefficients: oneOf(1 - most, -most), most: 0 });
  });
  return settledAmounts("the plan", { direction: "most", objective: values, limits: programme });
}
