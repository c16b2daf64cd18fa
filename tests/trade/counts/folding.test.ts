import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { fromTex, texOf } from "../../../src/trade/counts/counts";
import { fold, foldMissing, foldShares } from "../../../src/trade/counts/folding";
import { plyCount } from "../../../src/trade/counts/ply";
import { expectClose } from "../../support/closeness";
import { refusalOf } from "../../support/refusals";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);

const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });

const anyCounts = fc.array(anyCount, { minLength: 1, maxLength: 8 });

const anyTakeUp = fc.double({ min: -0.5, max: 0.5, noNaN: true });

const anyPlies = fc.integer({ min: 1, max: 24 });

/** Mass balance, in tex: nothing but the definitions. */
function texOfFold(counts: readonly number[], system: CountSystem, feeds?: readonly number[]): number {
  return counts.reduce((sum, count, index) => sum + texOf(count, system) * (feeds?.[index] ?? 1), 0);
}

describe("beyond any yarn", () => {
  const metric = COUNT_SYSTEMS.find(({ word }) => word === "Nm") as CountSystem;

  test("counts that no double holds together, or a resultant that none does, are refused", () => {
    expect(refusalOf(() => fold([1e308, 1e-10], metric, 0, undefined))).toBe(
      "#NUM! counts is beyond any yarn together; check them",
    );
    expect(refusalOf(() => foldMissing([1e10], metric)(1e-320))).toBe(
      "#NUM! resultant is 1e-320; no yarn is like that",
    );
  });
});

describe("folding unlike yarns", () => {
  test("adds masses", () => {
    fc.assert(
      fc.property(anyCounts, anySystem, anyTakeUp, (counts, system, takeUp) => {
        const folded = fold(counts, system, takeUp, undefined);
        expectClose(texOf(folded, system) * (1 - takeUp), texOfFold(counts, system));
      }),
    );
  });

  test("does not depend on the order", () => {
    fc.assert(
      fc.property(anyCounts, anySystem, (counts, system) => {
        expectClose(fold([...counts].reverse(), system, 0, undefined), fold(counts, system, 0, undefined));
      }),
    );
  });

  test("may go by steps: a fold of folds is the fold of all", () => {
    fc.assert(
      fc.property(anyCounts, anyCounts, anySystem, (some, others, system) => {
        const steps = [fold(some, system, 0, undefined), fold(others, system, 0, undefined)];
        expectClose(fold(steps, system, 0, undefined), fold([...some, ...others], system, 0, undefined));
      }),
    );
  });

  test("of equal yarns is plying", () => {
    fc.assert(
      fc.property(anyCount, anyPlies, anySystem, anyTakeUp, (count, plies, system, takeUp) => {
        const equal = new Array<number>(plies).fill(count);
        expectClose(fold(equal, system, takeUp, undefined), plyCount(count, plies, system, takeUp, "initial"));
      }),
    );
  });

  test("by feeds weighs each component as long as it is fed", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(anyCount, fc.double({ min: 0.5, max: 4, noNaN: true })), { minLength: 1, maxLength: 6 }),
        anySystem,
        (components, system) => {
          const counts = components.map(([count]) => count);
          const feeds = components.map(([, feed]) => feed);
          expectClose(texOf(fold(counts, system, 0, feeds), system), texOfFold(counts, system, feeds));
          const shares = foldShares(counts, system, feeds);
          expectClose(
            shares.reduce((sum, share) => sum + share, 0),
            1,
          );
          shares.forEach((share, index) =>
            expectClose(
              share,
              (texOf(counts[index] as number, system) * (feeds[index] as number)) / texOfFold(counts, system, feeds),
            ),
          );
        },
      ),
    );
  });

  test("with the missing component gives the resultant", () => {
    fc.assert(
      fc.property(anyCounts, anyCount, anySystem, (counts, missing, system) => {
        const whole = fold([...counts, missing], system, 0, undefined);
        const part = texOf(missing, system) / texOfFold([...counts, missing], system);
        fc.pre(part > 1e-3);
        expectClose(foldMissing(counts, system)(whole), missing, 1e-14 / part / part);
      }),
    );
  });

  test("finds nothing missing where the components are the resultant already, or heavier", () => {
    fc.assert(
      fc.property(anyCounts, anySystem, fc.double({ min: 1e-6, max: 0.5, noNaN: true }), (counts, system, less) => {
        const together = fold(counts, system, 0, undefined);
        const lighter = fromTex(texOf(together, system) * (1 - less), system);
        for (const resultant of [together, lighter]) {
          expect(refusalOf(() => foldMissing(counts, system)(resultant))).toMatch(
            /^#N\/A resultant is .*; the counts alone fold to .*: nothing is missing$/,
          );
        }
      }),
    );
  });
});
