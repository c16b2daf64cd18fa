import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apportion, largestRemainder } from "../../src/trade/largest-remainder";
import { Decimal, sum } from "../../src/trade/money";
import { refusalOf } from "../support/refusals";

/** The rule in its own words, on whole numbers without end. Source: the definition of largest remainder. */
function byRule(units: number, weights: readonly number[]): number[] {
  const written = weights.map((weight) => {
    const [digits, exponent] = weight.toExponential().split("e") as [string, string];
    const [whole, part = ""] = digits.split(".") as [string, string?];
    return { mantissa: BigInt(whole + part), exponent: Number(exponent) - part.length };
  });
  const least = Math.min(...written.map(({ exponent }) => exponent));
  const signed = written.map(({ mantissa, exponent }) => mantissa * 10n ** BigInt(exponent - least));
  const sum = signed.reduce((total, weight) => total + weight);
  // Both signs turned change no share.
  const [total, scaled] = sum < 0n ? [-sum, signed.map((weight) => -weight)] : [sum, signed];
  const wanted = BigInt(Math.abs(units));
  const shares = scaled.map((weight, index) => {
    const rest = (((wanted * weight) % total) + total) % total;
    return { index, whole: (wanted * weight - rest) / total, rest };
  });
  const left = wanted - shares.reduce((given, { whole }) => given + whole, 0n);
  const order = [...shares].sort((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1));
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
  test("are those of the rule in whole numbers without end, in ties and near ties too", () => {
    let [shared, runs] = [0, 0];
    fc.assert(
      fc.property(units, fc.array(weight, { minLength: 1, maxLength: 12 }), (wanted, weights) => {
        fc.pre(!sum(weights).isZero());
        const parts = largestRemainder(new Decimal(wanted), weights).map((part) => Number(part) + 0);
        expect(parts).toEqual(byRule(wanted, weights));
        shared += parts.length;
        runs++;
      }),
      { numRuns: Number(process.env["RUNS"] ?? 20_000) },
    );
    expect(runs).toBeGreaterThan(10);
    expect(shared).toBeGreaterThan(4 * runs);
  }, 3_600_000);
});

describe("units left over", () => {
  test.each([
    [3, 7],
    [100, 55],
    [1000, 999],
    [5000, 1],
  ])("go to the first of %d equals, %d of them", (parts, units) => {
    const shares = largestRemainder(new Decimal(units), new Array<number>(parts).fill(1)).map(Number);
    const [each, more] = [Math.floor(units / parts), units % parts];
    expect(shares).toEqual(shares.map((_, index) => each + (index < more ? 1 : 0)));
  });

  test("go to the larger remainders first, wherever they stand", () => {
    // 10 units by 1 : 3 : 6 : 5 of 15: 0.67, 2, 4, 3.33: the one left is the first's.
    expect(largestRemainder(new Decimal(10), [1, 3, 6, 5]).map(Number)).toEqual([1, 2, 4, 3]);
    expect(largestRemainder(new Decimal(10), [5, 6, 3, 1]).map(Number)).toEqual([3, 4, 2, 1]);
    expect(largestRemainder(new Decimal(-10), [5, 6, 3, 1]).map(Number)).toEqual([-3, -4, -2, -1]);
  });
});

describe("an amount that cannot be shared out", () => {
  test("has weights of nothing: it is named", () => {
    expect(refusalOf(() => apportion(10, [1, -1]))).toBe("#DIV/0! weights is 0 in all; must not sum to 0");
    expect(refusalOf(() => largestRemainder(new Decimal(1), [0]))).toContain("weights is 0 in all");
    expect(refusalOf(() => apportion(10, [0], 2, "masses"))).toContain("masses is 0 in all");
  });

  test("has more minor units than a cell shows, fifteen digits", () => {
    const most = 999_999_999_999_999;
    expect(apportion(most, [1], 0).map(Number)).toEqual([most]);
    for (const amount of [most + 1, -most - 1]) {
      expect(refusalOf(() => apportion(amount, [1], 0))).toBe(
        `#NUM! the amount is ${amount}; with 0 decimals it has more digits than can be kept`,
      );
    }
    expect(refusalOf(() => apportion(1e14, [1]))).toContain("with 2 decimals");
  });
});
