import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { expectReel, reelTurns } from "../../../src/trade/packs/reel";
import { refusalOf } from "../../support/refusals";

describe("turns of a reel", () => {
  test("120 yd on a reel of 54 in are 80 turns, not a trace more; 560 yd on one of 1.5 yd are 1120/3", () => {
    expect(reelTurns(120, 0.9144, 54, 0.0254)).toBe(80);
    expect(reelTurns(560, 0.9144, 1.5, 0.9144)).toBeCloseTo(1120 / 3, 12);
  });

  test("wind the length again", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), fc.integer({ min: 5, max: 1000 }), (metres, centimetres) => {
        expect((reelTurns(metres, 1, centimetres, 0.01) * centimetres) / 100).toBeCloseTo(metres, 8);
      }),
    );
  });

  test("reels are 0.05 to 10 m round", () => {
    for (const metres of [0.05, 1.37, 10]) expect(() => expectReel(metres)).not.toThrow();
    for (const metres of [0.0137, 137]) expect(refusalOf(() => expectReel(metres))).toContain("must be 0.05 to 10 m");
  });
});

test("a reel is from 5 cm to 10 m round", () => {
  for (const metres of [0.05, 10]) expect(() => expectReel(metres)).not.toThrow();
  for (const metres of [0.04, 11]) {
    expect(refusalOf(() => expectReel(metres))).toContain(`circumference is ${metres} m; must be 0.05 to 10 m`);
  }
});
