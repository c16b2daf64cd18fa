import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TURNS_PER_CENTIMETRE, TURNS_PER_INCH, TURNS_PER_METRE } from "../../../src/tables/twist-units";
import { convertTwist, fromTurnsPerMetre, turnsPerMetre, twistRatio } from "../../../src/trade/spinning/twist-units";
import { anyTwistUnit, between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("units of twist", () => {
  test("are exact by the inch of 25.4 mm: a turn per inch is 5000/127 turns per metre", () => {
    expect(twistRatio(TURNS_PER_INCH, TURNS_PER_METRE)).toEqual({ numerator: 5000, denominator: 127 });
    expect(twistRatio(TURNS_PER_CENTIMETRE, TURNS_PER_INCH)).toEqual({ numerator: 127, denominator: 50 });
  });

  test("agree with exact fractions to the last bit but one", () => {
    const turnsInTenKilometres = { tpm: 10_000n * 127n, tpi: 10_000n * 5000n, tpcm: 10_000n * 12700n } as const;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), anyTwistUnit, anyTwistUnit, (value, from, to) => {
        const size = (word: string) => turnsInTenKilometres[word as keyof typeof turnsInTenKilometres];
        // Scaled so that the integer quotient keeps 25 digits more than a double.
        const scaled = (BigInt(value) * size(from.word) * 10n ** 25n) / size(to.word);
        expectClose(convertTwist(value, from, to), Number(scaled) / 1e25, 4e-16);
      }),
    );
  });

  test("of a metre and back: 10 turns a centimetre are 1000 a metre, 25.4 an inch", () => {
    expect(fromTurnsPerMetre(1000, TURNS_PER_CENTIMETRE)).toBe(10);
    expect(turnsPerMetre(10, TURNS_PER_CENTIMETRE)).toBe(1000);
    expectClose(fromTurnsPerMetre(1000, TURNS_PER_INCH), 25.4, 4e-16);
  });

  test("return to where they came from, negative twist too", () => {
    fc.assert(
      fc.property(
        fc.oneof(between(-5000, -0.001), between(0.001, 5000)),
        anyTwistUnit,
        anyTwistUnit,
        (value, from, to) => {
          expectClose(convertTwist(convertTwist(value, from, to), to, from), value, 1e-15);
        },
      ),
    );
  });
});
