import { describe, expect, test } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { additiveValues, blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { bestPair, errorOf, inWholeSteps, polished, refined } from "../../../src/trade/shade/shade-refinement";
import { TEXTILES } from "../../support/measured-textiles";

const MODEL = fibreModel(0.15);
const ALL = [...TEXTILES.values()];
const sum = (shares: ArrayLike<number>) => Array.from(shares).reduce((total, share) => total + share, 0);

/** Problems of four solids: blends of them (`shares`), and shades that they do not reach. */
const PROBLEMS = Array.from({ length: 12 }, (_, place) => {
  const solids = [0, 1, 2, 3].map((index) => ALL[(place * 3 + index * 7) % ALL.length]!);
  const shares = [0.46, 0.31, 0.17, 0.06];
  const within = place % 2 === 0;
  const target = within ? Array.from(blended(shares, solids, MODEL)) : ALL[(place * 5 + 11) % ALL.length]!;
  const objective = new ShadeObjective(target, MODEL, [DAYLIGHT]);
  return {
    objective,
    columns: solids.map((solid) => additiveValues(solid, MODEL)),
    shares: within ? shares : undefined,
  };
});
const EVEN = Float64Array.of(0.25, 0.25, 0.25, 0.25);

describe.each(PROBLEMS.map((problem, place) => ({ ...problem, place })))("problem $place", (problem) => {
  const { objective, columns, shares } = problem;
  const error = (of: ArrayLike<number>) => errorOf(objective, columns, Float64Array.from(Array.from(of)));
  /** All shares reached by one exchange of a step, or of what is above `least` if that is smaller. */
  const exchanges = (from: ArrayLike<number>, step: number, least: number): number[][] =>
    [0, 1, 2, 3].flatMap((giver) => {
      const amount = Math.min(step, from[giver]! - least);
      return [0, 1, 2, 3]
        .filter((taker) => taker !== giver && amount > 1e-12)
        .map((taker) =>
          Array.from(from, (share, index) => share + (index === taker ? amount : 0) - (index === giver ? amount : 0)),
        );
    });

  test("refining never worsens, keeps the sum and the least share, and meets a blend of the solids", () => {
    for (const least of [0, 0.05, 0.2]) {
      const guess = refined(objective, columns, EVEN, least);
      expect(guess.error).toBeLessThanOrEqual(error(EVEN));
      expect(guess.error).toBeCloseTo(error(guess.shares), 12);
      expect(Math.abs(sum(guess.shares) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...guess.shares)).toBeGreaterThanOrEqual(least - 1e-12);
    }
    if (shares) {
      const guess = refined(objective, columns, EVEN, 0);
      expect(guess.error).toBeLessThan(1e-15);
      guess.shares.forEach((share, index) => expect(share).toBeCloseTo(shares[index]!, 6));
    }
  });

  test("one solid is left as it is", () => {
    const alone = refined(objective, [columns[0]!], Float64Array.of(1), 0);
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
      const near = refined(objective, columns, EVEN, least).shares;
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
