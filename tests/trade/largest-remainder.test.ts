import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Decimal, largestRemainder } from "../../src/trade/money";
import { Fraction } from "../support/fractions";

/** The rule in its own words, on exact fractions. Source: the definition of largest remainder. */
function byFractions(units: number, weights: readonly number[]): number[] {
  const parts = weights.map((weight) => Fraction.from(weight));
  const total = parts.reduce((sum, part) => sum.plus(part));
  const shares = parts.map((part, index) => {
    const exact = Fraction.from(Math.abs(units)).times(part).over(total);
    const whole = exact.floor();
    return { index, whole, rest: exact.minus(Fraction.of(whole)) };
  });
  const left = BigInt(Math.abs(units)) - shares.reduce((sum, { whole }) => sum + whole, 0n);
  const order = [...shares].sort((a, b) => b.rest.compare(a.rest) || a.index - b.index);
  order.slice(0, Number(left)).forEach((share) => (share.whole += 1n));
  return shares.map(({ whole }) => Math.sign(units) * Number(whole) + 0);
}

const units = fc.oneof(
  fc.integer({ min: -1000, max: 1000 }),
  fc.integer({ min: -999999999999999, max: 999999999999999 }),
);
/** Few values so that remainders tie, many digits so that they nearly do. */
const weight = fc.oneof(
  fc.integer({ min: 0, max: 6 }),
  fc.integer({ min: -400, max: 4000 }).map((hundredths) => hundredths / 100),
  fc.integer({ min: 1, max: 999999999 }).map((digits) => Number(`${digits}e-9`)),
  fc.integer({ min: 0, max: 40 }).map((last) => Number(`1.000000000000${String(last).padStart(2, "0")}`)),
);

describe("units shared out by largest remainder", () => {
  test("are those of exact fractions, in ties and near ties too", () => {
    let shared = 0;
    fc.assert(
      fc.property(units, fc.array(weight, { minLength: 1, maxLength: 12 }), (wanted, weights) => {
        fc.pre(weights.reduce((sum, each) => sum.plus(each), new Decimal(0)).isZero() === false);
        const parts = largestRemainder(new Decimal(wanted), weights).map((part) => part.toNumber() + 0);
        expect(parts).toEqual(byFractions(wanted, weights));
        shared += parts.length;
      }),
      { numRuns: 20000 },
    );
    expect(shared).toBeGreaterThan(100000);
  }, 60000);
});
