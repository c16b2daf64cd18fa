import { describe, expect, test } from "vitest";
import { compareLots } from "../../../src/trade/quality/lots-differ";
import { sampleOf } from "../../../src/trade/quality/sample";
import { testsNeeded } from "../../../src/trade/quality/tests-needed";
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
    expect(refusalOf(() => compareLots(flat, flat, "unequal"))).toMatch(/^#DIV\/0! values_1 is without spread/);
  });
});

test("tests needed: 1.96² × 7.5²/1.5² is 96.04, so 97; a quotient that comes out whole is not raised", () => {
  expect(testsNeeded(0.075, 0.015, 1.96)).toBe(97);
  expect(testsNeeded(0.06, 0.02, 2)).toBe(36);
  expect(refusalOf(() => sampleOf([5], "values"))).toMatch(/^#VALUE! values is 1 value/);
});
