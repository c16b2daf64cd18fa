import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { reflectanceOf, smoothSpectrum } from "../../../src/trade/shade/smooth-spectrum";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { refusalOf } from "../../support/refusals";
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
  test("no change that keeps the shade makes it smoother: along any of them the roughness is level", () => {
    const cross = ([a, b, c]: readonly number[], [d, e, f]: readonly number[]) => [
      b! * f! - c! * e!,
      c! * d! - a! * f!,
      a! * e! - b! * d!,
    ];
    const dot = (a: readonly number[], b: readonly number[]) =>
      a.reduce((sum, value, index) => sum + value * b[index]!, 0);
    for (const light of [DAYLIGHT, LIGHTS.at(-1)!]) {
      for (const measured of [...TEXTILES.values()].slice(0, 12)) {
        const bands = smoothSpectrum(labOf(measured, light), light)!;
        const z = bands.map((value) => Math.atanh(2 * value - 1));
        const slope = z.map(
          (value, band) => 2 * ((band > 0 ? value - z[band - 1]! : 0) + (band < 30 ? value - z[band + 1]! : 0)),
        );
        // What a band's z moves X, Y and Z by: three bands in the middle make up for a change of any other.
        const moves = z.map((_, band) =>
          [light.x, light.y, light.z].map((weights) => weights[band]! * 2 * bands[band]! * (1 - bands[band]!)),
        );
        const [one, two, three] = [4, 15, 20] as const;
        const [p, q, r] = [moves[one]!, moves[two]!, moves[three]!];
        const volume = dot(p, cross(q, r));
        const size = Math.max(...slope.map(Math.abs), 1e-9);
        z.forEach((_, band) => {
          const move = moves[band]!;
          const [back, between, forth] = [cross(q, r), cross(r, p), cross(p, q)].map((by) => dot(move, by) / volume);
          const along = slope[band]! - back! * slope[one]! - between! * slope[two]! - forth! * slope[three]!;
          expect(Math.abs(along), `band ${band}`).toBeLessThan(1e-6 * size);
        });
      }
    }
  });
  test("any surface's shade has one, also of steps from nearly nothing to nearly all, and gives that shade", () => {
    for (const light of LIGHTS.slice(0, 3)) {
      for (const [low, high] of [
        [0.01, 0.99],
        [0.05, 0.6],
      ] as const) {
        for (let from = 0; from < 31; from += 5) {
          for (let to = from + 1; to <= 31; to += 5) {
            const steps = Array.from({ length: 31 }, (_, band) => (band >= from && band < to ? high : low));
            const lab = labOf(steps, light);
            const got = labOf(smoothSpectrum(lab, light)!, light);
            got.forEach((value, axis) => expect(Math.abs(value - lab[axis]!)).toBeLessThan(1e-6));
          }
        }
      }
    }
  });
  test("what is given gives the shade; where only another nearby could be met there is none", () => {
    const tube = LIGHTS.find(({ word }) => word === "F11/10")!;
    expect(smoothSpectrum([3.7716399050933127, -19.21606132771949, 2.091925017393009], tube)).toBeUndefined();
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

describe("the reflectance of a shade", () => {
  test("is the measured one, else the smooth one, and refused where there is none", () => {
    const reflectance = [...TEXTILES.values()][0]!;
    const lab = labOf(reflectance, DAYLIGHT);
    expect(reflectanceOf({ measured: true, reflectance }, DAYLIGHT, "target")).toBe(reflectance);
    expect(reflectanceOf({ measured: false, lab }, DAYLIGHT, "target")).toEqual(smoothSpectrum(lab, DAYLIGHT));
    expect(refusalOf(() => reflectanceOf({ measured: false, lab: [50, 200.1234567, -1] }, DAYLIGHT, "target"))).toBe(
      "#VALUE! target is L*a*b* 50, 200.123, -1; no surface has that shade",
    );
  });
});
