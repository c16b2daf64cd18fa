import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkBreaks, PriceList, type TierMode } from "../../../src/trade/prices/tiers";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

/** A price list: breaks from 0 upwards, rates that fall. */
const priceList = fc
  .record({
    steps: fc.array(typed(1, 200, 1), { minLength: 0, maxLength: 6 }),
    cuts: fc.array(typed(0, 2, 2), { minLength: 6, maxLength: 6 }),
    first: typed(12, 20, 2),
  })
  .map(({ steps, cuts, first }) => {
    const breaks = [0];
    const rates = [first];
    steps.forEach((step, index) => {
      breaks.push(Number(((breaks[index] as number) + step).toFixed(1)));
      rates.push(Number(((rates[index] as number) - (cuts[index] as number)).toFixed(2)));
    });
    return { breaks, rates };
  });

const quantities = fc
  .tuple(typed(0, 1500, 1), typed(0, 1500, 1))
  .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

const cost = (quantity: number, list: { breaks: number[]; rates: number[] }, mode: TierMode): number =>
  new PriceList(list.breaks, list.rates).cost(quantity, mode).toNumber();

describe("tiers", () => {
  test('"incremental" and "next break" never charge less for more', () => {
    fc.assert(
      fc.property(
        priceList,
        quantities,
        fc.constantFrom("incremental" as const, "next break" as const),
        (list, [less, more], mode) => {
          checkBreaks(list.breaks, list.rates);
          expect(cost(less, list, mode)).toBeLessThanOrEqual(cost(more, list, mode));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('"all units" rises within a tier and dips at a break where the rate falls', () => {
    fc.assert(
      fc.property(priceList, ({ breaks, rates }) => {
        breaks.slice(1).forEach((start, index) => {
          const [before, after] = [rates[index], rates[index + 1]] as [number, number];
          const justBelow = start - 1e-6;
          const dips = new PriceList(breaks, rates)
            .cost(start, "all units")
            .lt(new PriceList(breaks, rates).cost(justBelow, "all units"));
          expect(dips).toBe(before > after);
          const middle = ((breaks[index] as number) + start) / 2;
          expect(cost(middle, { breaks, rates }, "all units")).toBeLessThanOrEqual(
            cost(justBelow, { breaks, rates }, "all units"),
          );
        });
      }),
    );
  });

  test('"next break" is the least that any quantity at or above costs by "all units"', () => {
    fc.assert(
      fc.property(priceList, typed(0, 1500, 1), (list, quantity) => {
        const candidates = [quantity, ...list.breaks.filter((start) => start > quantity)];
        const least = Math.min(...candidates.map((amount) => cost(amount, list, "all units")));
        expect(cost(quantity, list, "next break")).toBe(least);
      }),
    );
  });

  test("in another currency the cost scales", () => {
    fc.assert(
      fc.property(
        priceList,
        typed(0, 1500, 1),
        fc.constantFrom<TierMode>("all units", "incremental", "next break"),
        (list, quantity, mode) => {
          const once = new PriceList(list.breaks, list.rates).cost(quantity, mode);
          const hundredfold = list.rates.map((rate) => Math.round(rate * 100));
          expect(new PriceList(list.breaks, hundredfold).cost(quantity, mode).toFixed()).toBe(
            once.times(100).toFixed(),
          );
        },
      ),
    );
  });

  test.each([
    [[1, 5], [3, 2], "breaks[0] is 1; the first break must be 0"],
    [[0, 50, 50], [3, 2, 1], "breaks[2] is 50; must be above breaks[1], which is 50"],
    [[0, 50, 20], [3, 2, 1], "breaks[2] is 20; must be above breaks[1], which is 50"],
    [[0, 50], [3], "rates[1] is missing; give one rate for each of the 2 breaks"],
    [[0], [3, 2], "breaks[1] is missing; give one break for each of the 2 rates"],
  ])("breaks %j with rates %j: %s", (breaks, rates, message) => {
    expect(() => checkBreaks(breaks, rates)).toThrow(message);
  });
});

test("each mode charges what its words say, by hand", () => {
  const list = { breaks: [0, 50, 100, 110], rates: [3, 2, 1.9, 1] };
  const of = (mode: TierMode) => [0, 49, 50, 95, 99.9, 105, 200].map((quantity) => cost(quantity, list, mode));
  expect(of("all units")).toEqual([0, 147, 100, 190, 199.8, 199.5, 200]);
  // 50 at 3, 50 at 2, 10 at 1.9, the rest at 1.
  expect(of("incremental")).toEqual([0, 147, 150, 240, 249.8, 259.5, 359]);
  // Never more than the bill at any later break: 50 cost 100, 110 cost 110.
  expect(of("next break")).toEqual([0, 100, 100, 110, 110, 110, 200]);
});
