import { at, counted, refuse } from "../refusal";
import { wholeRecipe } from "../whole-recipe";

/**
 * Mass of each solid for all colourways: Σ share × mass of the colourway, divided by what the losses between blending
 * and that mass leave, each a share of what enters its stage.
 */
export function solidsNeeded(
  recipes: readonly (readonly number[])[],
  quantities: readonly number[],
  losses: readonly number[],
): number[] {
  const whole = recipes.map((recipe, row) => wholeRecipe(at("recipes", row), recipe));
  if (quantities.length !== recipes.length) {
    refuse("quantities", `${counted(quantities.length, "item")} long`, `must have one per recipe, ${recipes.length}`);
  }
  const left = losses.reduce((share, lost) => share * (1 - lost), 1);
  return (whole[0] as readonly number[]).map((_, solid) => {
    const masses = whole.map((recipe, row) => (recipe[solid] as number) * (quantities[row] as number));
    return masses.reduce((sum, mass) => sum + mass, 0) / left;
  });
}
