import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  expectRingSpindle,
  spindleLimit,
  travellerLag,
  travellerSpeed,
} from "../../../src/trade/spinning/traveller-speed";
import { refusalOf } from "../../support/refusals";

describe("the traveller", () => {
  test("by hand: on a ring of 60 mm at 10,000 rpm it runs at 10π m/s", () => {
    expect(travellerSpeed(0.06, 10000)).toBeCloseTo(10 * Math.PI, 12);
  });

  test("runs at its limit at the spindle's limit", () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 400 }), fc.integer({ min: 1, max: 45 }), (mm, speed) => {
        const spindle = spindleLimit(mm / 1000, speed);
        const isTurned = spindle <= 27000;
        if (isTurned) expect(travellerSpeed(mm / 1000, spindle)).toBeCloseTo(speed, 10);
        else expect(() => travellerSpeed(mm / 1000, spindle)).toThrow("at most 27000 rpm, as ring spindles turn");
      }),
    );
  });

  test("falls behind once round the package for every circumference delivered", () => {
    expect(travellerLag(Math.PI * 10, 0.05)).toBeCloseTo(200, 10);
    expect(refusalOf(() => travellerLag(45, 0.015))).toBe(
      "#VALUE! delivery is 45 m/min on 15 mm; a lag of 954.9 rpm, above 800; swapped with the diameter?",
    );
  });

  test("rings and spindles that there are", () => {
    expect(refusalOf(() => travellerSpeed(0.5, 10000))).toBe(
      "#VALUE! ring_diameter is 500 mm; must be 20 to 400 mm; check its unit",
    );
    expect(expectRingSpindle(12000, 35, 0.055)).toBe(12000);
    expect(refusalOf(() => expectRingSpindle(60000, 35, 0.055))).toBe(
      "#VALUE! speed is 35 m/s on 55 mm; a spindle at 60000 rpm; swapped with the ring, or m/min?",
    );
  });
});
