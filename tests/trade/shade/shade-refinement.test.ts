import { describe, expect, test } from "vitest";
import { bestPair, polished, Refinement } from "../../../src/trade/shade/shade-refinement";
import { errorIn, EVEN, exchanges, PROBLEMS, sum } from "../../support/four-solids";

describe.each(PROBLEMS.map((problem, place) => ({ ...problem, place })))("problem $place", (problem) => {
  const { objective, columns, shares } = problem;
  const error = errorIn(problem);
  const refinement = new Refinement(objective, columns.length);

  test("refining never worsens, keeps the sum and the least share, and meets a blend of the solids", () => {
    for (const least of [0, 0.05, 0.2]) {
      const guess = refinement.from(EVEN, columns, least);
      expect(guess.error).toBeLessThanOrEqual(error(EVEN));
      expect(guess.error).toBeCloseTo(error(guess.shares), 12);
      expect(Math.abs(sum(guess.shares) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...guess.shares)).toBeGreaterThanOrEqual(least - 1e-12);
    }
    if (shares) {
      const guess = refinement.from(EVEN, columns, 0);
      expect(guess.error).toBeLessThan(1e-15);
      guess.shares.forEach((share, index) => expect(share).toBeCloseTo(shares[index]!, 6));
    }
  });

  test("one solid is left as it is", () => {
    const alone = refinement.from(Float64Array.of(1), [columns[0]!], 0);
    expect(Array.from(alone.shares)).toEqual([1]);
    expect(alone.error).toBe(error([1, 0, 0, 0]));
  });

  test("the best pair is the best of all pairs at the five parts tried", () => {
    for (const least of [0, 0.1]) {
      const pair = bestPair(objective, columns, least);
      let lowest = Infinity;
      for (let first = 0; first < 4; first++) {
        for (let second = first + 1; second < 4; second++) {
          for (const part of [0.05, 0.25, 0.5, 0.75, 0.95]) {
            const room = 1 - 4 * least;
            const tried = [0, 1, 2, 3].map(
              (index) => least + room * (index === first ? 1 - part : index === second ? part : 0),
            );
            lowest = Math.min(lowest, error(tried));
          }
        }
      }
      expect(pair.error).toBeCloseTo(lowest, 12);
      expect(pair.error).toBeCloseTo(error(pair.shares), 12);
      expect(Math.abs(sum(pair.shares) - 1)).toBeLessThan(1e-12);
    }
  });

  test("after polishing no exchange of a step helps, and the least share stands", () => {
    for (const least of [0, 0.05]) {
      const near = refinement.from(EVEN, columns, least).shares;
      for (const [start, steps] of [
        [EVEN, [0.05]],
        [near, [0.01, 0.001, 0.0001]],
      ] as const) {
        const guess = polished(objective, columns, start, least, steps);
        expect(guess.error).toBeLessThanOrEqual(error(start));
        expect(guess.error).toBeCloseTo(error(guess.shares), 10);
        expect(Math.abs(sum(guess.shares) - 1)).toBeLessThan(1e-12);
        expect(Math.min(...guess.shares)).toBeGreaterThanOrEqual(least - 1e-15);
        for (const other of exchanges(guess.shares, steps[steps.length - 1]!, least)) {
          expect(error(other)).toBeGreaterThanOrEqual(guess.error * (1 - 2e-7));
        }
      }
    }
    expect(polished(objective, columns, EVEN, 0, [])).toEqual({ shares: EVEN, error: error(EVEN) });
  });
});
