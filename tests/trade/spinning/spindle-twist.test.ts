import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deliveryFor, spindleSpeedFor, twistFromSpindle } from "../../../src/trade/spinning/spindle-twist";
import { revolutionsFor, surfaceSpeed } from "../../../src/trade/spinning/surface-speed";
import { between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("speeds and twist", () => {
  test("speed of a roll and its revolutions are inverse", () => {
    fc.assert(
      fc.property(between(0.005, 0.3), between(1, 5000), (diameter, revolutions) => {
        expectClose(revolutionsFor(surfaceSpeed(diameter, revolutions), diameter), revolutions, 1e-14);
      }),
    );
  });

  test("spindle speed, delivery and twist close the triangle", () => {
    fc.assert(
      fc.property(between(500, 25000), between(1, 60), (spindle, delivery) => {
        const turns = twistFromSpindle(spindle, delivery);
        expectClose(spindleSpeedFor(turns, delivery), spindle, 1e-14);
        expectClose(deliveryFor(spindle, turns), delivery, 1e-14);
      }),
    );
  });

  test("what the traveller lags is exactly what over-end unwinding adds: a turn for every circumference", () => {
    fc.assert(
      fc.property(between(500, 25000), between(1, 60), between(0.015, 0.08), (spindle, delivery, wind) => {
        const onTheBobbin = twistFromSpindle(spindle - revolutionsFor(delivery, wind), delivery);
        const addedByUnwinding = 1 / (Math.PI * wind);
        expectClose(onTheBobbin + addedByUnwinding, twistFromSpindle(spindle, delivery), 1e-12);
      }),
    );
  });

  test("a roll counted by hand: turns of the spindle to one of the roll, over its circumference", () => {
    expect(twistFromSpindle(86, surfaceSpeed(0.0254, 1)) * 0.0254).toBeCloseTo(86 / Math.PI, 10);
  });
});
