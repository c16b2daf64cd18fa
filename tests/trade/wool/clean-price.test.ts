import fc from "fast-check";
import { expect, test } from "vitest";
import { cleanPrice, greasyPrice } from "../../../src/trade/wool/clean-price";

// Source: PRESS-1988.
test("472 greasy at a yield of 80 % is 590 clean", () => {
  expect(cleanPrice(472, 0.8)).toBe(590);
  expect(greasyPrice(590, 0.8)).toBe(472);
});

test("clean and greasy price undo each other", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 99999 }), fc.integer({ min: 30, max: 95 }), (cents, percent) => {
      expect(greasyPrice(cleanPrice(cents / 100, percent / 100), percent / 100)).toBeCloseTo(cents / 100, 12);
    }),
  );
});
