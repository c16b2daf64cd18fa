import { refuse, type Subject } from "./refusal";
import { figure } from "./plausible";

/** Shares written to seven decimals, such as thirds, miss 1 by no more; a forgotten or mistyped share misses it by more. */
const FURTHEST = 1e-6;

/** What adding does to shares that sum to 1 as they are written: nothing to mend. */
const ROUNDING = 1e-12;

/**
 * The shares of a whole blend. There is one verdict on a recipe wherever it is used: within a millionth of 1 it is
 * scaled to 1, beyond that it is refused.
 */
export function wholeRecipe(subject: Subject, shares: readonly number[]): number[] {
  const total = shares.reduce((sum, share) => sum + share, 0);
  const missing = Math.abs(total - 1);
  if (missing <= ROUNDING) return [...shares];
  if (!(missing <= FURTHEST + ROUNDING)) {
    refuse(subject, `${figure(total, 9)} in all`, "must sum to 1 (100%); MIXROUND mends rounded shares");
  }
  return shares.map((share) => share / total);
}
