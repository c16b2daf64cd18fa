import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { texOf } from "../../../src/trade/counts/counts";
import { diameter, WORSTED_SPECIFIC_VOLUME, wraps } from "../../../src/trade/counts/diameter";
import { gramsOf, metresOf } from "../../../src/trade/counts/length-and-mass";
import { massAtStandardRegain, skeinCount } from "../../../src/trade/counts/skein-count";
import { expectClose } from "../../support/closeness";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);
const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });
const anyAmount = fc.double({ min: 0.01, max: 1e6, noNaN: true });
const anyRegain = fc.double({ min: 0, max: 1, noNaN: true });
const none = { now: undefined, standard: undefined };

function named(word: string): CountSystem {
  return COUNT_SYSTEMS.find((system) => system.word === word) as CountSystem;
}

describe("length and mass", () => {
  test("return to each other", () => {
    fc.assert(
      fc.property(anyAmount, anyCount, anySystem, (grams, count, system) => {
        expectClose(gramsOf(metresOf(grams, count, system), count, system), grams);
      }),
    );
  });

  test("of a skein give its count", () => {
    fc.assert(
      fc.property(anyAmount, anyCount, anySystem, (metres, count, system) => {
        expectClose(skeinCount(metres, gramsOf(metres, count, system), system, none), count);
      }),
    );
  });

  test("of the unit of a system are its count: n hanks of 560 yd in 1 lb are n worsted", () => {
    fc.assert(
      fc.property(anyCount, (count) => {
        expectClose(metresOf(453.59237, count, named("NeW")), count * 560 * 0.9144);
        expectClose(gramsOf(9000, count, named("den")), count);
      }),
    );
  });
});

describe("a skein at standard regain", () => {
  test("has the same dry mass", () => {
    fc.assert(
      fc.property(anyAmount, anyRegain, anyRegain, (grams, now, standard) => {
        const corrected = massAtStandardRegain(grams, { now, standard });
        expectClose(corrected / (1 + standard), grams / (1 + now));
      }),
    );
  });

  test("corrected there and back is as weighed", () => {
    fc.assert(
      fc.property(anyAmount, anyRegain, anyRegain, (grams, now, standard) => {
        const there = massAtStandardRegain(grams, { now, standard });
        expectClose(massAtStandardRegain(there, { now: standard, standard: now }), grams);
      }),
    );
  });

  test("is refused with one regain alone", () => {
    expect(() => massAtStandardRegain(1, { now: 0.1, standard: undefined })).toThrow(
      "regain_standard is left out; give both regains or neither",
    );
    expect(() => massAtStandardRegain(1, { now: undefined, standard: 0.1 })).toThrow(
      "regain_now is left out; give both regains or neither",
    );
  });
});

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
