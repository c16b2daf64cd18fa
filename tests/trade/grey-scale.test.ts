import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { greyScaleDifference, greyScaleRating, greyScaleStep } from "../../src/trade/grey-scale";

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
});
