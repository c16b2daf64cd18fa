import fc from "fast-check";
import { expect, test } from "vitest";
import { spinningFineness } from "../../../src/trade/spinning/spinning-fineness";

test("at a variation of 24 % it is the diameter, as far as the printed constant goes", () => {
  expect(Math.abs(spinningFineness(21, 0.24) / 21 - 1)).toBeLessThan(2e-4);
});

test("a wool that varies more spins like a coarser one", () => {
  const variation = fc.integer({ min: 10, max: 40 }).map((percent) => percent / 100);
  fc.assert(
    fc.property(variation, variation, (a, b) => {
      fc.pre(a < b);
      expect(spinningFineness(20, a)).toBeLessThan(spinningFineness(20, b));
    }),
  );
});
