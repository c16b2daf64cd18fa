import fc from "fast-check";
import { expect, test } from "vitest";
import { wholeDown, wholeUp } from "../../src/trade/whole";
import { Fraction } from "../support/fractions";
import { decimals } from "../support/money-arbitraries";

test("are the whole numbers of exact fractions, for figures as people type them", () => {
  fc.assert(
    fc.property(decimals(0, 9999, 3), decimals(0.01, 99, 2), (quantity, of) => {
      const exact = Fraction.from(quantity).over(Fraction.from(of));
      const down = Number(exact.floor());
      const isWhole = exact.minus(Fraction.of(exact.floor())).numerator === 0n;
      expect(wholeDown(quantity, of).toNumber()).toBe(down);
      expect(wholeUp(quantity, of).toNumber()).toBe(isWhole ? down : down + 1);
    }),
  );
});

test("what binary arithmetic leaves beside a decimal counts for nothing", () => {
  expect(wholeUp(110 * 3 * 1.0000000000000002, 110).toNumber()).toBe(3);
  expect(wholeDown(4.35 * 100, 1).toNumber()).toBe(435);
});
