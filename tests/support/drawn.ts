import { figuresOf, type Figures, type Run } from "../../src/recalculate/figures";
import { blockOf, blocksIn, planFor, type Drawn } from "../../src/recalculate/sampling";
import type { Shape } from "../../src/recalculate/shapes";

/** Runs of a function of the inputs that is written down here, without a workbook. */
export function drawn(
  shapes: readonly Shape[],
  of: (...inputs: number[]) => number,
  runs: number,
  seed: number,
): { figures: Figures; runs: Run[] } {
  const inputs = shapes.map((shape, follows): Drawn => ({ shape, follows }));
  const plan = planFor(runs, seed);
  const found: Run[] = [];
  for (const block of blocksIn(plan)) {
    for (const values of blockOf(plan, block, inputs)) found.push({ inputs: values, value: of(...values), block });
  }
  return {
    figures: figuresOf(
      found,
      shapes.map((_, index) => index),
    ),
    runs: found,
  };
}

/** The standard normal value below which 95 % lie: D. B. Owen, "Handbook of Statistical Tables", 1962. */
const AT_95 = 1.6448536269514722;

export function normal(mean: number, deviation: number): Shape {
  return { kind: "normal", low: mean - AT_95 * deviation, high: mean + AT_95 * deviation };
}
