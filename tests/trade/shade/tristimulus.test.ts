import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import {
  labOf,
  labOfTristimulus,
  lightnessCurveSlope,
  tristimulusOf,
  tristimulusOfLab,
} from "../../../src/trade/shade/tristimulus";

const lab = fc.tuple(
  fc.integer({ min: 1, max: 99 }),
  fc.integer({ min: -60, max: 60 }),
  fc.integer({ min: -60, max: 60 }),
);

describe("tristimulus values and L*a*b*", () => {
  test("a perfect white is 100, 0, 0 in every light, and greys have no colour", () => {
    for (const light of LIGHTS) {
      const white = labOf(new Array(31).fill(1), light);
      [100, 0, 0].forEach((value, axis) => expect(Math.abs(white[axis]! - value)).toBeLessThan(0.01));
      const [, a, b] = labOf(new Array(31).fill(0.2), light);
      expect(Math.hypot(a, b)).toBeLessThan(0.01);
    }
  });

  // Source: CIE-15: L* = 116·(Y/Yn)^(1/3) - 16; a reflectance of 0.184 has L* 50, the middle grey (49.98).
  test("the middle grey of 18.42 % is L* 50", () => {
    expect(labOfTristimulus([18.418651851244, 18.418651851244, 18.418651851244], [100, 100, 100])[0]).toBeCloseTo(
      50,
      9,
    );
  });

  test("undo each other", () => {
    fc.assert(
      fc.property(lab, fc.constantFrom(...LIGHTS), (shade, { white }) => {
        labOfTristimulus(tristimulusOfLab(shade, white), white).forEach((value, axis) =>
          expect(value).toBeCloseTo(shade[axis]!, 9),
        );
      }),
    );
  });

  test("are sums over the bands: of two reflectances together, of each alone", () => {
    const bands = fc.array(
      fc.integer({ min: 0, max: 50 }).map((percent) => percent / 100),
      { minLength: 31, maxLength: 31 },
    );
    fc.assert(
      fc.property(bands, bands, (one, other) => {
        const together = tristimulusOf(one.map((value, band) => value + other[band]!), DAYLIGHT); // prettier-ignore
        const [a, b] = [tristimulusOf(one, DAYLIGHT), tristimulusOf(other, DAYLIGHT)];
        together.forEach((value, axis) => expect(value).toBeCloseTo(a[axis]! + b[axis]!, 9));
      }),
    );
  });

  test("the lightness curve has the slope that it shows, and no step where its two parts meet", () => {
    for (const ratio of [0.001, 0.008, 0.01, 0.2, 0.9]) {
      const curve = (value: number) => labOfTristimulus([value, value, value], [1, 1, 1])[0];
      expect((curve(ratio * 1.00001) - curve(ratio * 0.99999)) / (ratio * 2e-5)).toBeCloseTo(
        116 * lightnessCurveSlope(ratio),
        3,
      );
    }
    const meet = 216 / 24389;
    const [below, above] = [meet * (1 - 1e-12), meet * (1 + 1e-12)].map(
      (value) => labOfTristimulus([value, value, value], [1, 1, 1])[0],
    );
    expect(Math.abs(above! - below!)).toBeLessThan(1e-9);
    expect(above).toBeCloseTo(8, 9);
  });
});
