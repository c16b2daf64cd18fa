import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fee } from "../../../src/trade/prices/fee";
import { Fraction } from "../../support/fractions";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("charges", () => {
  test("a fee stays between its floor and its cap", () => {
    fc.assert(
      fc.property(typed(0, 1e6, 2), typed(0, 0.01, 6), (value, rate) => {
        const charged = fee(value, rate, 33.58, 651.5).toNumber();
        expect(charged).toBeGreaterThanOrEqual(33.58);
        expect(charged).toBeLessThanOrEqual(651.5);
        if (charged > 33.58 && charged < 651.5) {
          expect(charged).toBe(Fraction.from(value).times(Fraction.from(rate)).toNumber());
        }
      }),
    );
  });
});

describe("rules of price", () => {
  test("a fee has a floor and a cap, which may be the same", () => {
    const fees = [100, 5000, 100000].map((value) => fee(value, 0.01, 25, 500).toNumber());
    expect(fees).toEqual([25, 50, 500]);
    expect(fee(100000, 0.01, 25, undefined).toNumber()).toBe(1000);
    expect(fee(5000, 0.01, 30, 30).toNumber()).toBe(30);
    expect(refusalOf(() => fee(5000, 0.01, 30, 29))).toBe(
      "#VALUE! maximum is 29; must not be below minimum, which is 30",
    );
  });
});
