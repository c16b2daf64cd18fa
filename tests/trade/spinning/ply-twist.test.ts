import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { plyRatio, residualTwist } from "../../../src/trade/spinning/ply-twist";
import { between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("rules for the ply twist", () => {
  test("axial: a ring of touching strands, its width found from the chord between neighbours", () => {
    for (let plies = 2; plies <= 12; plies++) {
      // Strands of diameter 1 on a circle of radius r touch when the chord 2·r·sin(π/n) is 1; find r by bisection.
      let [low, high] = [0.4, 10];
      for (let step = 0; step < 100; step++) {
        const middle = (low + high) / 2;
        const chord = Math.hypot(
          middle * (1 - Math.cos((2 * Math.PI) / plies)),
          middle * Math.sin((2 * Math.PI) / plies),
        );
        if (chord < 1) low = middle;
        else high = middle;
      }
      expectClose(plyRatio("axial", plies), 1 / (2 * low + 1), 1e-12);
    }
  });

  test("a factor of one's own is taken as it stands", () => {
    expect([plyRatio(0.55, 2), plyRatio(0.55, 5)]).toEqual([0.55, 0.55]);
  });

  test("two-thirds and n/(n+1) are the same for two strands only", () => {
    expect(plyRatio("n/(n+1)", 2)).toBe(plyRatio("two-thirds", 2));
    for (let plies = 3; plies <= 8; plies++)
      expect(plyRatio("n/(n+1)", plies)).toBeGreaterThan(plyRatio("two-thirds", plies));
  });

  test("what is left of the singles twist and what the ply took make up the whole", () => {
    fc.assert(
      fc.property(between(1, 2000), between(0, 2000), (single, ply) => {
        expect(residualTwist(single, ply, "opposite") + residualTwist(single, ply, "same")).toBeCloseTo(2 * single, 9);
      }),
    );
  });
});
