import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { halfRange, sampleOf, standardError } from "../../../src/trade/quality/sample";
import { refusalOf } from "../../support/refusals";

describe("a sample", () => {
  test("2, 4, 4, 4, 5, 5, 7, 9 have the mean 5 and squares of 32 in all", () => {
    expect(sampleOf([2, 4, 4, 4, 5, 5, 7, 9], "values")).toEqual({ tests: 8, mean: 5, deviation: Math.sqrt(32 / 7) });
  });

  test("moved and stretched, it moves and stretches", () => {
    const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 20 });
    fc.assert(
      fc.property(values, fc.integer({ min: -50, max: 50 }), fc.integer({ min: 1, max: 9 }), (list, by, times) => {
        const [one, other] = [list, list.map((value) => times * value + by)].map((own) => sampleOf(own, "values"));
        expect(other!.mean).toBeCloseTo(times * one!.mean + by, 8);
        expect(other!.deviation).toBeCloseTo(times * one!.deviation, 8);
      }),
    );
  });

  test("the range of its mean, by the printed t of 2.262 for ten tests at 95 %", () => {
    // Source: any table of Student's t, 9 degrees of freedom, two-sided 0.05; from memory.
    const sample = { tests: 10, mean: 34, deviation: 1.2 };
    expect(standardError(sample)).toBeCloseTo(1.2 / Math.sqrt(10), 14);
    expect(halfRange(sample, 0.95)).toBeCloseTo((2.262 * 1.2) / Math.sqrt(10), 3);
  });

  test("one test tells nothing of the spread", () => {
    expect(refusalOf(() => sampleOf([34], "values"))).toBe(
      "#VALUE! values is 1 value; must hold 2 or more; one test tells nothing of the spread",
    );
  });
});
