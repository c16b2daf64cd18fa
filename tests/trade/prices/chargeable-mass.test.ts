import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chargeableMass, expectGoods } from "../../../src/trade/prices/chargeable-mass";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("charges", () => {
  test("the chargeable mass is never below the gross mass, and the step is the least that holds it", () => {
    fc.assert(
      fc.property(typed(0, 900, 2), typed(0, 6, 3), fc.constantFrom(0.1, 0.5, 1), (gross, volume, step) => {
        const exact = chargeableMass(gross, volume, 167, undefined).toNumber();
        const stepped = chargeableMass(gross, volume, 167, step).toNumber();
        expect(exact).toBeGreaterThanOrEqual(gross);
        expect(stepped).toBeGreaterThanOrEqual(exact - 1e-9);
        expect(stepped).toBeLessThan(exact + step);
      }),
    );
  });
});

describe("rules of price", () => {
  test("the chargeable mass is the greater of two, in whole steps where the carrier has them", () => {
    expect(chargeableMass(90, 0.5, 200, undefined).toNumber()).toBe(100);
    expect(chargeableMass(110.2, 0.5, 200, undefined).toNumber()).toBe(110.2);
    expect(chargeableMass(110.2, 0.5, 200, 0.5).toNumber()).toBe(110.5);
    expect(chargeableMass(110, 0.5, 200, 0.5).toNumber()).toBe(110);
  });
});

test("packed goods are no lighter than half of foam and no heavier than lead", () => {
  for (const [mass, volume] of [[5, 1], [120, 0.01], [0, 5], [0, 0], [100, 0]] as const) expectGoods(mass, volume); // prettier-ignore
  expect(refusalOf(() => expectGoods(4.9, 1))).toBe(
    "#VALUE! gross_kg is 4.9 in 1 m³; 4.9 kg/m³, as no goods are; swapped, or another unit?",
  );
  expect(refusalOf(() => expectGoods(100, 0.005))).toContain("gross_kg is 100 in 0.005 m³; 20000 kg/m³, ");
});
