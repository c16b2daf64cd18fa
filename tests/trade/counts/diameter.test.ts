import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { texOf } from "../../../src/trade/counts/counts";
import { diameter, WORSTED_SPECIFIC_VOLUME, wraps } from "../../../src/trade/counts/diameter";
import { expectClose } from "../../support/closeness";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);

const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });

function named(word: string): CountSystem {
  return COUNT_SYSTEMS.find((system) => system.word === word) as CountSystem;
}

describe("diameter", () => {
  test("is Ashenhurst's rule for worsted by default: 0.9 of the root of the yards in a pound", () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 1e5, noNaN: true }), (yards) => {
        expectClose(wraps(yards, named("yd/lb"), WORSTED_SPECIFIC_VOLUME), 0.9 * Math.sqrt(yards));
      }),
    );
  });

  test("holds the volume of the yarn: a kilometre of it is a cylinder", () => {
    fc.assert(
      fc.property(anyCount, anySystem, fc.double({ min: 0.5, max: 10, noNaN: true }), (count, system, volume) => {
        const radiusInCm = diameter(count, system, volume) / 20;
        expectClose(Math.PI * radiusInCm ** 2 * 100_000, texOf(count, system) * volume);
      }),
    );
  });

  test("fills an inch with its wraps", () => {
    fc.assert(
      fc.property(anyCount, anySystem, (count, system) => {
        expectClose(wraps(count, system, 1.4) * diameter(count, system, 1.4), 25.4);
      }),
    );
  });

  test("comes to the specific volume that the rule is quoted with, 1.26108 cm³/g", () => {
    expect(Math.abs(WORSTED_SPECIFIC_VOLUME - 1.26108)).toBeLessThan(5e-6);
  });
});
