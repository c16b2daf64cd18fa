import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dryMass } from "../../../src/trade/condition/conditioned-mass";
import { measuredRegain, moistureOfRegain, regainOfMoisture } from "../../../src/trade/condition/regain";

const regains = fc.integer({ min: 0, max: 10000 }).map((count) => count / 10000);

const masses = fc.integer({ min: 1, max: 10000000 }).map((count) => count / 1000);

describe("moisture and regain", () => {
  test("12 % moisture is a regain of 3/22, and 13.04 % moisture is the 15 % of a dry-spun yarn (ASTM D2118)", () => {
    expect(regainOfMoisture(0.12)).toBeCloseTo(3 / 22, 15);
    expect(regainOfMoisture(0.1304)).toBeCloseTo(0.15, 4);
  });

  test("undo each other, and moisture is the smaller", () => {
    fc.assert(
      fc.property(regains, (regain) => {
        const moisture = moistureOfRegain(regain);
        expect(regainOfMoisture(moisture)).toBeCloseTo(regain, 14);
        expect(moisture).toBeLessThanOrEqual(regain);
      }),
    );
  });
});

describe("masses at a regain", () => {
  test("drying and measuring agree", () => {
    fc.assert(
      fc.property(masses, regains, (mass, regain) => {
        expect(measuredRegain(mass, dryMass(mass, regain))).toBeCloseTo(regain, 12);
      }),
    );
  });

  test("a sample that loses nothing in drying held no water, and none can gain", () => {
    expect(measuredRegain(438.6, 438.6)).toBe(0);
    expect(() => measuredRegain(438.6, 438.7)).toThrow("dry_mass is 438.7; cannot exceed mass 438.6");
  });
});
