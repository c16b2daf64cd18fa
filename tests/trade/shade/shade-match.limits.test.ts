import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { additiveValues, blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { bestRecipes, cheapestRecipes, type MatchWish } from "../../../src/trade/shade/shade-match";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { TEXTILES } from "../../support/measured-textiles";
import { cases } from "../../support/random-cases";

const MODEL = fibreModel(0.15);
const ALL = [...TEXTILES.values()];
const textiles = (count: number) => fc.shuffledSubarray(ALL, { minLength: count, maxLength: count });

function wish(target: readonly number[], solids: readonly (readonly number[])[], more: Partial<MatchWish>): MatchWish {
  return { target, solids, parts: 4, leastShare: 0, model: MODEL, lights: [DAYLIGHT], step: 0, choices: 1, ...more };
}

/** The error of a recipe, by the objective of the search. */
function errors({ target, solids }: Pick<MatchWish, "target" | "solids">): (shares: readonly number[]) => number {
  const objective = new ShadeObjective(target, MODEL, [DAYLIGHT]);
  const columns = solids.map((solid) => additiveValues(solid, MODEL));
  return (shares) => {
    const values = new Float64Array(31);
    columns.forEach((column, index) => column.forEach((value, band) => (values[band]! += shares[index]! * value)));
    return objective.measure(values);
  };
}

/** Every recipe in steps of 1/units that keeps the limits. */
function everyRecipe(units: number, least: readonly number[], most: readonly number[], parts: number): number[][] {
  const found: number[][] = [];
  const extend = (counts: readonly number[], left: number): void => {
    const place = counts.length;
    if (place === least.length) {
      if (left === 0 && counts.filter((count) => count > 0).length <= parts)
        found.push(counts.map((count) => count / units));
      return;
    }
    for (let count = 0; count <= left; count++) {
      const share = count / units;
      if (share >= least[place]! - 1e-12 && share <= most[place]! + 1e-12) extend([...counts, count], left - count);
    }
  };
  extend([], units);
  return found;
}

/** A target that the solids nearly reach: a blend of them with a tenth of a stranger. */
const nearBlend = textiles(5).chain(([stranger, ...solids]) =>
  fc.array(fc.integer({ min: 0, max: 10 }), { minLength: 4, maxLength: 4 }).map((parts) => {
    const sum = parts.reduce((all, part) => all + part, 0) || 1;
    const own = parts.some((part) => part > 0) ? parts.map((part) => (0.9 * part) / sum) : parts.map(() => 0.225);
    return [Array.from(blended([0.1, ...own], [stranger!, ...solids], MODEL)), ...solids];
  }),
);

const UNITS = 20;
/** Limits of four solids in twentieths that leave some recipe. */
const limits = fc
  .record({
    least: fc.array(fc.constantFrom(0, 0, 0, 0.05, 0.1, 0.2), { minLength: 4, maxLength: 4 }),
    most: fc.array(fc.constantFrom(1, 1, 0.5, 0.4, 0.2, 0), { minLength: 4, maxLength: 4 }),
    parts: fc.integer({ min: 2, max: 4 }),
  })
  .filter(
    ({ least, most, parts }) =>
      least.every((low, place) => low <= most[place]!) &&
      least.filter((low) => low > 0).length <= parts &&
      everyRecipe(UNITS, least, most, parts).length > 0,
  );

describe("shares with a least and a most for each solid", () => {
  test("in steps: none of all recipes is nearer, for shades within reach", () => {
    let worse = 0;
    let compared = 0;
    fc.assert(
      fc.property(nearBlend, limits, ([target, ...solids], { least, most, parts }) => {
        const errorOf = errors({ target: target!, solids });
        const { recipes } = bestRecipes(
          wish(target!, solids, { parts, step: 0.05, leastShares: least, mostShares: most }),
        );
        const { shares } = recipes[0]!;
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        shares.forEach((share, place) => {
          expect(share).toBeGreaterThanOrEqual(least[place]! - 1e-12);
          expect(share).toBeLessThanOrEqual(most[place]! + 1e-12);
        });
        expect(shares.filter((share) => share > 0).length).toBeLessThanOrEqual(parts);
        const nearest = Math.min(...everyRecipe(UNITS, least, most, parts).map(errorOf));
        if (nearest > 64) return;
        compared++;
        if (errorOf(shares) > nearest * (1 + 1e-6)) worse++;
      }),
      { numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(0.4 * cases(150));
    // Rounding goes by exchanges of two solids and can miss one of three.
    expect(worse).toBeLessThanOrEqual(compared / 20);
  });

  test("any shares: no recipe of the grid is nearer", () => {
    fc.assert(
      fc.property(nearBlend, limits, ([target, ...solids], { least, most, parts }) => {
        const errorOf = errors({ target: target!, solids });
        const { recipes } = bestRecipes(wish(target!, solids, { parts, leastShares: least, mostShares: most }));
        const { shares } = recipes[0]!;
        shares.forEach((share, place) => {
          expect(share).toBeGreaterThanOrEqual(least[place]! - 1e-8);
          expect(share).toBeLessThanOrEqual(most[place]! + 1e-8);
        });
        expect(shares.filter((share) => share > 0).length).toBeLessThanOrEqual(parts);
        const nearest = Math.min(...everyRecipe(UNITS, least, most, parts).map(errorOf));
        if (nearest < 64) expect(errorOf(shares)).toBeLessThanOrEqual(nearest * (1 + 1e-6) + 1e-6);
      }),
      { numRuns: 120 },
    );
  });

  test("that limit nothing change nothing", () => {
    fc.assert(
      fc.property(textiles(7), fc.constantFrom(0, 0.05), ([target, ...solids], step) => {
        const free = bestRecipes(wish(target!, solids, { step }));
        const loose = wish(target!, solids, {
          step,
          leastShares: solids.map(() => 0),
          mostShares: solids.map(() => 1),
        });
        expect(bestRecipes(loose)).toEqual(free);
      }),
      { numRuns: 30 },
    );
  });

  test("with a least share of what is used, none in between", () => {
    fc.assert(
      fc.property(textiles(6), fc.constantFrom(0, 0.05), ([target, ...solids], step) => {
        const { recipes } = bestRecipes(
          wish(target!, solids, { step, leastShare: 0.1, mostShares: solids.map(() => 0.45) }),
        );
        for (const { shares } of recipes) {
          for (const share of shares.filter((own) => own > 0)) {
            expect(share).toBeGreaterThanOrEqual(0.1 - 1e-8);
            expect(share).toBeLessThanOrEqual(0.45 + 1e-8);
          }
        }
        expect(recipes).toHaveLength(1);
      }),
      { numRuns: 30 },
    );
  });

  test("hold where sets are too many to try them all", () => {
    const [target, ...solids] = ALL as [number[], ...number[][]];
    const most = solids.map((_, place) => (place % 5 === 0 ? 0 : 0.3));
    const least = solids.map((_, place) => (place === 4 ? 0.15 : 0));
    for (const parts of [4, 8]) {
      const { recipes, search } = bestRecipes(wish(target, solids, { parts, leastShares: least, mostShares: most }));
      expect(search).toBe(parts === 4 ? "near-best" : "heuristic");
      recipes[0]!.shares.forEach((share, place) => {
        expect(share).toBeGreaterThanOrEqual(least[place]! - 1e-8);
        expect(share).toBeLessThanOrEqual(most[place]! + 1e-8);
      });
    }
  });
});

describe("the cheapest within a difference", () => {
  const prices = fc.array(fc.integer({ min: 5, max: 40 }), { minLength: 4, maxLength: 4 });
  const costOf = (shares: readonly number[], price: readonly number[]) =>
    shares.reduce((sum, share, place) => sum + share * price[place]!, 0);

  test("is within it, and no recipe of the grid that is within it is cheaper", () => {
    let found = 0;
    fc.assert(
      fc.property(nearBlend, prices, fc.constantFrom(1.05, 1.5, 3), ([target, ...solids], price, slack) => {
        const errorOf = errors({ target: target!, solids });
        const nearest = bestRecipes(wish(target!, solids, {})).recipes[0]!;
        const within = Math.sqrt(errorOf(nearest.shares)) * slack + 0.2;
        if (within > 6) return;
        const { recipes } = cheapestRecipes(wish(target!, solids, { choices: 3 }), price, within);
        const cheapest = recipes[0]!;
        expect(Math.sqrt(errorOf(cheapest.shares))).toBeLessThanOrEqual(within * (1 + 1e-6));
        const costs = recipes.map(({ shares }) => costOf(shares, price));
        expect(costs.slice().sort((a, b) => a - b)).toEqual(costs);
        for (const shares of everyRecipe(UNITS, [0, 0, 0, 0], [1, 1, 1, 1], 4)) {
          if (errorOf(shares) > within * within) continue;
          expect(costs[0]!).toBeLessThanOrEqual(costOf(shares, price) * (1 + 1e-3) + 1e-6);
        }
        found++;
      }),
      { numRuns: 80 },
    );
    expect(found).toBeGreaterThan(cases(80) / 6);
  });

  test("in steps and within limits it keeps them", () => {
    fc.assert(
      fc.property(nearBlend, prices, limits, ([target, ...solids], price, { least, most, parts }) => {
        const errorOf = errors({ target: target!, solids });
        const terms = wish(target!, solids, { parts, step: 0.05, leastShares: least, mostShares: most });
        const nearest = errorOf(bestRecipes(terms).recipes[0]!.shares);
        const within = Math.sqrt(nearest) + 1;
        for (const { shares } of cheapestRecipes(terms, price, within).recipes) {
          expect(Math.sqrt(errorOf(shares))).toBeLessThanOrEqual(within * (1 + 1e-6));
          shares.forEach((share, place) => {
            expect(share).toBeGreaterThanOrEqual(least[place]! - 1e-12);
            expect(share).toBeLessThanOrEqual(most[place]! + 1e-12);
            expect(Math.abs(share * UNITS - Math.round(share * UNITS))).toBeLessThan(1e-9);
          });
        }
      }),
      { numRuns: 60 },
    );
  });

  test("there is none within less than the nearest", () => {
    const [target, ...solids] = ALL.slice(0, 5) as [number[], ...number[][]];
    const errorOf = errors({ target, solids });
    const nearest = Math.sqrt(errorOf(bestRecipes(wish(target, solids, {})).recipes[0]!.shares));
    expect(cheapestRecipes(wish(target, solids, {}), [1, 2, 3, 4], nearest * 0.9).recipes).toEqual([]);
    expect(cheapestRecipes(wish(target, solids, {}), [1, 2, 3, 4], nearest * 1.1).recipes).toHaveLength(1);
  });
});
