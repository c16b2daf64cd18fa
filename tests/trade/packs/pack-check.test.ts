import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packCheck } from "../../../src/trade/packs/pack-check";

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

test("packs of a fifth or of five times their nominal mass are weighed in another unit; from there on they are packs", () => {
  for (const average of [19.9, 501]) {
    expect(() => packCheck([average, average], 100, [0])).toThrow(
      `masses is ${average} g on average; the nominal is 100 g; check unit and tare`,
    );
  }
  for (const average of [20, 500]) expect(packCheck([average, average], 100, [0]).packs).toBe(2);
  expect(() => packCheck([100], 100, [101])).toThrow("tare is above the mass of pack 1; must not exceed it");
});
