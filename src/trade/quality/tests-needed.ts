import { asShown } from "../money";
import { expectWithin } from "../plausible";
import { wholeUp } from "../whole";
import { limitOfT } from "./students-t";
import type { Sample } from "./sample";

/**
 * Nobody lets a mean be off by so many times what single tests are, nor makes the ten thousands of tests that a hundredth
 * of it asks for; common practice, no source.
 */
const LEAST_TIMES = 0.01;
const MOST_TIMES = 4;

/** Tests after which the mean of values of this CV is known to within the error, both fractions of the mean. */
export function testsNeeded(variation: number, error: number, deviate: number): number {
  const allowed = `must be ${LEAST_TIMES} to ${MOST_TIMES} times the cv of ${variation}; are the two swapped?`;
  expectWithin(error / variation, LEAST_TIMES, MOST_TIMES, "error", error, allowed);
  const ratio = asShown(deviate).times(asShown(variation)).div(asShown(error));
  return wholeUp(ratio.times(ratio), 1).toNumber();
}

/** More tests than anyone makes. */
const MOST_TESTS = 1_000_000;

/** Tests of the same spread after which the mean is known to within a margin; nothing where no number would do. */
export function testsFor({ deviation }: Sample, margin: number, confidence: number): number | undefined {
  const enough = (tests: number): boolean => (limitOfT(confidence, tests - 1) * deviation) / Math.sqrt(tests) <= margin;
  if (!enough(MOST_TESTS)) return undefined;
  let [low, high] = [1, MOST_TESTS];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
