import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wholeRecipe } from "../../src/trade/whole-recipe";
import { refusalOf } from "../support/refusals";

describe("the shares of a whole blend", () => {
  test("that sum to 1 stay as they are written", () => {
    for (const shares of [[1], new Array<number>(10).fill(0.1), [0.1, 0.2, 0.7], [0.62, 0.25, 0.1, 0.03]])
      expect(wholeRecipe("recipe", shares)).toEqual(shares);
  });

  test("thirds to seven decimals are made whole, in the same proportions", () => {
    const thirds = wholeRecipe("recipe", [0.3333333, 0.3333333, 0.3333333]);
    for (const share of thirds) expect(share).toBeCloseTo(1 / 3, 15);
  });

  test("a millionth itself is still mended", () => {
    for (const share of [0.999999, 1.000001]) expect(wholeRecipe("recipe", [share])).toEqual([1]);
  });

  test("within a millionth of 1 they are scaled, beyond they are refused", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 8 }),
        fc.integer({ min: -30, max: 30 }),
        (parts, tenths) => {
          fc.pre(Math.abs(Math.abs(tenths) - 10) > 0);
          const total = parts.reduce((sum, part) => sum + part, 0);
          const off = tenths * 1e-7;
          const shares = parts.map((part) => (part / total) * (1 + off));
          if (Math.abs(tenths) > 10)
            expect(refusalOf(() => wholeRecipe("recipe", shares))).toMatch(
              /^#VALUE! recipe is .* in all; must sum to 1/,
            );
          else expect(wholeRecipe("recipe", shares).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        },
      ),
    );
  });
});
