import { refuse } from "../refusal";
import { limitOfT } from "./students-t";

/** Measured values summed up. */
export interface Sample {
  readonly tests: number;
  readonly mean: number;
  /** Standard deviation, on one less than the number of tests. */
  readonly deviation: number;
}

export function sampleOf(values: readonly number[], name: string): Sample {
  const tests = values.length;
  if (tests < 2) refuse(name, "1 value", "must hold 2 or more; one test tells nothing of the spread");
  const mean = values.reduce((sum, value) => sum + value, 0) / tests;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { tests, mean, deviation: Math.sqrt(squares / (tests - 1)) };
}

export function standardError({ tests, deviation }: Sample): number {
  return deviation / Math.sqrt(tests);
}

/** How far to either side of the mean of the sample the true mean lies with this confidence. */
export function halfRange(sample: Sample, confidence: number): number {
  return limitOfT(confidence, sample.tests - 1) * standardError(sample);
}
