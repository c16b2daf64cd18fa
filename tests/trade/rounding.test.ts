import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { practicalShares } from "../../src/trade/blending/practical-shares";
import { roundHalfAway } from "../../src/trade/money";
import { packCheck } from "../../src/trade/packs/pack-check";
import { skeinsOf } from "../../src/trade/packs/skeins";
import { tolerableShortfall } from "../../src/trade/packs/tolerable-shortfall";
import { breakEvenUnits } from "../../src/trade/prices/break-even";
import { orderChoices } from "../../src/trade/prices/order-size";
import { roundCash } from "../../src/trade/rounding";
import { dyeLots } from "../../src/trade/route/dye-lots";
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

const typedBetween = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

describe("rounding", () => {
  // The sheet's own ROUND rounds the decimal a person sees; half even as in IEEE 754.
  test.each([
    [1.005, 2, 1.01, 1],
    [2.675, 2, 2.68, 2.68],
    [-2.5, 0, -3, -2],
    [2.5, 0, 3, 2],
    [0.125, 2, 0.13, 0.12],
    [1250, -2, 1300, 1200],
    [-0.005, 2, -0.01, 0],
  ])("%d to %d decimals is %d, half even %d", (value, decimals, away, even) => {
    expect(roundCash(value, decimals, "half away").toNumber()).toBe(away);
    expect(Math.abs(roundCash(value, decimals, "half even").toNumber())).toBe(Math.abs(even));
  });

  test("half away agrees with exact fractions of the fifteen digits in the cell", () => {
    fc.assert(
      fc.property(
        fc.oneof(typedBetween(-100, 100, 3), fc.double({ min: -1e9, max: 1e9, noNaN: true })),
        fc.integer({ min: -3, max: 6 }),
        (value, decimals) => {
          const wanted = Fraction.from(Number(value.toPrecision(15)))
            .rounded(decimals)
            .toNumber();
          expect(roundCash(value, decimals, "half away").toNumber() + 0).toBe(wanted + 0);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("down, the two halves and up never pass one another", () => {
    fc.assert(
      fc.property(typedBetween(-100, 100, 4), fc.integer({ min: 0, max: 3 }), (value, decimals) => {
        const [down, even, away, up] = (["down", "half even", "half away", "up"] as const).map((mode) =>
          roundCash(value, decimals, mode).abs().toNumber(),
        ) as [number, number, number, number];
        expect(down).toBeLessThanOrEqual(even);
        expect(even).toBeLessThanOrEqual(away);
        expect(away).toBeLessThanOrEqual(up);
        expect(Number(((up - down) * 10 ** decimals).toFixed(6)) <= 1).toBe(true);
      }),
    );
  });
});
