import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { breakEvenUnits } from "../../../src/trade/prices/break-even";
import type { Refusal } from "../../../src/trade/refusal";
import { Fraction } from "../../support/fractions";
import { decimals } from "../../support/money-arbitraries";
import { refusalOf } from "../../support/refusals";

describe("break-even", () => {
  test("the units cover fixed costs and profit, and one unit fewer does not", () => {
    fc.assert(
      fc.property(
        ...([decimals(0, 1e6, 2), decimals(0.02, 500, 2), decimals(0.01, 0.99, 2), decimals(0, 1e5, 2)] as const),
        (fixed, price, part, profit) => {
          const variable = Math.round(price * part * 100) / 100;
          fc.pre(variable < price);
          const units = breakEvenUnits(fixed, price, variable, profit);
          const earned = (count: number): Fraction =>
            Fraction.from(price).minus(Fraction.from(variable)).times(Fraction.from(count));
          const wanted = Fraction.from(fixed).plus(Fraction.from(profit));
          expect(Number.isInteger(units)).toBe(true);
          expect(earned(units).compare(wanted)).toBeGreaterThanOrEqual(0);
          if (units > 0) expect(earned(units - 1).compare(wanted)).toBe(-1);
        },
      ),
    );
  });

  // 0.3 - 0.2 is 0.09999999999999998 in binary; 1 / 0.1 is 10 by hand.
  test("a contribution of 0.1 is 0.1", () => expect(breakEvenUnits(1, 0.3, 0.2, 0)).toBe(10));

  test("scaling the currency leaves the units", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), fc.integer({ min: 2, max: 900 }), (fixed, price) => {
        expect(breakEvenUnits(fixed * 100, price * 100, 100, 0)).toBe(breakEvenUnits(fixed, price, 1, 0));
      }),
    );
  });

  test("no contribution is a division by zero, a negative one has no answer", () => {
    expect(() => breakEvenUnits(10, 5, 5, 0)).toThrow(expect.objectContaining({ kind: "division" }) as Refusal);
    expect(() => breakEvenUnits(10, 5, 6, 0)).toThrow(expect.objectContaining({ kind: "absent" }) as Refusal);
  });
});

describe("rules of price", () => {
  test("what leaves nothing for the fixed cost says so", () => {
    expect(refusalOf(() => breakEvenUnits(100, 5, 5, 0))).toBe(
      "#DIV/0! variable is 5, the same as price; must be below price",
    );
    expect(refusalOf(() => breakEvenUnits(100, 5, 6, 0))).toBe(
      "#N/A variable is 6, above price 5; no quantity breaks even",
    );
  });
});
