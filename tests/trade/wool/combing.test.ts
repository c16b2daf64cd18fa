import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { romaineOfTear, tearOfRomaine } from "../../../src/trade/wool/combing";
import { refusalOf } from "../../support/refusals";

describe("tear and romaine", () => {
  test("13.5 of top to 1 of noil is 1 in 14.5", () => {
    expect(romaineOfTear(13.5)).toBe(2 / 29);
  });

  test("undo each other", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10000 }), (count) => {
        expect(tearOfRomaine(romaineOfTear(count / 100))).toBeCloseTo(count / 100, 8);
      }),
    );
  });
});

test("no noil, no tear", () => {
  expect(refusalOf(() => tearOfRomaine(0))).toBe("#DIV/0! romaine is 0; without noil there is no tear");
});

test("a romaine of less than combs leave is a percent typed as a fraction of it", () => {
  expect(refusalOf(() => tearOfRomaine(0.0009))).toBe(
    "#VALUE! romaine is 0.0009; less noil than combs leave; write 9% or 0.09",
  );
});
