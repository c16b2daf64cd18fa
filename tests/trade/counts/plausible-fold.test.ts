import { expect, test } from "vitest";
import { canBePlies, canBeResultant, MOST_PLIES } from "../../../src/trade/counts/plausible-fold";

test("plies are whole, 1 to 12", () => {
  expect([0, 1, 2.5, 12, 13, -2, NaN].map(canBePlies)).toEqual([false, true, false, true, false, false, false]);
  expect(MOST_PLIES).toBe(12);
});

test("a resultant is 0.9 to 1.25 times plies × single: a few percent of take-up, or a hard cable", () => {
  // R 72 tex of 2 × 34 tex is 1.059 of them; R 34 tex beside two of 34 is the single written twice.
  expect(canBeResultant(72, 34, 2)).toBe(true);
  expect([34, 61.19, 61.2, 85, 85.01].map((resultant) => canBeResultant(resultant, 34, 2))).toEqual([
    false,
    false,
    true,
    true,
    false,
  ]);
});
