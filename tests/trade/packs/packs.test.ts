import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PACK_TOLERANCES } from "../../../src/tables/pack-tolerances";
import { SOURCES } from "../../../src/tables/sources";
import { packCheck } from "../../../src/trade/packs/pack-check";
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

describe("the packers' rules on packs of 100 g, T = 4.5 g", () => {
  const packs = (...short: number[]) => [...short, ...new Array<number>(40 - short.length).fill(100.5)];

  test("one in forty may be short by more than T, if the mean holds", () => {
    const check = packCheck(packs(95.4), 100, [0]);
    expect(check).toMatchObject({ packs: 40, short: 1, shortAllowed: 1, veryShort: 0, verdict: "passes" });
  });

  test("two in forty may not", () => {
    expect(packCheck(packs(95.4, 95.4), 100, [0]).verdict).toMatch(/^fails: 2 below nominal - T, 1 allowed$/);
  });

  test("none may be short by more than 2T", () => {
    expect(packCheck(packs(90.9), 100, [0]).verdict).toMatch(/1 below nominal - 2T, none allowed$/);
  });

  test("exactly T and exactly 2T short are not more than T and 2T", () => {
    expect(packCheck(packs(95.5), 100, [0])).toMatchObject({ short: 0 });
    expect(packCheck(packs(91), 100, [0])).toMatchObject({ short: 1, veryShort: 0 });
  });

  test("a mean exactly nominal passes, though binary sums fall below", () => {
    // 99.9 + 100.1 ten times over: exactly 100 on average.
    const even = new Array<number>(20).fill(0).map((_, index) => (index % 2 === 0 ? 99.9 : 100.1));
    expect(packCheck(even, 100, [0])).toMatchObject({ mean: 100, verdict: "passes" });
  });

  test("the tare comes off each pack, one for all or one for each", () => {
    const masses = [101, 102, 103];
    expect(packCheck(masses, 100, [1]).mean).toBe(101);
    expect(packCheck(masses, 100, [1, 2, 3]).mean).toBe(100);
  });

  test("counts and verdict are those of a plain count of whole tenths", () => {
    const run = fc.array(fc.integer({ min: 880, max: 1100 }), { minLength: 1, maxLength: 90 });
    fc.assert(
      fc.property(run, (tenths) => {
        const check = packCheck(
          tenths.map((mass) => mass / 10),
          100,
          [0],
        );
        const short = tenths.filter((mass) => mass < 955).length;
        const veryShort = tenths.filter((mass) => mass < 910).length;
        const heavy = tenths.reduce((sum, mass) => sum + mass, 0) >= 1000 * tenths.length;
        expect([check.short, check.veryShort]).toEqual([short, veryShort]);
        expect(check.verdict === "passes").toBe(heavy && short <= tenths.length / 40 && veryShort === 0);
      }),
    );
  });
});
