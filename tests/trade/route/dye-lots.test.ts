import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dyeLots } from "../../../src/trade/route/dye-lots";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("dye lots", () => {
  test("a minimum may be all the vessel takes, and every lot is then a full one", () => {
    const { lots, lotMass, lotSurplus } = dyeLots(150, 100, 100);
    expect([lots, lotMass.toNumber(), lotSurplus.toNumber()]).toEqual([2, 100, 25]);
  });

  test("ten thousand lots are still counted", () => {
    expect(dyeLots(10_000, 1, 0).lots).toBe(10_000);
    expect(refusalOf(() => dyeLots(10_001, 1, 0))).toBe(
      "#VALUE! mass is 10001 lots; must need at most 10000; check the units",
    );
  });

  test("are the fewest that fit, and hold the mass", () => {
    fc.assert(
      fc.property(typed(0.1, 900, 1), typed(5, 120, 1), typed(0, 1, 2), (mass, capacity, part) => {
        const minimum = capacity * part;
        const { lots, lotMass, lotSurplus } = dyeLots(mass, capacity, minimum);
        expect(lotMass.toNumber()).toBeLessThanOrEqual(capacity * (1 + 1e-11));
        expect(lotMass.toNumber()).toBeGreaterThanOrEqual(minimum);
        expect((lots - 1) * capacity).toBeLessThan(mass);
        expect(Math.abs(lotMass.minus(lotSurplus).times(lots).toNumber() - mass)).toBeLessThanOrEqual(1e-12 * mass);
        if (lotSurplus.gt(0)) expect(lotMass.toNumber()).toBe(minimum);
      }),
    );
  });
});
