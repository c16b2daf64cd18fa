import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { duty } from "../../../src/trade/prices/duty";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("charges", () => {
  test("the sum of two duties is the higher and the lower together", () => {
    fc.assert(
      fc.property(typed(0, 9999, 2), typed(0, 999, 1), typed(0, 0.5, 3), typed(0, 9, 2), (value, kg, share, perKg) => {
        const [all, higher, lower] = (["sum", "higher", "lower"] as const).map((rule) =>
          duty(value, kg, share, perKg, rule),
        );
        expect(higher?.plus(lower as never).toFixed()).toBe(all?.toFixed());
      }),
    );
  });
});

describe("rules of price", () => {
  test("duty: on the value, on the quantity, both, the higher or the lower", () => {
    // 5% of 1,000 is 50; 100 kg at 0.70 are 70.
    const dutyBy = (rule: "sum" | "higher" | "lower") => duty(1000, 100, 0.05, 0.7, rule).toNumber();
    expect([dutyBy("sum"), dutyBy("higher"), dutyBy("lower")]).toEqual([120, 70, 50]);
    expect(duty(1000, 100, 0.05, undefined, "sum").toNumber()).toBe(50);
    for (const rule of ["higher", "lower"] as const) {
      expect(refusalOf(() => duty(1000, 100, 0.05, undefined, rule))).toBe(
        `#VALUE! specific is blank; rule "${rule}" compares two duties; give it`,
      );
    }
  });
});
