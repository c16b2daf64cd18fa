import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apportion, largestRemainder, roundHalfAway, sum, Decimal } from "../../src/trade/money";
import { Fraction } from "../support/fractions";
import { refusalOf } from "../support/refusals";

describe("units left over", () => {
  test.each([
    [3, 7],
    [100, 55],
    [1000, 999],
    [5000, 1],
  ])("go to the first of %d equals, %d of them", (parts, units) => {
    const shares = largestRemainder(new Decimal(units), new Array<number>(parts).fill(1)).map(Number);
    const [each, more] = [Math.floor(units / parts), units % parts];
    expect(shares).toEqual(shares.map((_, index) => each + (index < more ? 1 : 0)));
  });

  test("go to the larger remainders first, wherever they stand", () => {
    // 10 units by 1 : 3 : 6 : 5 of 15: 0.67, 2, 4, 3.33: the one left is the first's.
    expect(largestRemainder(new Decimal(10), [1, 3, 6, 5]).map(Number)).toEqual([1, 2, 4, 3]);
    expect(largestRemainder(new Decimal(10), [5, 6, 3, 1]).map(Number)).toEqual([3, 4, 2, 1]);
    expect(largestRemainder(new Decimal(-10), [5, 6, 3, 1]).map(Number)).toEqual([-3, -4, -2, -1]);
  });
});

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

test("sums are decimal", () => {
  expect(sum([0.1, 0.2]).toNumber()).toBe(0.3);
  expect(sum([]).toNumber()).toBe(0);
});

describe("an amount that cannot be shared out", () => {
  test("has weights of nothing: it is named", () => {
    expect(refusalOf(() => apportion(10, [1, -1]))).toBe("#DIV/0! weights is 0 in all; must not sum to 0");
    expect(refusalOf(() => largestRemainder(new Decimal(1), [0]))).toContain("weights is 0 in all");
    expect(refusalOf(() => apportion(10, [0], 2, "masses"))).toContain("masses is 0 in all");
  });

  test("has more minor units than a cell shows, fifteen digits", () => {
    const most = 999_999_999_999_999;
    expect(apportion(most, [1], 0).map(Number)).toEqual([most]);
    for (const amount of [most + 1, -most - 1]) {
      expect(refusalOf(() => apportion(amount, [1], 0))).toBe(
        `#NUM! the amount is ${amount}; with 0 decimals it has more digits than can be kept`,
      );
    }
    expect(refusalOf(() => apportion(1e14, [1]))).toContain("with 2 decimals");
  });
});
