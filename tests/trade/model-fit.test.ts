import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT } from "../../src/tables/lights";
import { blended, fibreModel } from "../../src/trade/blend-models";
import { fittedFibreConstant } from "../../src/trade/model-fit";
import { Refusal } from "../../src/trade/refusal";
import { labOf } from "../../src/trade/tristimulus";
import { textile } from "../support/measured-textiles";

const SOLIDS = [textile(75), textile(79), textile(53), textile(159)];
const RECIPES = [
  [0.5, 0.5, 0, 0],
  [0.9, 0.1, 0, 0],
  [0.3, 0, 0.7, 0],
  [0, 0.05, 0.45, 0.5],
  [0.25, 0.25, 0.25, 0.25],
];

describe("the fibre constant from carded pads", () => {
  test("is found again from pads that follow the model", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.8, noNaN: true }), (constant) => {
        const model = fibreModel(constant);
        const pads = RECIPES.map((shares) => ({ shares, lab: labOf(blended(shares, SOLIDS, model), DAYLIGHT) }));
        const fit = fittedFibreConstant(pads, SOLIDS, DAYLIGHT);
        expect(Math.abs(fit.constant / constant - 1)).toBeLessThan(1e-6);
        expect(fit.difference).toBeLessThan(1e-5);
      }),
      { numRuns: 30 },
    );
  });
  test("is refused when the pads do not depend on it", () => {
    const pads = [{ shares: [1, 0, 0, 0], lab: labOf(SOLIDS[0]!, DAYLIGHT) }];
    expect(() => fittedFibreConstant(pads, SOLIDS, DAYLIGHT)).toThrow(Refusal);
  });
  test("is refused when no constant comes near", () => {
    // A half-and-half pad as light as the white solid.
    const pads = [{ shares: [0.5, 0.5, 0, 0], lab: labOf(SOLIDS[0]!, DAYLIGHT) }];
    expect(() => fittedFibreConstant(pads, SOLIDS, DAYLIGHT)).toThrow(/best fitted beyond/);
  });
});
