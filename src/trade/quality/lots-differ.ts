import { expectWithin, figure } from "../plausible";
import { dividedByZero } from "../refusal";
import type { Sample } from "./sample";
import { chanceBeyond } from "./students-t";

/** Is the spread taken as one, or each lot's own (Welch)? */
export type SpreadMethod = "pooled" | "unequal";

export interface LotComparison {
  readonly t: number;
  readonly degrees: number;
  /** The chance of a difference at least so large between lots that are alike. */
  readonly chance: number;
}

/** Lots that are compared are nearer; further apart are units. Common practice, no source. */
const MOST_RATIO = 5;

/** Student's t of the difference of two means, first less second. */
export function compareLots(first: Sample, second: Sample, method: SpreadMethod): LotComparison {
  const came = (): string => `${figure(second.mean)} on average beside ${figure(first.mean)} of values_1`;
  expectWithin(second.mean / first.mean, 1 / MOST_RATIO, MOST_RATIO, "values_2", came, "are both in one unit?");
  const [a, b] = [first.deviation ** 2 / first.tests, second.deviation ** 2 / second.tests];
  const both = first.tests + second.tests - 2;
  const pooled = ((first.tests - 1) * first.deviation ** 2 + (second.tests - 1) * second.deviation ** 2) / both;
  const square = method === "pooled" ? pooled * (1 / first.tests + 1 / second.tests) : a + b;
  if (square === 0) dividedByZero("values_1", "without spread, like values_2", "t needs values that differ");
  const degrees =
    method === "pooled" ? both : (a + b) ** 2 / (a ** 2 / (first.tests - 1) + b ** 2 / (second.tests - 1));
  const t = (first.mean - second.mean) / Math.sqrt(square);
  return { t, degrees, chance: chanceBeyond(t, degrees) };
}
