import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PACK_TOLERANCES } from "../../../src/tables/pack-tolerances";
import { SOURCES } from "../../../src/tables/sources";
import { tolerableShortfall } from "../../../src/trade/packs/tolerable-shortfall";

const tolerable = (nominal: number) => tolerableShortfall(nominal, "nominal_g").toNumber();

/** Directive 76/211/EEC, Annex I 2.4: from, to (g), percent of the nominal quantity or grams. */
const BANDS: [from: number, to: number, percent: number | undefined, grams: number | undefined][] = [
  [5, 50, 9, undefined],
  [50, 100, undefined, 4.5],
  [100, 200, 4.5, undefined],
  [200, 300, undefined, 9],
  [300, 500, 3, undefined],
  [500, 1000, undefined, 15],
  [1000, 10000, 1.5, undefined],
];

describe("tolerable negative error", () => {
  test.each(BANDS)("band from %d to %d g", (from, to, percent, grams) => {
    const wanted = (nominal: number) => {
      if (grams !== undefined) return grams;
      // Whole tenths of a gram, rounded up, with whole numbers: nominal in tenths, percent in tenths.
      const thousandths = BigInt(Math.round(nominal * 10)) * BigInt(Math.round((percent as number) * 10));
      return Number((thousandths + 999n) / 1000n) / 10;
    };
    for (let tenths = from * 10; tenths <= to * 10; tenths += to > 1000 ? 7 : 1) {
      expect(tolerable(tenths / 10), `${tenths / 10} g`).toBe(wanted(tenths / 10));
    }
    expect(tolerable(from)).toBe(wanted(from));
    expect(tolerable(to)).toBe(wanted(to));
  });

  test.each([
    [33, 3],
    [110, 5],
    [310, 9.3],
    [303, 9.1],
    [1001, 15.1],
  ])("a percent is rounded up to a tenth: %d g tolerates %d g", (nominal, grams) => {
    expect(tolerable(nominal)).toBe(grams);
  });

  test("what comes out even is not rounded up: 9 % of 30 g is 2.7 g", () => {
    expect([30, 10, 20, 50].map(tolerable)).toEqual([2.7, 0.9, 1.8, 4.5]);
  });

  test("never falls as packs grow, over all bands", () => {
    const nominal = fc.integer({ min: 50, max: 100000 }).map((tenths) => tenths / 10);
    fc.assert(fc.property(nominal, nominal, (a, b) => tolerable(Math.max(a, b)) >= tolerable(Math.min(a, b))));
  });

  test.each([4.99, 10000.01])("%d g is outside the rule", (nominal) => {
    expect(() => tolerable(nominal)).toThrow(/covers packs of 5 g to 10 kg/);
  });

  test("every band names a known source", () => {
    const keys = new Set(SOURCES.map(({ key }) => key));
    for (const { source } of PACK_TOLERANCES) expect(keys.has(source)).toBe(true);
  });
});
