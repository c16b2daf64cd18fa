import fc from "fast-check";
import { describe, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { gramsOf, metresOf } from "../../../src/trade/counts/length-and-mass";
import { skeinCount } from "../../../src/trade/counts/skein-count";
import { expectClose } from "../../support/closeness";

const anySystem = fc.constantFrom(...COUNT_SYSTEMS);

const anyCount = fc.double({ min: 0.01, max: 1e4, noNaN: true });

const anyAmount = fc.double({ min: 0.01, max: 1e6, noNaN: true });

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
