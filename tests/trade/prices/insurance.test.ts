import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { premium } from "../../../src/trade/prices/insurance";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("charges", () => {
  test("the circular premium is its rate of the value that holds it", () => {
    fc.assert(
      fc.property(typed(1, 99999, 2), typed(0.0001, 0.05, 4), typed(0, 0.5, 2), (amount, rate, uplift) => {
        const circular = premium(amount, rate, uplift, true);
        const onIts = premium(circular.plus(amount).toNumber(), rate, uplift, false).toNumber();
        expect(Math.abs(circular.toNumber() - onIts)).toBeLessThanOrEqual(1e-12 * onIts);
        expect(circular.gt(premium(amount, rate, uplift, false))).toBe(true);
      }),
    );
  });
});

describe("rules of price", () => {
  test("a circular premium needs a rate that leaves something", () => {
    // The insured value I = 1 × (900 + P) with P = 0.1·I: I = 1000, P = 100.
    expect(premium(900, 0.1, 0, true).toNumber()).toBe(100);
    expect(premium(900, 0.1, 0, false).toNumber()).toBe(90);
    for (const rate of [0.8, 0.9]) {
      expect(refusalOf(() => premium(900, rate, 0.25, true))).toBe(
        `#NUM! rate is ${rate}; with the uplift it must stay below 1 when circular`,
      );
    }
  });
});
