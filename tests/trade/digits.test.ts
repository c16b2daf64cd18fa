import { Decimal as Reference } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Digits, ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP } from "../../src/trade/digits";

/** Another package for the same, which is no part of the library: decimal.js 10.6 with forty digits. */
const Forty = Reference.clone({ defaults: true, precision: 40 });

const MODES = [
  [ROUND_DOWN, Reference.ROUND_DOWN],
  [ROUND_HALF_UP, Reference.ROUND_HALF_UP],
  [ROUND_HALF_EVEN, Reference.ROUND_HALF_EVEN],
  [ROUND_UP, Reference.ROUND_UP],
] as const;

/** Up to forty digits, many of them nines, zeros and fives, where rounding has the most to do. */
const written = fc
  .tuple(
    fc.boolean(),
    fc.array(fc.constantFrom("0", "0", "9", "9", "5", "4", "1", "7"), { minLength: 1, maxLength: 40 }),
    fc.integer({ min: -330, max: 260 }),
  )
  .map(([negative, digits, exponent]) => `${negative ? "-" : ""}${digits.join("")}e${exponent}`);

const options = { numRuns: 5000 };

describe("forty digits are decimal.js's, digit for digit", () => {
  test("after a sum, a difference, a product and a quotient", () => {
    fc.assert(
      fc.property(written, written, (a, b) => {
        const [one, other] = [Digits.of(a), Digits.of(b)];
        const [first, second] = [new Forty(a), new Forty(b)];
        expect(one.plus(other).toFixed()).toBe(first.plus(second).plus(0).toFixed());
        expect(one.minus(other).toFixed()).toBe(first.minus(second).plus(0).toFixed());
        expect(one.times(other).toFixed()).toBe(first.times(second).plus(0).toFixed());
        if (!second.isZero()) expect(one.over(other).toFixed()).toBe(first.div(second).plus(0).toFixed());
        expect(one.cmp(other)).toBe(first.cmp(second));
      }),
      options,
    );
  }, 600000);

  test("after rounding to decimals, to tens and hundreds, to digits and to whole numbers", () => {
    fc.assert(
      fc.property(written, fc.integer({ min: -6, max: 30 }), fc.integer({ min: 1, max: 40 }), (a, decimals, digits) => {
        const [one, first] = [Digits.of(a), new Forty(a)];
        for (const [mode, theirs] of MODES) {
          const rounded =
            decimals < 0
              ? first.toNearest(new Forty(10).pow(-decimals), theirs)
              : first.toDecimalPlaces(decimals, theirs);
          expect(one.toDecimalPlaces(decimals, mode).cmp(Digits.of(rounded.toFixed()))).toBe(0);
        }
        expect(one.toSignificantDigits(digits).cmp(Digits.of(first.toSignificantDigits(digits).toFixed()))).toBe(0);
        expect(one.floor().cmp(Digits.of(first.floor().toFixed()))).toBe(0);
        expect(one.ceil().cmp(Digits.of(first.ceil().toFixed()))).toBe(0);
      }),
      options,
    );
  }, 600000);

  test("as a double, and as text", () => {
    fc.assert(
      fc.property(written, (a) => {
        const [one, first] = [Digits.of(a), new Forty(a)];
        expect(one.toNumber() + 0).toBe(first.toNumber() + 0);
        expect([one.isZero(), one.isNegative()]).toEqual([first.isZero(), first.lt(0)]);
        if (!first.isZero()) expect(one.toString()).toBe(first.toString());
      }),
      options,
    );
  }, 600000);
});

test("what no decimal can be is refused in words for a cell", () => {
  const beyond = "the result is beyond what a cell can hold; check the size of the arguments";
  for (const value of [Infinity, -Infinity, NaN, "Infinity"]) expect(() => Digits.of(value)).toThrow(beyond);
  expect(() => Digits.of(1).over(Digits.of(0))).toThrow(beyond);
});
