import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solidsNeeded } from "../../../src/trade/blending/solids-needed";
import { refusalOf } from "../../support/refusals";

describe("solids needed", () => {
  test("by hand: 60:40 for 100 kg and 10:90 for 50 kg are 65 and 85 kg, over 0.9 × 0.8 after two losses", () => {
    const needed = solidsNeeded([[0.6, 0.4], [0.1, 0.9]], [100, 50], [0.1, 0.2]); // prettier-ignore
    expect(needed[0]).toBeCloseTo(65 / 0.72, 12);
    expect(needed[1]).toBeCloseTo(85 / 0.72, 12);
  });

  test("together are what all colourways weigh, over what the losses leave", () => {
    const recipe = fc
      .array(fc.integer({ min: 0, max: 100 }), { minLength: 3, maxLength: 3 })
      .filter((parts) => parts.some(Boolean));
    const colourway = fc.tuple(recipe, fc.integer({ min: 0, max: 500 }));
    const losses = fc.array(
      fc.integer({ min: 0, max: 30 }).map((percent) => percent / 100),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(fc.array(colourway, { minLength: 1, maxLength: 5 }), losses, (colourways, lost) => {
        const shares = colourways.map(([parts]) =>
          parts.map((part) => part / parts.reduce((sum, own) => sum + own, 0)),
        );
        const masses = colourways.map(([, mass]) => mass);
        const left = lost.reduce((sofar, loss) => sofar * (1 - loss), 1);
        const all = solidsNeeded(shares, masses, lost).reduce((sum, mass) => sum + mass, 0);
        expect(all * left).toBeCloseTo(
          masses.reduce((sum, mass) => sum + mass, 0),
          8,
        );
      }),
    );
  });

  test("want one quantity for each recipe", () => {
    expect(refusalOf(() => solidsNeeded([[1], [1]], [100], []))).toBe(
      "#VALUE! quantities is 1 item long; must have one per recipe, 2",
    );
  });
});
