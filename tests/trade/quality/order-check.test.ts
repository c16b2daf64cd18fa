import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { orderCheck } from "../../../src/trade/quality/order-check";
import { halfRange, type Sample } from "../../../src/trade/quality/sample";
import { refusalOf } from "../../support/refusals";

const sample: fc.Arbitrary<Sample> = fc.record({
  tests: fc.integer({ min: 2, max: 60 }),
  mean: fc.double({ min: 20, max: 40, noNaN: true }),
  deviation: fc.double({ min: 0.05, max: 4, noNaN: true }),
});

describe("within the order", () => {
  test("the verdict is that of the whole range, and the number that would do is the least that does", () => {
    fc.assert(
      fc.property(sample, fc.double({ min: 0.005, max: 0.2, noNaN: true }), (given, tolerance) => {
        const { low, high, verdict } = orderCheck(given, 30, tolerance, 0.95);
        const [least, most] = [30 * (1 - tolerance), 30 * (1 + tolerance)];
        expect(verdict === "holds").toBe(low >= least && high <= most);
        expect(verdict === "does not hold").toBe(high < least || low > most);
        const enough = /; (\d+) would do$/.exec(verdict);
        if (!enough) return;
        const tests = Number(enough[1]);
        const sure = (n: number): boolean => {
          const half = halfRange({ ...given, tests: n }, 0.95);
          const [from, to] = [given.mean - half, given.mean + half];
          return (from >= least && to <= most) || to <= least || from >= most;
        };
        expect(tests).toBeGreaterThan(given.tests);
        // To the last digit of a range that touches the limit.
        expect(sure(tests + 1)).toBe(true);
        if (tests > 3) expect(sure(tests - 2)).toBe(false);
      }),
    );
  });

  test("a mean on the limit itself can never be told", () => {
    for (const mean of [24, 40])
      expect(orderCheck({ tests: 5, mean, deviation: 1 }, 32, 0.25, 0.95).verdict).toBe("too few tests to tell");
  });

  test("how many tests would do is the first number whose range, by the printed t, stays within the margin", () => {
    // Margin 1.5 of a deviation of 2: t·2/√n is 1.67 for 8 tests (2.365) and 1.54 for 9 (2.306), 1.43 for 10 (2.262).
    expect(orderCheck({ tests: 5, mean: 31.5, deviation: 2 }, 30, 0.1, 0.95).verdict).toBe(
      "too few tests to tell; 10 would do",
    );
  });

  test("the range lies about the mean, and off by is of what was ordered", () => {
    // The printed t of 2.262 for ten tests at 95 %, as in the test of a sample.
    const { low, high, offBy } = orderCheck({ tests: 10, mean: 33, deviation: 1.2 }, 30, 0.05, 0.95);
    expect([low, high].map((end) => end.toFixed(3))).toEqual(
      [33 - (2.262 * 1.2) / Math.sqrt(10), 33 + (2.262 * 1.2) / Math.sqrt(10)].map((end) => end.toFixed(3)),
    );
    expect(offBy).toBeCloseTo(0.1, 14);
  });

  test("a mean of values that are all alike holds on the limit itself and no longer beyond it", () => {
    const verdict = (mean: number) => orderCheck({ tests: 5, mean, deviation: 0 }, 32, 0.25, 0.95).verdict;
    expect([23.9, 24, 32, 40, 40.1].map(verdict)).toEqual([
      "does not hold",
      "holds",
      "holds",
      "holds",
      "does not hold",
    ]);
  });

  test("twice or half of what was ordered is measured, more or less is in another unit", () => {
    const of = (mean: number) => () => orderCheck({ tests: 5, mean, deviation: 1 }, 30, 0.1, 0.95);
    for (const mean of [15, 60]) expect(of(mean)().verdict).toBe("does not hold");
    expect(refusalOf(of(14.99))).toBe("#VALUE! ordered is 30; the mean of values is 14.99; check the unit");
    expect(refusalOf(of(60.123456))).toBe("#VALUE! ordered is 30; the mean of values is 60.1235; check the unit");
  });
});
