import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { smoothSpectrum } from "../../../src/trade/shade/smooth-spectrum";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { TEXTILES } from "../../support/measured-textiles";

describe("a smooth reflectance from L*a*b* (Burns 2017)", () => {
  test("L*a*b* 50, 20, 30", () => {
    const bands = smoothSpectrum([50, 20, 30], DAYLIGHT)!;
    for (const [band, value] of [
      [0, 0.06786],
      [15, 0.16066],
      [30, 0.36507],
    ] as const) {
      expect(Math.abs(bands[band]! - value)).toBeLessThanOrEqual(1e-4);
    }
  });
  test("gives back the L*a*b* of every measured textile, within 0 and 1, in every light", () => {
    for (const light of LIGHTS) {
      for (const measured of TEXTILES.values()) {
        const lab = labOf(measured, light);
        const bands = smoothSpectrum(lab, light)!;
        expect(difference2000(lab, labOf(bands, light))).toBeLessThan(1e-6);
        expect(Math.min(...bands)).toBeGreaterThan(0);
        expect(Math.max(...bands)).toBeLessThan(1);
      }
    }
  });
  test("is smoother than the reflectance the shade came from, in the measure it minimises", () => {
    const roughness = (bands: readonly number[]): number => {
      const z = bands.map((value) => Math.atanh(2 * value - 1));
      return z.slice(1).reduce((sum, value, index) => sum + (value - z[index]!) ** 2, 0);
    };
    for (const measured of TEXTILES.values()) {
      const bands = smoothSpectrum(labOf(measured, DAYLIGHT), DAYLIGHT)!;
      expect(roughness(bands)).toBeLessThanOrEqual(roughness(measured) + 1e-9);
    }
  });
  test("a grey is flat", () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 98, noNaN: true }), (lightness) => {
        const bands = smoothSpectrum([lightness, 0, 0], DAYLIGHT)!;
        expect(Math.max(...bands) - Math.min(...bands)).toBeLessThan(1e-6);
      }),
    );
  });
  test("a shade that no surface can have is not invented", () => {
    for (const lab of [
      [50, 200, 0],
      [90, 0, -90],
      [10, 0, 90],
      [100, 0, 0],
      [0, 0, 0],
    ] as const) {
      expect(smoothSpectrum(lab, DAYLIGHT)).toBeUndefined();
    }
  });
});
