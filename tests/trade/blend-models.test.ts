import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../src/tables/lights";
import {
  absorptionModel,
  blended,
  exponentialModel,
  fibreModel,
  WOOL_EXPONENTIAL_CONSTANT,
  WOOL_FIBRE_CONSTANT,
} from "../../src/trade/blend-models";
import { onBands, onUsualBands } from "../../src/trade/spectra";
import { labOf, labOfTristimulus, tristimulusOfLab, type Lab } from "../../src/trade/tristimulus";
import { textile } from "../support/measured-textiles";

const MODELS = {
  fibre: fibreModel(WOOL_FIBRE_CONSTANT),
  exponential: exponentialModel(WOOL_EXPONENTIAL_CONSTANT),
  ks: absorptionModel,
};

function expectLab(got: Lab, wanted: readonly number[], tolerance: number): void {
  wanted.forEach((value, axis) => expect(Math.abs(got[axis]! - value)).toBeLessThanOrEqual(tolerance));
}

describe("L*a*b* of measured textiles (worked out independently from the CIE tables)", () => {
  for (const [id, word, lab] of [
    [47, "D65/10", [72.312, 0.159, 7.106]],
    [47, "A/10", [72.817, 2.024, 7.304]],
    [47, "F11/10", [72.649, 0.536, 8.014]],
    [159, "D65/10", [84.803, -5.724, 42.684]],
  ] as const) {
    test(`textile ${id}, ${word}`, () => {
      expectLab(
        labOf(
          textile(id),
          LIGHTS.find((light) => light.word === word)!,
        ),
        lab,
        0.002,
      );
    });
  }
  test("a perfect white is 100, 0, 0 in every light, and Y of white is 100", () => {
    for (const light of LIGHTS) {
      expectLab(labOf(new Array(31).fill(1), light), [100, 0, 0], 1e-9);
      expect(Math.abs(light.white[1] - 100)).toBeLessThan(1e-3);
    }
  });
  test("L*a*b* and X, Y, Z turn into each other", () => {
    const part = fc.double({ min: -90, max: 90, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), part, part, (l, a, b) => {
        expectLab(labOfTristimulus(tristimulusOfLab([l, a, b], DAYLIGHT.white), DAYLIGHT.white), [l, a, b], 1e-9);
      }),
    );
  });
});

describe("blend models", () => {
  test("fibre: F at M 0.15", () => {
    const values = [0.02, 0.1, 0.6].map(MODELS.fibre.additive);
    [85.217391, 38.297872, 4.060914].forEach((value, index) =>
      expect(Math.abs(values[index]! - value)).toBeLessThanOrEqual(1e-6),
    );
  });
  for (const [name, half] of [
    ["fibre", 0.126856],
    ["exponential", 0.153974],
    ["ks", 0.090351],
  ] as const) {
    test(`${name}: 0.05 and 0.60 half and half`, () => {
      expect(Math.abs(blended([0.5, 0.5], [[0.05], [0.6]], MODELS[name])[0]! - half)).toBeLessThanOrEqual(1e-6);
    });
    test(`${name}: the inverse undoes the function and its slope is that of the inverse`, () => {
      fc.assert(
        fc.property(fc.double({ min: 0.005, max: 0.97, noNaN: true }), (reflectance) => {
          const { additive, reflectance: inverse, slope } = MODELS[name];
          const value = additive(reflectance);
          // exp(-σ·K/S) of a near-black is below what a double tells apart from 0.
          if (value < 1e-12) return;
          expect(Math.abs(inverse(value) - reflectance)).toBeLessThan(1e-9);
          const nudge = value * 1e-6;
          const measured = (inverse(value + nudge) - inverse(value - nudge)) / (2 * nudge);
          expect(Math.abs(slope(reflectance) / measured - 1)).toBeLessThan(1e-3);
        }),
      );
    });
    test(`${name}: a blend lies between its solids`, () => {
      const bright = fc.double({ min: 0.001, max: 0.999, noNaN: true });
      fc.assert(
        fc.property(bright, bright, fc.double({ min: 0, max: 1, noNaN: true }), (first, second, share) => {
          const got = blended([share, 1 - share], [[first], [second]], MODELS[name])[0]!;
          expect(got).toBeGreaterThanOrEqual(Math.min(first, second) - 1e-9);
          expect(got).toBeLessThanOrEqual(Math.max(first, second) + 1e-9);
        }),
      );
    });
  }
  test("three measured textiles, 60 : 30 : 10", () => {
    const blend = blended([0.6, 0.3, 0.1], [textile(47), textile(159), textile(53)], MODELS.fibre);
    expectLab(labOf(blend, DAYLIGHT), [65.73, 9.703, 13.274], 0.002);
    expect(Math.abs(blend[15]! - 0.32003)).toBeLessThanOrEqual(1e-5);
  });
});

describe("reflectances with other bands", () => {
  test("31 bands stay as they are; 16 bands keep the bands they have", () => {
    const bands = textile(53);
    expect(onUsualBands(bands)).toEqual(bands);
    const coarse = bands.filter((_, index) => index % 2 === 0);
    const back = onUsualBands(coarse);
    expect(back.filter((_, index) => index % 2 === 0)).toEqual(coarse);
  });
  test("a cubic curve is met exactly, whatever the bands", () => {
    const curve = (nm: number): number => 0.2 + ((nm - 550) / 300) ** 3 + 0.3 * ((nm - 550) / 300) ** 2;
    const measured = Array.from({ length: 24 }, (_, index) => curve(380 + 15 * index));
    onBands(measured, 380, 15).forEach((value, band) =>
      expect(Math.abs(value - curve(400 + 10 * band))).toBeLessThan(1e-12),
    );
  });
  test("bands outside the row take the nearest value", () => {
    const bands = onBands([0.1, 0.2, 0.3, 0.4], 500, 20);
    expect(bands.slice(0, 11)).toEqual(new Array(11).fill(0.1));
    expect(bands.slice(16)).toEqual(new Array(15).fill(0.4));
  });
});
