import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { Digits } from "../../src/trade/digits";
import { Decimal, decimal, plainSum, quotient, roundHalfAway, sum } from "../../src/trade/money";
import { Fraction } from "../support/fractions";

describe("rounding", () => {
  test("is half away from zero on the decimal as written, to decimals, units and tens", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: -4, max: 6 }),
        (units, places, decimals) => {
          const value = Number(`${units}e-${places}`);
          expect(Fraction.from(roundHalfAway(value, decimals).toNumber()).equals(Fraction.from(value).rounded(decimals)))
            .toBe(true); // prettier-ignore
        },
      ),
    );
  });

  test("gives what the sheet's own ROUND gives", () => {
    const rounded = (value: number, decimals: number): number => roundHalfAway(value, decimals).toNumber();
    expect([rounded(1.005, 2), rounded(2.675, 2), rounded(-2.5, 0), rounded(25, -1), rounded(-250, -2)]).toEqual([
      1.01, 2.68, -3, 30, -300,
    ]);
  });
});

describe("sums", () => {
  test("are decimal", () => {
    expect(sum([0.1, 0.2]).toNumber()).toBe(0.3);
    expect(sum([]).toNumber()).toBe(0);
  });

  test("are exact whether their figures are short or long, in cells or in decimals", () => {
    const short = fc.tuple(fc.integer({ min: -1e15 + 1, max: 1e15 - 1 }), fc.integer({ min: 0, max: 12 }));
    const figure = fc.oneof(
      short.map(([units, places]) => Number(`${units}e-${places}`)),
      fc.integer({ min: -999999, max: 999999 }).map((cents) => cents / 100),
      fc.double({ noNaN: true, min: -1e9, max: 1e9 }).filter((value) => value === 0 || Math.abs(value) > 1e-9),
    );
    const given = fc.array(fc.tuple(figure, fc.boolean()), { maxLength: 12 });
    fc.assert(
      fc.property(given, (figures) => {
        const wanted = figures.reduce((total, [value]) => total.plus(Fraction.from(value)), Fraction.from(0));
        const got = sum(figures.map(([value, inDecimal]) => (inDecimal ? new Decimal(value) : value)));
        const [whole, places = ""] = got.toFixed().split(".") as [string, string?];
        expect(Fraction.of(BigInt(whole + places), 10n ** BigInt(places.length)).equals(wanted)).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });
});

describe("a quotient", () => {
  const short = fc
    .tuple(fc.integer({ min: -1e12, max: 1e12 }), fc.integer({ min: 0, max: 11 }))
    .map(([units, places]) => Number(`${units}e-${places}`));
  const long = fc.double({ noNaN: true, min: -1e9, max: 1e9 }).filter((value) => value === 0 || Math.abs(value) > 1e-9);
  const figure = fc.oneof(short, short, long);

  test("is the double nearest to that of the decimals as written, short or long, in cells or in decimals", () => {
    fc.assert(
      fc.property(figure, figure, fc.boolean(), (dividend, divisor, inDecimal) => {
        fc.pre(divisor !== 0);
        const wanted = Fraction.from(dividend).over(Fraction.from(divisor)).toNumber();
        expect(quotient(inDecimal ? decimal(dividend) : dividend, divisor) + 0).toBe(wanted + 0);
      }),
      { numRuns: 3000 },
    );
  });
});

test("a sum is a plain number where one holds it, and one of many long figures rests on no long row", () => {
  expect(plainSum([0.1, 0.2, 5])).toBe(5.3);
  expect(plainSum([])).toBe(0);
  const thirds = Array.from({ length: 600 }, (_, index) => new Decimal(index + 1).div(7));
  const digits = vi.spyOn(Digits, "of");
  const total = sum(thirds);
  const worked = digits.mock.calls.length;
  digits.mockRestore();
  expect(worked).toBe(0);
  // 1 to 600 are 180,300.
  expect(total.toNumber()).toBe(180_300 / 7);
});
