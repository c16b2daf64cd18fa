import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { diameter as diameterOf, WORSTED_SPECIFIC_VOLUME } from "../../../src/trade/counts/diameter";
import { degreesOf, helixTangent, secantOf } from "../../../src/trade/spinning/helix";
import { plyTakeUp } from "../../../src/trade/spinning/ply-take-up";
import { takeUp, type TakeUpModel } from "../../../src/trade/spinning/take-up";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

const TEX = COUNT_SYSTEMS.find(({ word }) => word === "tex") as CountSystem;

/** Integral by Gauss-Legendre over many panels: an oracle that shares nothing with the closed forms. */
function integral(f: (x: number) => number, from: number, to: number, panels = 400): number {
  const nodes = [-Math.sqrt(3 / 5), 0, Math.sqrt(3 / 5)];
  const weights = [5 / 9, 8 / 9, 5 / 9];
  const half = (to - from) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    nodes.forEach((node, index) => (sum += (weights[index] as number) * f(middle + half * node)));
  }
  return sum * half;
}

const degrees = (angle: number) => Math.tan((angle * Math.PI) / 180);

describe("take-up in spinning", () => {
  test("ideal: one less the mean of cos θ over the section of layers at tan θ = r/R × tan α", () => {
    for (const angle of [1, 5, 15, 25, 40, 60, 80]) {
      const tangent = degrees(angle);
      const meanCosine = integral((r) => (2 * r) / Math.sqrt(1 + (r * tangent) ** 2), 0, 1);
      expect(Math.abs(takeUp(tangent, "ideal") - (1 - meanCosine))).toBeLessThan(1e-9);
    }
  });

  test("staple: the mean of 1 − cos α/c over c from cos α to 1, on both sides of where the series ends", () => {
    for (const angle of [0.5, 5, 15, 25, 25.8, 25.9, 30, 60, 85]) {
      const tangent = degrees(angle);
      const cosine = Math.cos((angle * Math.PI) / 180);
      const mean = integral((c) => 1 - cosine / c, cosine, 1) / (1 - cosine);
      expectClose(takeUp(tangent, "staple"), mean, 1e-7);
    }
  });

  test("staple: all digits at any angle, by 1 − ln(sec α)/(sec α − 1) in decimals of 60 digits", () => {
    const Exact = Decimal.clone({ precision: 60 });
    fc.assert(
      fc.property(between(-9, 2), (exponent) => {
        const tangent = 10 ** exponent;
        const secant = new Exact(tangent).pow(2).plus(1).sqrt();
        expectClose(takeUp(tangent, "staple"), new Exact(1).minus(secant.ln().div(secant.minus(1))).toNumber(), 2e-15);
      }),
    );
  });

  test("small angles keep all their digits: both models tend to tan²α/4", () => {
    for (const tangent of [1e-8, 1e-5, 1e-3]) {
      for (const model of ["ideal", "staple"] as const) expectClose(takeUp(tangent, model), tangent ** 2 / 4, 1e-6);
    }
    expect(takeUp(0, "staple")).toBe(0);
    expect(takeUp(0, "ideal")).toBe(0);
  });

  test("more twist never lengthens, and take-up stays between 0 and 1", () => {
    fc.assert(
      fc.property(
        between(0, 100),
        between(0, 100),
        fc.constantFrom<TakeUpModel>("ideal", "staple"),
        (one, two, model) => {
          const [less, more] = [takeUp(Math.min(one, two), model), takeUp(Math.max(one, two), model)];
          expect(more).toBeGreaterThanOrEqual(less * (1 - 1e-15));
          expect(less).toBeGreaterThanOrEqual(0);
          expect(more).toBeLessThan(1);
        },
      ),
    );
  });
});

describe("the geometry underneath", () => {
  test("an inch holds 0.9 × √(yards in a pound) diameters of worsted", () => {
    fc.assert(
      fc.property(between(100, 100_000), (yardsInPound) => {
        const tex = 453592.37 / (yardsInPound * 0.9144);
        expectClose(25.4 / diameterOf(tex, TEX, WORSTED_SPECIFIC_VOLUME), 0.9 * Math.sqrt(yardsInPound), 1e-14);
      }),
    );
  });

  test("the secant of any angle a yarn can be said to have is a number, and never below its tangent", () => {
    for (const angle of [0, 20, 45, 70, 89]) {
      expectClose(secantOf(degrees(angle)), 1 / Math.cos((angle * Math.PI) / 180), 1e-14);
      expect(degreesOf(degrees(angle))).toBeCloseTo(angle, 12);
    }
    expect(secantOf(1e200)).toBe(1e200);
  });

  test("the angle depends on twist × √tex alone", () => {
    fc.assert(
      fc.property(between(1, 1000), between(1, 2000), between(0.1, 10), (tex, turns, scale) => {
        const one = helixTangent(diameterOf(tex, TEX, 1.25), turns);
        expectClose(helixTangent(diameterOf(tex * scale * scale, TEX, 1.25), turns / scale), one, 1e-14);
        expect(degreesOf(one)).toBeLessThan(90);
      }),
    );
  });
});

describe("take-up in plying", () => {
  const diameter = 0.2;

  test("no ply twist, no take-up", () => {
    fc.assert(
      fc.property(between(1, 1500), fc.constantFrom("opposite" as const, "same" as const), (single, direction) => {
        expect(Math.abs(plyTakeUp(diameter, single, 0, direction))).toBeLessThan(1e-15);
      }),
    );
  });

  test("small angles: twisting against the singles lengthens below two thirds of their twist, shortens above", () => {
    // To second order the model is θ²·(x/2·(3x/2 − 1)) with x the ratio of ply to singles twist: 0 at x = 2/3.
    fc.assert(
      fc.property(between(5, 20), between(0.05, 0.6), between(0.74, 2), (single, below, above) => {
        expect(plyTakeUp(diameter, single, single * below, "opposite")).toBeLessThan(0);
        expect(plyTakeUp(diameter, single, single * above, "opposite")).toBeGreaterThan(0);
        const theta = helixTangent(diameter, single);
        const expected = theta ** 2 * (below / 2) * (1.5 * below - 1);
        expect(Math.abs(plyTakeUp(diameter, single, single * below, "opposite") - expected)).toBeLessThan(theta ** 4);
      }),
    );
  });

  test("twisting with the singles always shortens, and more than twisting against them", () => {
    fc.assert(
      fc.property(between(10, 1500), between(10, 1500), (single, ply) => {
        const same = plyTakeUp(diameter, single, ply, "same");
        expect(same).toBeGreaterThan(0);
        expect(same).toBeGreaterThan(plyTakeUp(diameter, single, ply, "opposite"));
      }),
    );
  });
});

describe("more than two strands", () => {
  test("wind round the ring through their centres, which for two is a strand across and for six two strands", () => {
    // With no twist in the singles left to change, only the winding is: cos β with tan β = π × ring × turns.
    const winding = (plies: number, ring: number): void => {
      const [diameter, turns] = [0.4, 150];
      const tangent = Math.PI * ring * diameter * (turns / 1000);
      const single = 1e-6;
      const two = plyTakeUp(diameter, single, turns, "same", 2);
      const more = plyTakeUp(diameter, single, turns, "same", plies);
      const cosine = (tan: number): number => 1 / Math.sqrt(1 + tan * tan);
      expectClose((1 - more) / (1 - two), cosine(tangent) / cosine(Math.PI * diameter * 0.15), 1e-12);
    };
    winding(2, 1);
    winding(3, 2 / Math.sqrt(3));
    winding(4, Math.SQRT2);
    winding(6, 2);
  });
});
