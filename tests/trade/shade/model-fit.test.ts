import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { fittedFibreConstant } from "../../../src/trade/shade/model-fit";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { textile } from "../../support/measured-textiles";
import { refusalOf } from "../../support/refusals";

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
  test("leaves the root of the mean square of what the pads still differ by", () => {
    const model = fibreModel(0.2);
    const pads = RECIPES.map((shares, place) => {
      const [L, a, b] = labOf(blended(shares, SOLIDS, model), DAYLIGHT);
      return { shares, lab: [L + (place % 2 === 0 ? 1 : -1), a, b] as const };
    });
    const { constant, difference } = fittedFibreConstant(pads, SOLIDS, DAYLIGHT);
    const squares = pads.map(
      ({ shares, lab }) => difference2000(lab, labOf(blended(shares, SOLIDS, fibreModel(constant)), DAYLIGHT)) ** 2,
    );
    expect(difference).toBeGreaterThan(0.3);
    expect(difference).toBeCloseTo(Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / pads.length), 9);
  });
  test("is where the slope is nothing, which the last digit of another runtime's functions does not move", () => {
    const pads = RECIPES.map((shares, place) => {
      const [L, a, b] = labOf(blended(shares, SOLIDS, fibreModel(0.2)), DAYLIGHT);
      return { shares, lab: [L + (place % 2 === 0 ? 1 : -1), a, b] as const };
    });
    const fitted = () => fittedFibreConstant(pads, SOLIDS, DAYLIGHT).constant;
    const constant = fitted();
    const meanSquare = (m: number) =>
      pads.reduce(
        (sum, { shares, lab }) =>
          sum + difference2000(lab, labOf(blended(shares, SOLIDS, fibreModel(m)), DAYLIGHT)) ** 2,
        0,
      );
    for (const beside of [0.999, 1.001]) expect(meanSquare(constant * beside)).toBeGreaterThan(meanSquare(constant));
    const spies = (["exp", "log", "pow", "cbrt", "sqrt", "cos", "atan2"] as const).map((name) => {
      const own: (...given: number[]) => number = Math[name].bind(Math);
      let calls = 0;
      const otherDigit = () => ((Math.imul(++calls, 0x9e3779b1) >>> 30) - 1) * Number.EPSILON;
      return vi.spyOn(Math, name).mockImplementation((...given: number[]) => own(...given) * (1 + otherDigit()));
    });
    const elsewhere = fitted();
    const asked = spies.map((spy) => spy.mock.calls.length);
    for (const spy of spies) spy.mockRestore();
    expect(Math.max(...asked)).toBeGreaterThan(100);
    expect(elsewhere).toBe(constant);
  });
  test.each([0.001, 5])("is refused where it would be %d, which no wool has", (constant) => {
    const pads = RECIPES.map((shares) => ({
      shares,
      lab: labOf(blended(shares, SOLIDS, fibreModel(constant)), DAYLIGHT),
    }));
    expect(refusalOf(() => fittedFibreConstant(pads, SOLIDS, DAYLIGHT))).toBe(
      "#N/A blends is best fitted beyond 0.01 to 1; check the shares and the readings",
    );
  });
  test("is refused when the pads do not depend on it", () => {
    const pads = [{ shares: [1, 0, 0, 0], lab: labOf(SOLIDS[0]!, DAYLIGHT) }];
    const alike = "#N/A blends is alike for every constant; card pads that mix a light solid with a dark one";
    expect(refusalOf(() => fittedFibreConstant(pads, SOLIDS, DAYLIGHT))).toBe(alike);
    const far = [{ shares: [1, 0, 0, 0], lab: labOf(SOLIDS[1]!, DAYLIGHT) }];
    expect(refusalOf(() => fittedFibreConstant(far, SOLIDS, DAYLIGHT))).toBe(alike);
  });
  test("is refused when no constant comes near", () => {
    // A half-and-half pad as light as the white solid.
    const pads = [{ shares: [0.5, 0.5, 0, 0], lab: labOf(SOLIDS[0]!, DAYLIGHT) }];
    expect(() => fittedFibreConstant(pads, SOLIDS, DAYLIGHT)).toThrow(/best fitted beyond/);
  });
});
