import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { machineHours, spindleRate, spindlesFor } from "../../../src/trade/spinning/spinning-production";
import { spindleSpeedFor } from "../../../src/trade/spinning/spindle-twist";
import { between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("production", () => {
  test("is what the roll delivers, whatever the twist", () => {
    fc.assert(
      fc.property(
        between(1, 60),
        between(50, 1500),
        between(5, 1000),
        between(0.3, 1),
        (delivery, turns, tex, efficiency) => {
          const rate = spindleRate(spindleSpeedFor(turns, delivery), turns, tex, efficiency);
          expectClose(rate, delivery * 60 * (tex / 1000) * efficiency, 1e-13);
        },
      ),
    );
  });

  test("the spindles make the mass in time, and one fewer would not", () => {
    fc.assert(
      fc.property(between(0.1, 5000), between(1, 500), between(1, 500), (mass, hours, rate) => {
        const spindles = spindlesFor(mass, hours, rate);
        expect(machineHours(mass, spindles, rate)).toBeLessThanOrEqual(hours * (1 + 1e-11));
        if (spindles > 1) expect(machineHours(mass, spindles - 1, rate)).toBeGreaterThan(hours * (1 - 1e-11));
      }),
    );
  });

  test("a whole number of spindles stays that number, though the rate is no exact double", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), between(1, 500), between(1, 500), (spindles, hours, rate) => {
        expect(spindlesFor((spindles * hours * rate) / 1000, hours, rate)).toBe(spindles);
      }),
    );
  });
});
