import fc from "fast-check";
import { expect, test } from "vitest";
import { Decimal } from "../../src/trade/money";
import { proportion } from "../../src/trade/proportion";
import { decimals } from "../support/money-arbitraries";

test("a part and the rest of it are the amount, to the last digit", () => {
  fc.assert(
    fc.property(decimals(0.01, 99999, 2), decimals(0.001, 999, 3), decimals(0, 999, 3), (given, part, rest) => {
      const amount = new Decimal(given);
      const whole = new Decimal(part).plus(rest);
      const own = proportion(amount, new Decimal(part), whole);
      expect(own.plus(amount.minus(own)).cmp(amount)).toBe(0);
      expect(Math.abs(own.toNumber() - (given * part) / (part + rest))).toBeLessThanOrEqual(1e-12 * given);
    }),
  );
});

test("is kept to 22 decimals: a third of 1", () => {
  const third = proportion(new Decimal(1), new Decimal(1), new Decimal(3));
  expect(third.toFixed()).toBe(`0.${"3".repeat(22)}`);
});
