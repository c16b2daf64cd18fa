import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { orderCheck } from "../../../src/trade/quality/order-check";
import { halfRange, type Sample } from "../../../src/trade/quality/sample";

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
    expect(orderCheck({ tests: 5, mean: 33, deviation: 1 }, 30, 0.1, 0.95).verdict).toMatch(/^too few tests to tell/);
  });
});
