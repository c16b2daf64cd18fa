import type { CountSystem } from "../../tables/count-systems";
import { heavier } from "./counts";

/**
 * What a take-up in plying is a fraction of: the length that goes in (initial) or the plied length that comes out
 * (final). Both are in print, and at 10 % they differ by a percent of the count.
 */
export type TakeUpBasis = "initial" | "final";

/** Length that goes in for each unit of length that comes out. Below 1 when plying lengthens the yarn. */
export function lengthIn(takeUp: number, basis: TakeUpBasis): number {
  return basis === "initial" ? 1 / (1 - takeUp) : 1 + takeUp;
}

/** Count of the plied yarn from the count of its single. */
export function plyCount(
  single: number,
  plies: number,
  system: CountSystem,
  takeUp: number,
  basis: TakeUpBasis,
): number {
  return heavier(single, plies * lengthIn(takeUp, basis), system);
}

/** Count of the single that plies to the resultant wanted. */
export function singleCount(
  resultant: number,
  plies: number,
  system: CountSystem,
  takeUp: number,
  basis: TakeUpBasis,
): number {
  return heavier(resultant, 1 / (plies * lengthIn(takeUp, basis)), system);
}
