import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { stageLoss } from "../../../src/trade/route/stage-loss";
import { refusalOf } from "../../support/refusals";

const mass = fc.integer({ min: 100, max: 9999 });
const regain = fc.integer({ min: 0, max: 30 }).map((percent) => percent / 100);

describe("the loss of a stage", () => {
  test("by hand: 118 kg at 18 % are 100 kg dry; 92 kg at 15 % are 80, and 11.5 kg of noil at 15 % are 10: 10 % is gone", () => {
    expect(stageLoss(118, 0.18, 92, 0.15, 11.5, undefined).toNumber()).toBe(0.1);
    expect(stageLoss(118, 0.18, 92, 0.15, 11.8, 0.18).toNumber()).toBe(0.1);
  });

  test("is on dry masses: moisture alone is no loss", () => {
    fc.assert(
      fc.property(mass, regain, regain, (dry, before, after) => {
        expect(
          Math.abs(stageLoss(dry * (1 + before), before, dry * (1 + after), after, 0, undefined).toNumber()),
        ).toBeLessThan(1e-12);
      }),
    );
  });

  test("a stage that takes up oil or dye gains, but not more than half", () => {
    expect(stageLoss(100, 0, 103, 0, 0, undefined).toNumber()).toBe(-0.03);
    expect(refusalOf(() => stageLoss(80, 0, 160, 0, 0, undefined))).toContain("swapped");
  });
});

test("a stage that delivers something loses no more than 95 %; one that delivers nothing may lose all", () => {
  expect(stageLoss(100, 0, 0, 0, 0, undefined).toNumber()).toBe(1);
  expect(stageLoss(100, 0, 5.1, 0, 0, undefined).toNumber()).toBeCloseTo(0.949, 12);
  expect(refusalOf(() => stageLoss(100, 0, 4, 0, 0, undefined))).toMatch(
    /mass_out is 4; a loss of 0.96 beside mass_in 100/,
  );
});
