import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareLots } from "../../../src/trade/quality/lots-differ";
import { sampleOf } from "../../../src/trade/quality/sample";
import { testsNeeded } from "../../../src/trade/quality/tests-needed";
import { expectClose } from "../../support/closeness";
import { refusalOf } from "../../support/refusals";

describe("two lots", () => {
  // Student (1908), the sleep data: difference of drugs as two samples; t and p as R documents for t.test (from memory).
  const first = sampleOf([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2], "values_1");
  const second = sampleOf([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4], "values_2");

  test("unequal spreads", () => {
    const { t, degrees, chance } = compareLots(first, second, "unequal");
    expect(t).toBeCloseTo(-1.8608, 4);
    expect(degrees).toBeCloseTo(17.776, 3);
    expect(chance).toBeCloseTo(0.07939, 5);
  });

  test("one spread for both", () => {
    const { t, degrees, chance } = compareLots(first, second, "pooled");
    expect(t).toBeCloseTo(-1.8608, 4);
    expect(degrees).toBe(18);
    expect(chance).toBeCloseTo(0.07919, 5);
  });

  test("without any spread there is no t", () => {
    const flat = sampleOf([5, 5, 5], "values_1");
    expect(refusalOf(() => compareLots(flat, flat, "unequal"))).toMatch(
      /^#DIV\/0! values_1 is without spread, like values_2; t needs values that differ/,
    );
  });

  const lot = fc.array(fc.integer({ min: 500, max: 1500 }), { minLength: 2, maxLength: 12 });
  const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const squaresOf = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + (value - meanOf(values)) ** 2, 0);

  test("of any sizes: t² is the F of an analysis of variance of two groups", () => {
    fc.assert(
      fc.property(lot, lot, (one, other) => {
        fc.pre(squaresOf(one) + squaresOf(other) > 0);
        const { t, degrees } = compareLots(sampleOf(one, "values_1"), sampleOf(other, "values_2"), "pooled");
        const within = squaresOf(one) + squaresOf(other);
        const between =
          one.length * (meanOf(one) - meanOf([...one, ...other])) ** 2 +
          other.length * (meanOf(other) - meanOf([...one, ...other])) ** 2;
        expect(degrees).toBe(one.length + other.length - 2);
        const f = between / (within / degrees);
        expect(Math.abs(t ** 2 - f)).toBeLessThanOrEqual(1e-8 * Math.max(1, f));
        expect(Math.sign(t)).toBe(Math.sign(meanOf(one) - meanOf(other)));
      }),
    );
  });

  test("of any sizes: Welch's degrees by the shares that the lots have in the variance", () => {
    fc.assert(
      fc.property(lot, lot, (one, other) => {
        fc.pre(squaresOf(one) > 0 && squaresOf(other) > 0);
        const { t, degrees } = compareLots(sampleOf(one, "values_1"), sampleOf(other, "values_2"), "unequal");
        const [own, others] = [one, other].map((lot) => squaresOf(lot) / (lot.length - 1) / lot.length);
        const share = own! / (own! + others!);
        expectClose(1 / degrees, share ** 2 / (one.length - 1) + (1 - share) ** 2 / (other.length - 1), 1e-9);
        const wanted = (meanOf(one) - meanOf(other)) / Math.sqrt(own! + others!);
        expect(Math.abs(t - wanted)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
      }),
    );
  });

  test("more than five times apart they are in two units", () => {
    const of = (mean: number) => sampleOf([mean - 1, mean + 1], "values");
    expect(refusalOf(() => compareLots(of(10), of(50.01), "unequal"))).toBe(
      "#VALUE! values_2 is 50.01 on average beside 10 of values_1; are both in one unit?",
    );
    expect(refusalOf(() => compareLots(of(50.01), of(10), "unequal"))).toMatch(/^#VALUE! values_2 is 10 on average/);
    for (const [one, other] of [
      [10, 50],
      [50, 10],
    ] as const)
      expect(compareLots(of(one), of(other), "unequal").degrees).toBeCloseTo(2, 12);
  });
});

test("tests needed: 1.96² × 7.5²/1.5² is 96.04, so 97; a quotient that comes out whole is not raised", () => {
  expect(testsNeeded(0.075, 0.015, 1.96)).toBe(97);
  expect(testsNeeded(0.06, 0.02, 2)).toBe(36);
  expect(refusalOf(() => sampleOf([5], "values"))).toMatch(/^#VALUE! values is 1 value/);
});
