import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conditionedMass, dryMass, invoiceMass } from "../../../src/trade/condition/conditioned-mass";

const regains = fc.integer({ min: 0, max: 10000 }).map((count) => count / 10000);

const masses = fc.integer({ min: 1, max: 10000000 }).map((count) => count / 1000);

describe("masses at a regain", () => {
  test("conditioning keeps the dry mass, and back again gives the mass", () => {
    fc.assert(
      fc.property(masses, regains, regains, (mass, now, standard) => {
        const conditioned = conditionedMass(mass, now, standard);
        expect(dryMass(conditioned, standard) / dryMass(mass, now)).toBeCloseTo(1, 13);
        expect(conditionedMass(conditioned, standard, now) / mass).toBeCloseTo(1, 13);
      }),
    );
  });

  test("agrees with whole numbers: mass·(1+Rs)/(1+Rn) over thousandths and ten-thousandths", () => {
    fc.assert(
      fc.property(masses, regains, regains, (mass, now, standard) => {
        const whole = (value: number, scale: number) => BigInt(Math.round(value * scale));
        const numerator = whole(mass, 1000) * (10000n + whole(standard, 10000));
        const exact = Number((numerator * 10n ** 25n) / (10000n + whole(now, 10000))) / 1e28;
        expect(conditionedMass(mass, now, standard) / exact).toBeCloseTo(1, 14);
      }),
    );
  });

  test("the invoice mass is the delivery at the standard regain, and finish adds on dry mass", () => {
    // GB 9994: 500 g dried to 438.6 g, standard regain 17 %.
    expect(invoiceMass(1000, 500, 438.6, 0.17, 0)).toBe(1026.324);
    // A sample without moisture weighs the same dry; more cannot be.
    expect(invoiceMass(1000, 500, 500, 0.17, 0)).toBe(1170);
    expect(() => invoiceMass(1000, 500, 500.1, 0.17, 0)).toThrow("sample_dry is 500.1; cannot exceed sample 500");
    expect(invoiceMass(1000, 500, 438.6, 0.17, 0.03)).toBeCloseTo(1026.324 + 0.03 * 877.2, 12);
    fc.assert(
      fc.property(masses, regains, regains, (net, now, standard) => {
        const sampleDry = dryMass(500, now);
        expect(invoiceMass(net, 500, sampleDry, standard, 0) / conditionedMass(net, now, standard)).toBeCloseTo(1, 12);
      }),
    );
  });
});
