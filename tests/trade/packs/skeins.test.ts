import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { reelTurns } from "../../../src/trade/packs/reel";
import { skeinsOf, wholeSkeins } from "../../../src/trade/packs/skeins";

describe("whole skeins and remainder", () => {
  const grams = fc.integer({ min: 1, max: 5000000 });
  const skein = fc.integer({ min: 1, max: 500 });

  test("agree with whole grams, typed in kilograms", () => {
    fc.assert(
      fc.property(grams, skein, (mass, one) => {
        const got = skeinsOf(mass / 1000, one / 1000, undefined, undefined);
        expect(got.whole).toBe(Math.floor(mass / one));
        expect(got.remainder).toBe((mass % one) / 1000);
      }),
    );
  });

  test("with regains agree with whole numbers", () => {
    const regain = fc.integer({ min: 0, max: 3000 });
    fc.assert(
      fc.property(grams, skein, regain, regain, (mass, one, now, standard) => {
        const yarn = BigInt(mass) * BigInt(10000 + standard);
        const each = BigInt(one) * BigInt(10000 + now);
        const got = skeinsOf(mass / 1000, one / 1000, now / 10000, standard / 10000);
        expect(wholeSkeins(mass / 1000, one / 1000, now / 10000, standard / 10000)).toBe(got.whole);
        expect(got.whole).toBe(Number(yarn / each));
        expect(got.remainder).toBeCloseTo(Number(yarn % each) / (10000 + now) / 1000, 12);
      }),
    );
  });
});

describe("turns of a reel", () => {
  const metre = 1;
  const yard = 0.9144;
  const inch = 0.0254;

  test.each([
    [120, yard, 54, inch, 80],
    [560, yard, 36, inch, 560],
    [840, yard, 1.5, yard, 560],
    [100, metre, 1, metre, 100],
    [300, yard, 2.5, yard, 120],
  ])("%d × %d on %d × %d is %d turns exactly", (length, unit, circumference, other, turns) => {
    expect(reelTurns(length, unit, circumference, other)).toBe(turns);
  });

  test("turns × circumference is the length", () => {
    const size = fc.integer({ min: 1, max: 100000 }).map((count) => count / 100);
    fc.assert(
      fc.property(size, size, (length, circumference) => {
        expect((reelTurns(length, yard, circumference, inch) * circumference * inch) / (length * yard)).toBeCloseTo(
          1,
          13,
        );
      }),
    );
  });
});
