import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { practicalShares, stepsInWhole } from "../../../src/trade/blending/practical-shares";
import { refusalOf } from "../../support/refusals";

/** Shares in whole ten-thousandths that sum to 1. */
const recipe = fc
  .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 10 })
  .filter((parts) => parts.some((part) => part > 0))
  .map((parts) => {
    const total = parts.reduce((sum, part) => sum + part, 0);
    const cut = parts.map((part) => Math.floor((part * 10000) / total));
    const first = cut.findIndex((part) => part > 0);
    (cut[first] as number) += 10000 - cut.reduce((sum, part) => sum + part, 0);
    return cut.map((part) => part / 10000);
  });
const step = fc.constantFrom(0.1, 0.05, 0.02, 0.01, 0.005, 0.001);

/** All ways to share out whole steps where what is wanted gets one at least, by trying them. */
function ways(steps: number, wanted: readonly boolean[]): number[][] {
  if (wanted.length === 0) return steps === 0 ? [[]] : [];
  const [first, ...rest] = wanted;
  const counts = first ? Array.from({ length: steps }, (_, index) => index + 1) : [0];
  return counts.flatMap((count) => ways(steps - count, rest).map((way) => [count, ...way]));
}

describe("practical shares", () => {
  test("are whole steps, sum to exactly 1 as decimals, and keep what is wanted", () => {
    fc.assert(
      fc.property(recipe, step, (shares, size) => {
        fc.pre(shares.filter((part) => part > 0).length <= 1 / size);
        const result = practicalShares(shares, size);
        expect(result.reduce((sum, part) => sum.plus(part), new Decimal(0)).toString()).toBe("1");
        result.forEach((part, index) => {
          expect(new Decimal(part).div(size).isInteger()).toBe(true);
          expect(part > 0).toBe((shares[index] as number) > 0);
        });
      }),
      { numRuns: 2000 },
    );
  });

  test("are as near as whole steps can be: no other way has a smaller sum of squares", () => {
    const few = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(few, fc.constantFrom(4, 5, 10, 20), (parts, steps) => {
        const total = parts.reduce((sum, part) => sum + part, 0);
        fc.pre(total > 0);
        const shares = parts.map((part) => part / total);
        fc.pre(shares.filter((part) => part > 0).length <= steps);
        const distance = (way: readonly number[]) =>
          way.reduce((sum, count, index) => sum + (count - (shares[index] as number) * steps) ** 2, 0);
        const nearest = Math.min(
          ...ways(
            steps,
            parts.map((part) => part > 0),
          ).map(distance),
        );
        const ours = distance(practicalShares(shares, 1 / steps).map((part) => Math.round(part * steps)));
        expect(ours).toBeLessThanOrEqual(nearest + 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  test("stay as they are when they are practical already", () => {
    fc.assert(
      fc.property(recipe, step, (shares, size) => {
        fc.pre(shares.filter((part) => part > 0).length <= 1 / size);
        const once = practicalShares(shares, size);
        expect(practicalShares(once, size)).toEqual(once);
      }),
    );
  });

  test("move with their components where no two remainders are equal", () => {
    fc.assert(
      fc.property(recipe, step, fc.nat(), (shares, size, turn) => {
        const wanted = shares.filter((part) => part > 0);
        fc.pre(wanted.length <= 1 / size);
        fc.pre(new Set(wanted.map((part) => new Decimal(part).mod(size).toString())).size === wanted.length);
        const by = turn % shares.length;
        const turned = [...practicalShares(shares, size).slice(by), ...practicalShares(shares, size).slice(0, by)];
        expect(practicalShares([...shares.slice(by), ...shares.slice(0, by)], size)).toEqual(turned);
      }),
    );
  });

  test("ties go to the first: half a step each", () => {
    expect(practicalShares([0.125, 0.125, 0.75], 0.01)).toEqual([0.13, 0.12, 0.75]);
  });

  test("a sum that misses 1 by rounding is mended, a missing component is not", () => {
    expect(practicalShares([0.33, 0.33, 0.33], 0.01)).toEqual([0.34, 0.33, 0.33]);
    expect(refusalOf(() => practicalShares([0.5, 0.4], 0.01))).toBe(
      "#VALUE! shares is 0.9 in all; must sum to 1 (100%)",
    );
  });

  test("half a step for each share that is there may be missing, and no more", () => {
    expect(practicalShares([0.45, 0.45], 0.1)).toEqual([0.5, 0.5]);
    for (const shares of [
      [0.45, 0.4],
      [0.45, 0.4, 0, 0],
    ]) {
      expect(refusalOf(() => practicalShares(shares, 0.1))).toBe("#VALUE! shares is 0.85 in all; must sum to 1 (100%)");
    }
  });

  test("a trace of many keeps its step, at the cost of those that have more than one", () => {
    expect(practicalShares([0.97, 0.01, 0.01, 0.01], 0.1)).toEqual([0.7, 0.1, 0.1, 0.1]);
    expect(practicalShares([0.55, 0.35, 0.05, 0.05], 0.25)).toEqual([0.25, 0.25, 0.25, 0.25]);
    expect(practicalShares([0.5, 0.5, 0], 0.5)).toEqual([0.5, 0.5, 0]);
    expect(refusalOf(() => practicalShares([0.5, 0.3, 0.2], 0.5))).toBe(
      "#VALUE! step is 0.5; is too coarse for 3 shares; take a finer one",
    );
  });

  test("a step goes into 1 and is no finer than a millionth", () => {
    expect([stepsInWhole(1), stepsInWhole(0.05), stepsInWhole(1e-6)]).toEqual([1, 20, 1_000_000]);
    expect(refusalOf(() => stepsInWhole(9e-7))).toBe("#VALUE! step is 9e-7; must be 0.000001 or more");
    for (const step of [0.03, 0.7, 1.5, 3]) {
      expect(refusalOf(() => stepsInWhole(step))).toBe(
        `#VALUE! step is ${step}; must go into 1 a whole number of times: 0.01, 0.05`,
      );
    }
  });
});
