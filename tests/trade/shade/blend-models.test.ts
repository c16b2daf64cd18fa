import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import {
  absorptionModel,
  blended,
  exponentialModel,
  fibreModel,
  WOOL_EXPONENTIAL_CONSTANT,
  WOOL_FIBRE_CONSTANT,
} from "../../../src/trade/shade/blend-models";
import { onBands, onUsualBands } from "../../../src/trade/shade/spectra";
import {
  labOf,
  labOfTristimulus,
  lightnessCurveSlope,
  tristimulusOfLab,
  type Lab,
} from "../../../src/trade/shade/tristimulus";
import { textile } from "../../support/measured-textiles";
import { refusalOf } from "../../support/refusals";

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
  test("the slope of the lightness curve is how it rises, on both of its pieces", () => {
    for (const ratio of [0, 0.001, 0.008, 0.0089, 0.01, 0.18, 0.5, 1]) {
      // f of Y/Yn is (L* + 16) / 116.
      const curve = (y: number) => (labOfTristimulus([0, y, 0], [1, 1, 1])[0] + 16) / 116;
      const nudge = 1e-7 * Math.max(ratio, 1e-3);
      const measured = (curve(ratio + nudge) - curve(ratio - nudge)) / (2 * nudge);
      expect(Math.abs(lightnessCurveSlope(ratio) / measured - 1)).toBeLessThan(1e-6);
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
  test("fibre: with a constant of one's own, (1 - R) / (M·(R - 0.01) + 0.01) and its slope", () => {
    for (const constant of [0.01, 0.15, 0.4, 1]) {
      const { additive, slope } = fibreModel(constant);
      for (const R of [0.01, 0.05, 0.5, 0.95]) {
        expect(additive(R) * (constant * (R - 0.01) + 0.01)).toBeCloseTo(1 - R, 14);
        const nudge = 1e-6;
        const measured = (2 * nudge) / (additive(R + nudge) - additive(R - nudge));
        expect(Math.abs(slope(R) / measured - 1)).toBeLessThan(1e-6);
      }
    }
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
  test("31 bands that start or step otherwise are moved to their place", () => {
    const line = (first: number, step: number) => Array.from({ length: 31 }, (_, band) => (first + step * band) / 1000);
    for (const [first, step] of [
      [380, 10],
      [400, 12],
      [390, 11],
    ] as const) {
      onBands(line(first, step), first, step).forEach((value, band) =>
        expect(value).toBeCloseTo(Math.min(400 + 10 * band, first + 30 * step) / 1000, 12),
      );
    }
  });
  test("bands of which none lies in the light we see are refused", () => {
    const outside = (first: number, step: number) => refusalOf(() => onBands([0.1, 0.2, 0.3], first, step));
    expect(outside(300, 50)).toBe(
      "#VALUE! reflectance is measured from 300 to 400 nm; it must cover part of 400 to 700 nm",
    );
    expect(outside(700, 10)).toBe(
      "#VALUE! reflectance is measured from 700 to 720 nm; it must cover part of 400 to 700 nm",
    );
    expect(onBands([0.1, 0.2, 0.3], 301, 50)[0]).toBeCloseTo(0.298, 12);
    expect(onBands([0.1, 0.2, 0.3], 690, 10).slice(28)).toEqual([0.1, 0.1, 0.2]);
  });
  test("other bands need both their start and their step", () => {
    const bands = new Array<number>(20).fill(0.5);
    for (const [first, step] of [
      [400, undefined],
      [undefined, 10],
      [undefined, undefined],
    ]) {
      expect(refusalOf(() => onUsualBands(bands, first, step))).toBe(
        "#VALUE! reflectance is 20 bands wide; give first_nm and step_nm, or 31 or 16 bands from 400 to 700 nm",
      );
    }
    for (const value of onUsualBands(bands, 400, 16)) expect(value).toBeCloseTo(0.5, 14);
    // 21 bands by 15 nm fill 400 to 700, so the start goes without saying.
    const wide = onUsualBands(new Array<number>(21).fill(0.5), undefined, 15);
    for (const value of wide) expect(value).toBeCloseTo(0.5, 14);
    expect(wide).toHaveLength(31);
  });
  test("bands outside the row take the nearest value", () => {
    const bands = onBands([0.1, 0.2, 0.3, 0.4], 500, 20);
    expect(bands.slice(0, 11)).toEqual(new Array(11).fill(0.1));
    expect(bands.slice(16)).toEqual(new Array(15).fill(0.4));
  });
});
