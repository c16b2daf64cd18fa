import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { additiveValues, blended } from "../../../src/trade/shade/blend-models";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { bestInSteps, cheaperInSteps, inWholeSteps } from "../../../src/trade/shade/whole-steps";
import { largestRemainder } from "../../../src/trade/largest-remainder";
import { Decimal } from "../../../src/trade/money";
import { errorIn, EVEN, exchanges, MODEL, PROBLEMS, sum } from "../../support/four-solids";
import { TEXTILES } from "../../support/measured-textiles";

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

  /** Every recipe in whole steps from a fewest to a most of each. */
  const every = (units: number, fewest: readonly number[], most: readonly number[]): number[][] => {
    const grow = (place: number, left: number): number[][] => {
      if (place === fewest.length) return left === 0 ? [[]] : [];
      const recipes: number[][] = [];
      for (let count = fewest[place]!; count <= most[place]!; count++)
        for (const others of grow(place + 1, left - count)) recipes.push([count, ...others]);
      return recipes;
    };
    return grow(0, units);
  };
  const ofEach = [
    { fewest: [1, 1, 1, 1], most: [12, 12, 12, 12] },
    { fewest: [1, 4, 1, 2], most: [3, 12, 2, 6] },
    { fewest: [0, 0, 0, 0], most: [12, 3, 12, 12] },
  ];

  test("the best of all recipes in whole steps with every solid in it is what trying them all says", () => {
    for (const { fewest, most } of ofEach) {
      const used = fewest.map((least) => Math.max(1, least));
      const errors = every(12, used, most).map((counts) => error(counts.map((count) => count / 12)));
      const best = bestInSteps(objective, columns, 12, { fewest, most })!;
      expect(best.error).toBe(Math.min(...errors));
      expect(error(best.shares)).toBe(best.error);
      best.shares.forEach((share, place) => {
        expect(share).toBeGreaterThanOrEqual(used[place]! / 12);
        expect(share).toBeLessThanOrEqual(most[place]! / 12);
      });
    }
    expect(bestInSteps(objective, columns, 12, { fewest: [1, 1, 1, 1], most: [2, 2, 2, 2] })).toBeUndefined();
  });

  test("cheaper in whole steps: within the error allowed, and no exchange of a step is cheaper and within it", () => {
    const prices = [12, 9, 20, 15];
    const costOf = (of: ArrayLike<number>) =>
      Array.from(of).reduce((all, share, index) => all + share * prices[index]!, 0);
    for (const { fewest, most } of ofEach) {
      const start = bestInSteps(objective, columns, 12, { fewest, most })!;
      for (const within of [start.error, start.error * 2 + 1, start.error * 20 + 50]) {
        const found = cheaperInSteps(objective, columns, start.shares, 12, { fewest, most }, prices, within);
        expect(found.error).toBe(error(found.shares));
        expect(found.error).toBeLessThanOrEqual(within);
        expect(costOf(found.shares)).toBeLessThanOrEqual(costOf(start.shares));
        expect(sum(Array.from(found.shares, (share) => Math.round(share * 12)))).toBe(12);
        for (const other of exchanges(found.shares, 1 / 12, 0)) {
          const counts = other.map((share) => Math.round(share * 12));
          if (counts.some((count, place) => count < fewest[place]! || count > most[place]!)) continue;
          const isBetter =
            costOf(other) < costOf(found.shares) - 1e-6 && error(counts.map((count) => count / 12)) <= within;
          expect(isBetter).toBe(false);
        }
      }
    }
  });

  test("a recipe that is in whole steps already, and right, stays", () => {
    if (!shares) return expect(problem.shares).toBeUndefined();
    const free = { fewest: shares.map(() => 0), most: shares.map(() => 100) };
    const guess = inWholeSteps(objective, columns, Float64Array.from(shares), 100, free)!;
    expect(Array.from(guess.shares)).toEqual(shares);
  });
});

describe("solids of one and the same colour", () => {
  const { objective } = PROBLEMS[1]!;
  const [solid] = TEXTILES.values();
  const same = [0, 1, 2].map(() => additiveValues(solid!, MODEL));
  const met = new ShadeObjective(Array.from(blended([1], [solid!], MODEL)), MODEL, [DAYLIGHT]);
  const free = (units: number) => ({ fewest: [0, 0, 0], most: [units, units, units] });
  const rounded = (shares: readonly number[], units: number, limits = free(units)) => {
    const found = inWholeSteps(objective, same, Float64Array.from(shares), units, limits)!;
    return Array.from(found.shares, (share) => Math.round(share * units));
  };

  test("no exchange brings anything: whole steps are those of largest remainder", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 97 }), { minLength: 3, maxLength: 3 }), (parts) => {
        const all = sum(parts);
        for (const units of [7, 20, 100]) {
          // Of shares as doubles have them: equal remainders, such as a third's, differ in their last digits.
          const shares = parts.map((part) => part / all);
          expect(rounded(shares, units)).toEqual(largestRemainder(new Decimal(units), parts).map(Number));
        }
      }),
    );
  });

  test("a share that is a whole step but for its last digit keeps it, where one that is as full gives way", () => {
    expect(0.29 * 100).toBeLessThan(29);
    expect(rounded([0.71, 0.29, 0], 100, { fewest: [0, 0, 1], most: [100, 100, 100] })).toEqual([70, 29, 1]);
  });

  test("of equals the first recipe stands, and one that is exact is not exchanged for ever", () => {
    const best = bestInSteps(objective, same, 4, { fewest: [1, 1, 1], most: [4, 4, 4] })!;
    expect(Array.from(best.shares)).toEqual([0.25, 0.25, 0.5]);
    const { error } = inWholeSteps(met, same, Float64Array.of(0.5, 0.5, 0), 2, free(2))!;
    expect(error).toBe(0);
  });

  test("only what is cheaper is exchanged, also where the error is just what is allowed", () => {
    const start = Float64Array.of(0.5, 0.5, 0);
    const { error } = bestInSteps(objective, same, 4, free(4))!;
    const cheaper = (prices: readonly number[]) =>
      Array.from(cheaperInSteps(objective, same, start, 2, free(2), prices, error).shares);
    expect(cheaper([3, 2, 1])).toEqual([0, 0, 1]);
    expect(cheaper([2, 2, 2])).toEqual([0.5, 0.5, 0]);
    expect(cheaper([0, 0, 0])).toEqual([0.5, 0.5, 0]);
  });
});
