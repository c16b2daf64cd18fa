import { absent, at, refuse } from "../refusal";
import { figure } from "../plausible";

/** What adding does to bounds that leave exactly 1: no reason to refuse. */
const ROUNDING = 1e-9;

/** What binds of the bounds on one share: from 0 and up to 1 it lies by itself. */
export function binding(low: number, high: number): { readonly least?: number; readonly most?: number } {
  return { ...(low > 0 && { least: low }), ...(high < 1 && { most: high }) };
}

/** Bounds on shares that leave room for shares that sum to 1. */
export function expectShareBounds(minShare: readonly number[], maxShare: readonly number[]): void {
  minShare.forEach((low, index) => {
    const high = maxShare[index] as number;
    if (low > high + ROUNDING) refuse(at("min_share", index), String(low), `must not be above its max_share, ${high}`);
  });
  const [least, most] = [minShare, maxShare].map((shares) => shares.reduce((sum, share) => sum + share, 0)) as [
    number,
    number,
  ];
  if (least > 1 + ROUNDING) absent("min_share", `${figure(least, 9)} in all`, "shares of 1 in all cannot be met");
  if (most < 1 - ROUNDING) absent("max_share", `${figure(most, 9)} in all`, "shares of 1 in all cannot be met");
}
