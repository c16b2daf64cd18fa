import { refuse } from "../refusal";
import { sum } from "../money";

/** What the shares of a blend are shares of. */
export type BlendBasis = "dry" | "label";

/** Shares typed as thirds do not sum to 1 exactly. */
const NEAR_ONE = 1e-6;

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
  const total = sum(shares).toNumber();
  if (Math.abs(total - 1) > NEAR_ONE) refuse("shares", `${total} in all`, "must sum to 1 (100%)");
  if (basis === "dry") {
    return shares.reduce((water, share, index) => water + share * (regains[index] as number), 0) / total;
  }
  return total / shares.reduce((dry, share, index) => dry + share / (1 + (regains[index] as number)), 0) - 1;
}
