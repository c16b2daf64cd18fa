import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { halfRange } from "../../../src/trade/quality/sample";
import { testsFor, testsNeeded } from "../../../src/trade/quality/tests-needed";
import { refusalOf } from "../../support/refusals";

describe("how many tests", () => {
  // n = (t·V/A)², rounded up: (1.96 × 15/3)² = 96.04, the form of ASTM D2905 and of Booth's Principles; from memory.
  test("for 3 % of a mean whose values vary by 15 %, at 95 %: 97", () => {
    expect(testsNeeded(0.15, 0.03, 1.96)).toBe(97);
    expect(testsNeeded(0.1, 0.05, 2)).toBe(16);
  });

  test("an error many times the variation has the two swapped", () => {
    expect(refusalOf(() => testsNeeded(0.03, 0.15, 1.96))).toBe(
      "#VALUE! error is 0.15; must be 0.01 to 4 times the cv of 0.03; are the two swapped?",
    );
    expect(testsNeeded(0.03, 0.12, 1.96)).toBe(1);
    // A percent sign behind a fraction: (1.96 × 100)² tests are the most.
    expect(testsNeeded(0.03, 0.0003, 1.96)).toBe(38416);
    expect(refusalOf(() => testsNeeded(0.03, 0.00029, 1.96))).toContain("must be 0.01 to 4 times the cv");
  });

  test("from a sample: the fewest that bring the range of the mean within the margin", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 80 }), fc.integer({ min: 2, max: 200 }), (percent, ratio) => {
        const deviation = percent / 100;
        const margin = (deviation * ratio) / 100;
        const tests = testsFor({ tests: 5, mean: 1, deviation }, margin, 0.95) as number;
        const rangeOf = (count: number) => halfRange({ tests: count, mean: 1, deviation }, 0.95);
        expect(rangeOf(tests)).toBeLessThanOrEqual(margin);
        if (tests > 2) expect(rangeOf(tests - 1)).toBeGreaterThan(margin);
      }),
      { numRuns: 40 },
    );
  });

  test("no number of tests does for a margin of next to nothing", () => {
    expect(testsFor({ tests: 5, mean: 1, deviation: 0.1 }, 1e-9, 0.95)).toBeUndefined();
  });
});
