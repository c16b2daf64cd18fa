import { refuse } from "../refusal";
import { wholeRecipe } from "../whole-recipe";

/** What the shares of a blend are shares of. */
export type BlendBasis = "dry" | "label";

/**
 * Regain of a blend. On shares of dry mass the regains average: Σ d·R. Label shares are shares of mass with the agreed
 * regain in it, so the dry mass in a share c is c/(1+R): 1/Σ(c/(1+R)) − 1. The two differ, so the basis is never
 * guessed.
 */
export function blendRegain(
  shares: readonly number[],
  regains: readonly number[],
  basis: BlendBasis | undefined,
): number {
  if (basis === undefined) {
    refuse("basis", "left out", "write dry (shares of dry mass) or label (shares at regain); the results differ");
  }
  const whole = wholeRecipe("shares", shares);
  if (basis === "dry") {
    return whole.reduce((water, share, index) => water + share * (regains[index] as number), 0);
  }
  return 1 / whole.reduce((dry, share, index) => dry + share / (1 + (regains[index] as number)), 0) - 1;
}
