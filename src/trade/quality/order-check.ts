import { refuse } from "../refusal";
import { halfRange, type Sample } from "./sample";
import { testsFor } from "./tests-needed";
import { figure } from "../plausible";

export interface OrderCheck {
  readonly low: number;
  readonly high: number;
  /** Of the mean from what was ordered, as a fraction of it. */
  readonly offBy: number;
  readonly verdict: string;
}

/** Does what was measured hold what was ordered, within a tolerance (a fraction of it)? */
export function orderCheck(sample: Sample, ordered: number, tolerance: number, confidence: number): OrderCheck {
  // What is measured at half or twice of what was ordered is measured in another unit.
  if (sample.mean > 2 * ordered || sample.mean < ordered / 2) {
    refuse("ordered", String(ordered), `the mean of values is ${figure(sample.mean, 6)}; check the unit`);
  }
  const half = halfRange(sample, confidence);
  const [low, high] = [sample.mean - half, sample.mean + half];
  const [least, most] = [ordered * (1 - tolerance), ordered * (1 + tolerance)];
  const offBy = (sample.mean - ordered) / ordered;
  if (low >= least && high <= most) return { low, high, offBy, verdict: "holds" };
  if (high < least || low > most) return { low, high, offBy, verdict: "does not hold" };
  const margin = Math.min(Math.abs(sample.mean - least), Math.abs(sample.mean - most));
  const tests = testsFor(sample, margin, confidence);
  const advice = tests === undefined ? "" : `; ${tests} would do`;
  return { low, high, offBy, verdict: `too few tests to tell${advice}` };
}
