import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { texOf } from "../../../src/trade/counts/counts";
import { lengthIn, plyCount, singleCount } from "../../../src/trade/counts/ply";
import { expectClose } from "../../support/closeness";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);

const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });

const anyTakeUp = fc.double({ min: -0.5, max: 0.5, noNaN: true });

const anyBasis = fc.constantFrom("initial" as const, "final" as const);

const anyPlies = fc.integer({ min: 1, max: 24 });

describe("plying", () => {
  test("a plied yarn weighs what goes into it", () => {
    fc.assert(
      fc.property(anyCount, anyPlies, anySystem, anyTakeUp, (single, plies, system, takeUp) => {
        const resultant = (basis: "initial" | "final") => texOf(plyCount(single, plies, system, takeUp, basis), system);
        // 1 m in gives 1 - c m out; or 1 m out takes 1 + c m in.
        expectClose(resultant("initial") * (1 - takeUp), plies * texOf(single, system));
        expectClose(resultant("final"), plies * texOf(single, system) * (1 + takeUp));
      }),
    );
  });

  test("the single for a plied yarn is the one that plies to it", () => {
    fc.assert(
      fc.property(anyCount, anyPlies, anySystem, anyTakeUp, anyBasis, (count, plies, system, takeUp, basis) => {
        expectClose(plyCount(singleCount(count, plies, system, takeUp, basis), plies, system, takeUp, basis), count);
        expectClose(singleCount(plyCount(count, plies, system, takeUp, basis), plies, system, takeUp, basis), count);
      }),
    );
  });

  test("the two bases say the same of the same lengths: 100 in and 80 out is 20 % of the one and 25 % of the other", () => {
    expect(lengthIn(0.2, "initial")).toBe(lengthIn(0.25, "final"));
    expect(plyCount(50, 2, COUNT_SYSTEMS[0] as CountSystem, 0.2, "initial")).toBe(125);
    expect(plyCount(50, 2, COUNT_SYSTEMS[0] as CountSystem, 0.25, "final")).toBe(125);
  });

  test("more take-up makes a heavier yarn, and a negative one a lighter", () => {
    fc.assert(
      fc.property(anyCount, anyPlies, anySystem, anyTakeUp, anyBasis, (single, plies, system, takeUp, basis) => {
        const tex = (c: number) => texOf(plyCount(single, plies, system, c, basis), system);
        expect(tex(takeUp + 0.01)).toBeGreaterThan(tex(takeUp));
      }),
    );
  });
});
