import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { breakEvenUnits } from "../../src/trade/prices/break-even";
import { roundHalfAway } from "../../src/trade/money";
import { orderChoices } from "../../src/trade/prices/order-size";
import { practicalShares } from "../../src/trade/blending/practical-shares";
import { dyeLots } from "../../src/trade/route/dye-lots";
import { packCheck } from "../../src/trade/packs/pack-check";
import { tolerableShortfall } from "../../src/trade/packs/tolerable-shortfall";
import { skeinsOf } from "../../src/trade/packs/skeins";
import { wholeDown, wholeUp } from "../../src/trade/whole";
import { Fraction } from "../support/fractions";
import { decimals } from "../support/money-arbitraries";

/** What a person types: few digits. What the sheet makes of it by binary arithmetic is a trace beside the decimal. */
const typed = decimals(0.01, 9999, 3);

describe("products and sums of typed decimals count as the exact decimals", () => {
  const products = fc.tuple(typed, typed).map(([a, b]) => ({
    binary: a * b,
    exact: Fraction.from(a).times(Fraction.from(b)),
  }));
  const sums = fc.array(typed, { minLength: 2, maxLength: 6 }).map((parts) => ({
    binary: parts.reduce((sum, part) => sum + part, 0),
    exact: parts.map((part) => Fraction.from(part)).reduce((sum, part) => sum.plus(part)),
  }));
  const worked = fc.oneof(products, sums);

  test("in rounding", () => {
    fc.assert(
      fc.property(worked, fc.integer({ min: 0, max: 4 }), ({ binary, exact }, places) => {
        expect(roundHalfAway(binary, places).toNumber()).toBe(exact.rounded(places).toNumber());
      }),
      { numRuns: 3000 },
    );
  });

  test("in whole lots, steps and skeins", () => {
    fc.assert(
      fc.property(worked, typed, ({ binary, exact }, size) => {
        const quotient = exact.over(Fraction.from(size));
        const down = quotient.floor();
        const up = quotient.equals(Fraction.of(down)) ? down : down + 1n;
        expect(wholeDown(binary, size).toString()).toBe(down.toString());
        expect(wholeUp(binary, size).toString()).toBe(up.toString());
        expect(skeinsOf(binary, size, undefined, undefined).whole).toBe(Number(down));
      }),
      { numRuns: 3000 },
    );
  });

  test("in whole multiples, where the trace would decide", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), typed, (count, size) => {
        expect(wholeDown(count * size, size).toNumber()).toBe(count);
        expect(wholeUp(count * size, size).toNumber()).toBe(count);
        expect(breakEvenUnits(count * size, size + 1, 1, 0)).toBe(count);
      }),
      { numRuns: 3000 },
    );
  });

  test("as seen in sheets", () => {
    expect(roundHalfAway(1.15 * 3, 1).toNumber()).toBe(3.5);
    expect(skeinsOf(4.35 * 100, 1, undefined, undefined)).toEqual({ whole: 435, remainder: 0 });
    expect(breakEvenUnits(0.07 * 100, 2, 1, 0)).toBe(7);
    expect(orderChoices(0.7 + 0.1, [0, 1], [2, 1], 0, 0.8)[0]?.quantity).toBe(0.8);
    expect(orderChoices(0.7 + 0.1, [0, 1], [2, 1], 0, 0.8)[0]?.order).toBe("need");
    // 2.5 and 2.5 steps of a twentieth: the first of equals gets the step that is left.
    expect(practicalShares([0.725 - 0.6, 0.125, 0.75], 0.05)).toEqual([0.15, 0.1, 0.75]);
    expect(dyeLots(6.6, 3.3, 1.1 * 3).lots).toBe(2);
    // 9 % of 30 g is 2.7 g, without a rest to round up.
    expect(tolerableShortfall(0.1 * 3 * 100, "nominal").toNumber()).toBe(2.7);
    expect(packCheck([33.3 * 3], 99.9, [0]).verdict).toBe("passes");
  });
});
