import { describe, expect, test } from "vitest";
import { inWholeSteps } from "../../../src/trade/shade/whole-steps";
import { errorIn, EVEN, exchanges, PROBLEMS, sum } from "../../support/four-solids";

describe.each(PROBLEMS.map((problem, place) => ({ ...problem, place })))("problem $place", (problem) => {
  const { objective, columns, shares } = problem;
  const error = errorIn(problem);

  test("whole steps sum to 1, keep the least, and no exchange of one helps", () => {
    for (const [units, leastUnits] of [
      [100, 0],
      [20, 1],
      [7, 1],
    ] as const) {
      for (const start of [[0.97, 0.01, 0.01, 0.01], [0.333, 0.333, 0.333, 0.001], Array.from(EVEN)]) {
        const limits = { fewest: start.map(() => leastUnits), most: start.map(() => units) };
        const guess = inWholeSteps(objective, columns, Float64Array.from(start), units, limits)!;
        const counts = Array.from(guess.shares, (share) => share * units);
        counts.forEach((count) => expect(Math.abs(count - Math.round(count))).toBeLessThan(1e-9));
        expect(sum(counts.map(Math.round))).toBe(units);
        expect(Math.min(...counts)).toBeGreaterThanOrEqual(leastUnits - 1e-9);
        expect(guess.error).toBeCloseTo(error(guess.shares), 12);
        for (const other of exchanges(guess.shares, 1 / units, leastUnits / units)) {
          expect(error(other)).toBeGreaterThanOrEqual(guess.error * (1 - 2e-9));
        }
      }
    }
  });

  test("whole steps keep to the most of each, and there are none where that leaves no whole", () => {
    const start = Float64Array.from(EVEN);
    const guess = inWholeSteps(objective, columns, start, 10, { fewest: [0, 3, 0, 0], most: [1, 9, 2, 9] })!;
    const counts = Array.from(guess.shares, (share) => Math.round(share * 10));
    expect(sum(counts)).toBe(10);
    expect(counts[0]!).toBeLessThanOrEqual(1);
    expect(counts[1]!).toBeGreaterThanOrEqual(3);
    expect(counts[2]!).toBeLessThanOrEqual(2);
    expect(inWholeSteps(objective, columns, start, 10, { fewest: [0, 0, 0, 0], most: [2, 2, 2, 2] })).toBeUndefined();
    expect(inWholeSteps(objective, columns, start, 10, { fewest: [4, 4, 4, 4], most: [9, 9, 9, 9] })).toBeUndefined();
  });

  test("a recipe that is in whole steps already, and right, stays", () => {
    if (!shares) return expect(problem.shares).toBeUndefined();
    const free = { fewest: shares.map(() => 0), most: shares.map(() => 100) };
    const guess = inWholeSteps(objective, columns, Float64Array.from(shares), 100, free)!;
    expect(Array.from(guess.shares)).toEqual(shares);
  });
});
