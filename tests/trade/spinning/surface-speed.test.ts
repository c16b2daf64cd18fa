import fc from "fast-check";
import { expect, test } from "vitest";
import { revolutionsFor, surfaceSpeed } from "../../../src/trade/spinning/surface-speed";

test("by hand: a roll of 25 mm at 200 turns a minute runs at 5π m/min", () => {
  expect(surfaceSpeed(0.025, 200)).toBeCloseTo(5 * Math.PI, 13);
});

test("revolutions for a speed give that speed", () => {
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 2000 }), fc.integer({ min: 1, max: 9999 }), (mm, speed) => {
      expect(surfaceSpeed(mm / 1000, revolutionsFor(speed, mm / 1000))).toBeCloseTo(speed, 9);
    }),
  );
});
