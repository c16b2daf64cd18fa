import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { greyScaleDifference, greyScaleRating, greyScaleStep } from "../../../src/trade/shade/grey-scale";
import type { Lab } from "../../../src/trade/shade/tristimulus";
import { expectClose } from "../../support/closeness";

const DEGREES = 180 / Math.PI;

/**
 * ΔE_F as ISO 105-A05 writes it (inner lines from memory), by other ways: ΔH from Δa, Δb and ΔC with the sign of the
 * turn, the mean hue as the bisector of the two directions, the way to 280° through its cosine.
 */
function byVectors([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const [C1, C2] = [Math.hypot(a1, b1), Math.hypot(a2, b2)];
  const step = C2 - C1;
  const hueStep = Math.sign(a1 * b2 - a2 * b1) * Math.sqrt(Math.max(0, (a2 - a1) ** 2 + (b2 - b1) ** 2 - step ** 2));
  const [u, v] = [a1 / (C1 || 1) + a2 / (C2 || 1), b1 / (C1 || 1) + b2 / (C2 || 1)];
  const [blueA, blueB] = [Math.cos(280 / DEGREES), Math.sin(280 / DEGREES)];
  const cosine = (u * blueA + v * blueB) / (Math.hypot(u, v) || 1);
  const x = ((Math.acos(Math.min(1, Math.max(-1, cosine))) * DEGREES) / 30) ** 2;
  const mean = (C1 + C2) / 2;
  const D = (step * mean * Math.exp(-x)) / 100;
  const chromaPart = (step - D) / (1 + (mean / 50) ** 2);
  const huePart = (hueStep - D) / (1 + (mean / 100) ** 2);
  return Math.hypot(L2 - L1, chromaPart, huePart);
}

describe("the difference of coloured pairs", () => {
  const at = (lightness: number, chroma: number, hue: number): Lab => [
    lightness,
    chroma * Math.cos(hue / DEGREES),
    chroma * Math.sin(hue / DEGREES),
  ];

  test("round the hue circle, near and far, agrees with the same formula worked in vectors", () => {
    let compared = 0;
    for (let hue = 0; hue < 360; hue += 7) {
      for (const turn of [-170, -90, -20, -1, 0, 1, 20, 90, 170]) {
        for (const [chroma, other] of [
          [2, 5],
          [30, 30],
          [60, 25],
          [40, 90],
        ] as const) {
          const [standard, sample] = [at(50, chroma, hue), at(47, other, hue + turn)];
          expectClose(greyScaleDifference(standard, sample), byVectors(standard, sample), 1e-6);
          compared++;
        }
      }
    }
    expect(compared).toBe(52 * 9 * 4);
  });

  test("with a neutral the hue is the other's, whatever the sign of its zeros", () => {
    for (let hue = 0; hue < 360; hue += 10) {
      for (const [a, b] of [
        [0, 0],
        [-0, 0],
        [-0, -0],
      ] as const) {
        const coloured = at(60, 40, hue);
        expectClose(greyScaleDifference([60, a, b], coloured), byVectors([60, 0, 0], coloured), 1e-9);
        expectClose(greyScaleDifference(coloured, [60, a, b]), byVectors(coloured, [60, 0, 0]), 1e-9);
      }
    }
  });
});

describe("grey scale for change in colour", () => {
  // ISO 105-A02: the pairs of the nine-step scale and their differences; the middle of each step must rate as it.
  const pairs = [
    ["5", 0],
    ["4-5", 0.8],
    ["4", 1.7],
    ["3-4", 2.5],
    ["3", 3.4],
    ["2-3", 4.8],
    ["2", 6.8],
    ["1-2", 9.6],
    ["1", 13.6],
  ] as const;
  for (const [step, difference] of pairs) {
    test(`a pair of greys ${difference} apart rates ${step}`, () => {
      const apart = greyScaleDifference([60, 0, 0], [60 + difference, 0, 0]);
      expect(apart).toBeCloseTo(difference, 9);
      expect(greyScaleStep(apart)).toBe(step);
      const [low, high = low] = step.split("-").map(Number) as [number, number?];
      expect(Math.abs(greyScaleRating(apart) - (low + high) / 2)).toBeLessThan(0.04);
    });
  }
  test("falls as the difference grows and stays within 1 and 5", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 50, noNaN: true }), fc.double({ min: 0, max: 50, noNaN: true }), (a, b) => {
        const [near, far] = [Math.min(a, b), Math.max(a, b)].map(greyScaleRating) as [number, number];
        expect(near).toBeGreaterThanOrEqual(far);
        expect(far).toBeGreaterThanOrEqual(1);
        expect(near).toBeLessThanOrEqual(5);
      }),
    );
  });
  test("is continuous where its two branches meet and where the hue passes 0", () => {
    expect(Math.abs(greyScaleRating(3.4 + 1e-9) - greyScaleRating(3.4))).toBeLessThan(1e-6);
    const across = greyScaleDifference([50, 30, 0.001], [50, 30, -0.001]);
    expect(across).toBeLessThan(0.01);
  });
  test("a step begins with its limit", () => {
    expect([0.399, 0.4, 1.25, 2.1, 2.95, 4.1, 5.8, 8.2, 11.6].map(greyScaleStep)).toEqual(
      "5 4-5 4 3-4 3 2-3 2 1-2 1".split(" "),
    );
  });
});
