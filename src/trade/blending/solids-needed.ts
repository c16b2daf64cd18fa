import { counted, refuse } from "../refusal";

/** How far a recipe may be from 1 in all: the rounding of its sum, not of its shares. */
const ROUNDING = 1e-9;

/** A recipe is the whole of a blend; a forgotten or mistyped share shows in its sum. */
export function expectWhole(name: string, shares: readonly number[], advice = "must sum to 1 (100%)"): void {
  const total = shares.reduce((sum, share) => sum + share, 0);
  if (Math.abs(total - 1) > ROUNDING) refuse(name, `${Number(total.toPrecision(9))} in all`, advice);
}

/**
 * Mass of each solid for all colourways: Σ share × mass of the colourway, divided by what the losses between blending
 * and that mass leave, each a share of what enters its stage.
 */
export function solidsNeeded(
  recipes: readonly (readonly number[])[],
  quantities: readonly number[],
  losses: readonly number[],
): number[] {
  recipes.forEach((recipe, row) => expectWhole(`recipes row ${row + 1}`, recipe));
  if (quantities.length !== recipes.length) {
    refuse(
      "quantities",
      `${counted(quantities.length, "item")} long`,
      `must have one per row of recipes, ${recipes.length}`,
    );
  }
  const left = losses.reduce((share, lost) => share * (1 - lost), 1);
  return (recipes[0] as readonly number[]).map((_, solid) => {
    const masses = recipes.map((recipe, row) => (recipe[solid] as number) * (quantities[row] as number));
    return masses.reduce((sum, mass) => sum + mass, 0) / left;
  });
}
