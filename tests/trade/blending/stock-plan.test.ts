import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solidsNeeded } from "../../../src/trade/blending/solids-needed";
import { stockPlan } from "../../../src/trade/blending/stock-plan";
import { exactOptimum } from "../../support/exact-programme";

/** Recipes in tenths, so that exact fractions can answer too. */
const plans = fc
  .record({ colourways: fc.integer({ min: 1, max: 4 }), solids: fc.integer({ min: 1, max: 4 }) })
  .chain(({ colourways, solids }) => {
    const many = <T>(item: fc.Arbitrary<T>, count: number) => fc.array(item, { minLength: count, maxLength: count });
    const cuts = many(fc.integer({ min: 0, max: 10 }), solids - 1).map((places) => [
      0,
      ...places.sort((a, b) => a - b),
      10,
    ]);
    const recipe = cuts.map((places) => places.slice(1).map((place, index) => place - (places[index] as number)));
    return fc.record({
      recipes: many(recipe, colourways),
      stock: many(fc.integer({ min: 0, max: 200 }), solids),
      values: many(fc.integer({ min: 1, max: 9 }), colourways),
      limits: many(fc.option(fc.integer({ min: 1, max: 100 }), { nil: Infinity }), colourways),
    });
  });
const inShares = (recipes: number[][]) => recipes.map((recipe) => recipe.map((tenths) => tenths / 10));
const open = (count: number) => ({ minShare: new Array(count).fill(0), maxShare: new Array(count).fill(1) });

describe("what a stock makes", () => {
  test("is worth what every corner in exact fractions says, and takes no more than there is", () => {
    fc.assert(
      fc.property(plans, ({ recipes, stock, values, limits }) => {
        const made = stockPlan(inShares(recipes), stock, { values, limits, ...open(recipes.length) });
        const exact = exactOptimum({
          direction: "most",
          objective: values,
          limits: [
            ...stock.map((mass, solid) => ({
              coefficients: recipes.map((recipe) => recipe[solid] as number),
              sense: "at most" as const,
              bound: 10 * mass,
            })),
            ...limits.flatMap((most, place) =>
              most === Infinity
                ? []
                : [
                    {
                      coefficients: limits.map((_, index) => (index === place ? 1 : 0)),
                      sense: "at most" as const,
                      bound: most,
                    },
                  ],
            ),
          ],
        });
        const worth = values.reduce((sum, value, index) => sum + value * (made[index] as number), 0);
        expect(exact.kind).toBe("optimal");
        expect(worth).toBeCloseTo((exact as { value: number }).value, 8);
        solidsNeeded(inShares(recipes), made, []).forEach((mass, solid) =>
          expect(mass).toBeLessThanOrEqual((stock[solid] as number) + 1e-9),
        );
        made.forEach((mass, index) => expect(mass).toBeLessThanOrEqual((limits[index] as number) + 1e-9));
      }),
      { numRuns: 500 },
    );
  });

  test("doubles with the stock and the limits", () => {
    fc.assert(
      fc.property(plans, ({ recipes, stock, values, limits }) => {
        const worth = (times: number) =>
          stockPlan(
            inShares(recipes),
            stock.map((mass) => times * mass),
            { values, limits: limits.map((most) => times * most), ...open(recipes.length) },
          ).reduce((sum, mass, index) => sum + mass * (values[index] as number), 0);
        expect(worth(2)).toBeCloseTo(2 * worth(1), 8);
      }),
    );
  });

  test("keeps the shares asked for among all that is made", () => {
    const bounds = { minShare: [0.2, 0.2, 0.2], maxShare: [0.5, 0.5, 0.5] };
    const made = stockPlan(
      [
        [1, 0],
        [0.5, 0.5],
        [0, 1],
      ],
      [100, 40],
      { values: [5, 1, 1], limits: [Infinity, Infinity, Infinity], ...bounds },
    );
    const all = made.reduce((sum, mass) => sum + mass, 0);
    made.forEach((mass) => {
      expect(mass / all).toBeGreaterThanOrEqual(0.2 - 1e-12);
      expect(mass / all).toBeLessThanOrEqual(0.5 + 1e-12);
    });
    // Solid 2 gives out: of T in all, half of the second and all of the third need it, least at 0.3 and 0.2 of T.
    expect(all).toBeCloseTo(40 / 0.35, 9);
    expect(made[0]).toBeCloseTo(all / 2, 9);
  });
});

describe("what a stock makes is refused with what is wrong", () => {
  const plan = (stock: number[], recipe: number[], min = 0, max = 1) =>
    stockPlan([recipe], stock, { values: [1], limits: [Infinity], minShare: [min], maxShare: [max] });

  test("a stock of other solids, a recipe that is not whole, shares that leave nothing", () => {
    expect(() => plan([5], [0.5, 0.5])).toThrow("stock is 1 item long; must have one per solid of recipes, 2");
    expect(() => plan([5, 5, 5], [0.5, 0.5])).toThrow("stock is 3 items long; must have one per solid of recipes, 2");
    expect(() => plan([5, 5], [0.5, 0.4])).toThrow("recipes[0] is 0.9");
    expect(() => plan([5, 5], [0.5, 0.5], 0, 0.9)).toThrow("max_share");
  });
});

describe("solids needed", () => {
  test("weigh what the colourways weigh before the losses", () => {
    fc.assert(
      fc.property(
        plans,
        fc.array(fc.integer({ min: 0, max: 30 }), { maxLength: 4 }),
        ({ recipes, limits }, percents) => {
          const quantities = limits.map((most) => (most === Infinity ? 0 : most));
          const losses = percents.map((percent) => percent / 100);
          const left = losses.reduce((share, lost) => share * (1 - lost), 1);
          const needed = solidsNeeded(inShares(recipes), quantities, losses);
          const all = needed.reduce((sum, mass) => sum + mass, 0);
          expect(all * left).toBeCloseTo(
            quantities.reduce((sum, mass) => sum + mass, 0),
            8,
          );
        },
      ),
    );
  });

  test("add up over colourways", () => {
    fc.assert(
      fc.property(plans, ({ recipes, values }) => {
        const together = solidsNeeded(inShares(recipes), values, [0.1]);
        const apart = recipes.map((recipe, index) =>
          solidsNeeded(inShares([recipe]), [values[index] as number], [0.1]),
        );
        together.forEach((mass, solid) =>
          expect(mass).toBeCloseTo(
            apart.reduce((sum, masses) => sum + (masses[solid] as number), 0),
            10,
          ),
        );
      }),
    );
  });
});
