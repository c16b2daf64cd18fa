import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { balesToCore, expectBales, expectError } from "../../../src/trade/wool/core-sampling";

/** Dean & Voss, Table 17.1: clean content (%) of 4 cores from each of 7 bales. */
const BALES = [
  [52.33, 56.26, 62.86, 50.46],
  [56.99, 58.69, 58.2, 57.35],
  [54.64, 57.48, 59.29, 57.51],
  [54.9, 60.08, 58.72, 55.61],
  [59.89, 57.76, 60.26, 57.53],
  [57.76, 59.68, 59.58, 58.08],
  [60.27, 60.3, 61.09, 61.45],
];
const CORES = 4;

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

const grand = mean(BALES.flat());
const meanSquareBetween =
  (CORES * BALES.reduce((sum, bale) => sum + (mean(bale) - grand) ** 2, 0)) / (BALES.length - 1);
const meanSquareWithin =
  BALES.reduce((sum, bale) => sum + bale.reduce((inner, core) => inner + (core - mean(bale)) ** 2, 0), 0) /
  (BALES.length * (CORES - 1));

describe("clean-wool core data of Dean & Voss", () => {
  test("give the printed mean squares 10.994 between and 6.2606 within", () => {
    expect(meanSquareBetween).toBeCloseTo(10.994, 3);
    expect(meanSquareWithin).toBeCloseTo(6.2606, 4);
  });

  test("the bales that bring the mean within 1 % yield are the least whose variance is small enough", () => {
    const between = Math.sqrt((meanSquareBetween - meanSquareWithin) / CORES);
    const within = Math.sqrt(meanSquareWithin);
    // sb² + sw²/k is the mean square between over k, 2.7485; times 1.96² it is 10.56.
    expect(balesToCore(between, within, CORES, 1, 1.96, undefined)).toBe(11);
    // More cores spare bales, but never those that sb alone asks for: 1.1834 · 1.96² = 4.5.
    expect(balesToCore(between, within, 1000, 1, 1.96, undefined)).toBe(5);
  });
});

describe("in general", () => {
  const deviation = fc.integer({ min: 0, max: 500 }).map((count) => count / 100);
  const case_ = fc.record({
    between: deviation,
    within: deviation,
    cores: fc.integer({ min: 1, max: 10 }),
    error: fc.integer({ min: 20, max: 300 }).map((count) => count / 100),
    lot: fc.integer({ min: 1, max: 400 }),
  });
  const Z = 1.96;

  test("n bales reach the error and n - 1 do not, by the variance with its finite-lot factor", () => {
    fc.assert(
      fc.property(case_, ({ between, within, cores, error, lot }) => {
        const margin = (bales: number) =>
          Z * Math.sqrt(((1 - bales / lot) * between ** 2) / bales + within ** 2 / (bales * cores));
        if (margin(lot) > error * (1 + 1e-9)) {
          expect(() => balesToCore(between, within, cores, error, Z, lot)).toThrow(/cannot reach it/);
          return;
        }
        const bales = balesToCore(between, within, cores, error, Z, lot);
        expect(margin(bales)).toBeLessThanOrEqual(error * (1 + 1e-8));
        if (bales > 1) expect(margin(bales - 1)).toBeGreaterThan(error * (1 - 1e-8));
      }),
    );
  });

  test("coring every bale leaves no error between bales", () => {
    expect(balesToCore(5, 0, 1, 0.0001, Z, 12)).toBe(12);
  });

  test("an endless lot asks for no fewer than a finite one, and a very large lot for as many", () => {
    fc.assert(
      fc.property(case_, ({ between, within, cores, error }) => {
        const endless = balesToCore(between, within, cores, error, Z, undefined);
        expect(balesToCore(between, within, cores, error, Z, 10 ** 12)).toBe(endless);
      }),
    );
  });

  test("a sample that comes out whole is not rounded up by a trace of noise", () => {
    // A deviation of m errors needs m² bales exactly; in binary the quotient often comes out a trace above.
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 999 }), (error, multiple) => {
        expect(balesToCore((error * multiple) / 1000, 0, 1, error / 1000, 1, undefined)).toBe(multiple ** 2);
      }),
    );
  });
});

test("errors and deviations of unlike units, and a lot too small for the error, are told", () => {
  for (const [between, within] of [[0.02, 0.01], [0.01, 0.02]] as const) {
    expect(expectError(0.4, between, within)).toBe(0.4);
    expect(() => expectError(0.5, between, within)).toThrow(/^error is 0.5; beside deviations of 0.0[12] and 0.0[12]; are all/);
  } // prettier-ignore
  expect(expectError(5, 0, 0)).toBe(5);
  expect(expectBales(0.1, 20_000)).toBe(20_000);
  expect(() => expectBales(0.1, 20_100)).toThrow("error is 0.1; 20100 bales; are all in one unit?");
  expect(() => balesToCore(3, 3, 1, 0.5, 2, 10)).toThrow(
    "error is 0.5; 10 bales of 1 cores cannot reach it; take more cores a bale",
  );
});
