import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { massAtStandardRegain } from "../../../src/trade/counts/skein-count";
import { expectClose } from "../../support/closeness";

const anyAmount = fc.double({ min: 0.01, max: 1e6, noNaN: true });

const anyRegain = fc.double({ min: 0, max: 1, noNaN: true });

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
