import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { stainingDifference, stainingRating, stainingStep } from "../../../src/trade/shade/staining";
import type { Lab } from "../../../src/trade/shade/tristimulus";

describe("the grey scale for staining", () => {
  test("greys count in full, colour of the same lightness six tenths", () => {
    expect(stainingDifference([92, 0, 0], [83.5, 0, 0])).toBeCloseTo(8.5, 12);
    expect(stainingDifference([92, 0, 0], [92, 6, 8])).toBeCloseTo(6, 12);
    expect(stainingDifference([92, 1, 2], [92, 1, 2])).toBe(0);
  });

  test("between the two, by the formula worked with the part that is no lightness", () => {
    const part = fc.double({ min: -40, max: 40, noNaN: true });
    fc.assert(
      fc.property(part, part, part, (dL, da, db) => {
        const standard: Lab = [90, 1, -2];
        const colour = Math.hypot(da, db);
        const wanted = Math.hypot(dL, colour) - 0.4 * colour;
        expect(stainingDifference(standard, [90 + dL, 1 + da, db - 2])).toBeCloseTo(wanted, 9);
      }),
    );
  });

  test("the pairs of the scale (0, 2.2, 4.3, 6, 8.5, 12, 16.9, 24, 34.1) are rated with its nine steps", () => {
    const pairs = [0, 2.2, 4.3, 6, 8.5, 12, 16.9, 24, 34.1];
    const steps = ["5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1"];
    expect(pairs.map((difference) => stainingStep(stainingRating(difference)))).toEqual(steps);
    pairs.forEach((difference, place) =>
      expect(Math.abs(stainingRating(difference) - (5 - place / 2))).toBeLessThan(0.02),
    );
  });

  test("falls all the way, and to 1 at the least", () => {
    let last = 5;
    for (let difference = 0.1; difference < 80; difference += 0.1) {
      const rating = stainingRating(difference);
      // Where the line gives way to the logarithm they are a fiftieth apart.
      expect(rating).toBeLessThanOrEqual(last + 1e-12);
      expect(rating).toBeGreaterThanOrEqual(1);
      last = rating;
    }
    expect(last).toBe(1);
  });

  test("a step begins at the quarter", () => {
    expect([4.75, 4.7499, 4.25, 4.2499, 1.25, 1.2499, 1].map(stainingStep)).toEqual([
      "5",
      "4-5",
      "4-5",
      "4",
      "1-2",
      "1",
      "1",
    ]);
  });
});
