import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { apportion, largestRemainder, Weights } from "../../src/trade/largest-remainder";
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
      { numRuns: 20_000 },
    );
    expect(runs).toBeGreaterThan(10);
    expect(shared).toBeGreaterThan(4 * runs);
  }, 3_600_000);
});

describe("each of the two ways by itself", () => {
  /** A second weight every so often makes remainders of many decimals, the same weight throughout ties. */
  const drawn = fc.sample(
    fc.record({
      wanted: fc.oneof(fc.integer({ min: 0, max: 1000 }), fc.integer({ min: 0, max: 999999999999999 })),
      weights: fc.array(weight, { minLength: 1, maxLength: 12 }),
    }),
    { numRuns: 400, seed: 1792 },
  );
  const possible = drawn.filter(({ weights }) => !sum(weights).isZero());

  test("in decimals throughout: as the rule says", () => {
    for (const { wanted, weights } of possible) {
      const parts = new Weights(weights).inDecimals(new Decimal(wanted));
      expect(parts.map((part) => part.toNumber() + 0)).toEqual(byRule(wanted, weights));
    }
  });

  test("in doubles: as the rule says, without a sign on nothing", () => {
    let answered = 0;
    for (const { wanted, weights } of possible) {
      const parts = new Weights(weights).inNumbers(new Decimal(wanted));
      if (parts === undefined) continue;
      expect(parts).toEqual(byRule(wanted, weights));
      answered++;
    }
    expect(answered).toBeGreaterThan(300);
  });

  test("in doubles as long as whole numbers can be added up, and beyond in decimals, just as exact", () => {
    const most = 2 ** 52;
    for (const wanted of [most - 2, most]) {
      expect(new Weights([1, 1]).inNumbers(new Decimal(wanted))).toEqual([wanted / 2, wanted / 2]);
    }
    expect(new Weights([1, 1]).inNumbers(new Decimal(most + 2))).toBeUndefined();
    // 3·10^14 by 3 : -2 are nine and minus six of them, 1.5·10^15 in size; by ten million and one less than it, too much.
    expect(new Weights([3, -2]).inNumbers(new Decimal(3e14))).toEqual([9e14, -6e14]);
    expect(new Weights([10_000_000, -9_999_999]).inNumbers(new Decimal(3e14))).toBeUndefined();
    const [more, less] = largestRemainder(new Decimal(3e14), [10_000_000, -9_999_999]);
    expect([String(more), String(less)]).toEqual(["3e+21", "-2.9999997e+21"]);
    const [back, forth] = largestRemainder(new Decimal(-3e14), [10_000_000, -9_999_999]);
    expect([String(back), String(forth)]).toEqual(["-3e+21", "2.9999997e+21"]);
  });

  test("weights from where doubles end are shared by in decimals", () => {
    for (const [weights, parts] of [
      [
        [7e292, 1.7976931348623151e308],
        [0, 3],
      ],
      [
        [1.7e308, 1.7e308, 1.7e308],
        [1, 1, 1],
      ],
      [
        [5e-324, 1e-323],
        [1, 2],
      ],
    ] as const) {
      expect(new Weights(weights).inNumbers(new Decimal(3))).toBeUndefined();
      expect(largestRemainder(new Decimal(3), weights).map(Number)).toEqual(parts);
    }
    // Beside others they are nothing.
    expect(new Weights([5e-324, 1]).inNumbers(new Decimal(3))).toEqual([0, 3]);
  });

  test("doubles decide nearly all: decimals are asked for remainders that tie or nearly do, once for each weight", () => {
    const asked = (wanted: number, weights: readonly number[]): number => {
      const ready = new Weights(weights);
      const units = new Decimal(wanted);
      const times = vi.spyOn(Decimal.prototype, "times");
      ready.inNumbers(units);
      const count = times.mock.calls.length;
      times.mockRestore();
      return count;
    };
    // Whole shares leave nothing over; 1 to 400 of 80,200 leave remainders 12 millionths apart or more.
    expect(asked(300, [1, 2, 3, 4])).toBe(0);
    expect(
      asked(
        80_201,
        Array.from({ length: 400 }, (_, index) => index + 1),
      ),
    ).toBe(0);
    const calls = asked(1, [1, 1, 1]);
    expect(calls).toBeGreaterThan(0);
    expect(asked(100, new Array<number>(999).fill(1))).toBe(calls);
    // Weights of 1 and 3 tie at a half of them all.
    expect(asked(1001, [...new Array<number>(400).fill(1), ...new Array<number>(400).fill(3)])).toBeLessThan(3 * calls);
  });
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

describe("an amount shared out", () => {
  test("to cents, to thousandths, to hundreds: the parts foot, the first of equals takes the odd unit", () => {
    expect(apportion(100, [1, 1, 1])).toEqual([33.34, 33.33, 33.33]);
    expect(apportion(-100, [1, 1, 1], 3)).toEqual([-33.334, -33.333, -33.333]);
    expect(apportion(1000, [1, 1, 1], 0)).toEqual([334, 333, 333]);
    expect(apportion(1000, [1, 1, 1], -2)).toEqual([400, 300, 300]);
    expect(apportion(new Decimal("0.02"), [2, 1, 1])).toEqual([0.01, 0.01, 0]);
  });

  test("weights are taken as their cells show them, also where a decimal holds more digits", () => {
    // 0.1 + 0.2 shows as 0.3: three ties with it, of which the first takes the unit.
    for (const third of [0.3, 0.1 + 0.2, new Decimal("0.30000000000000000001")]) {
      expect(apportion(0.01, [0.3, third])).toEqual([0.01, 0]);
      expect(apportion(0.01, [third, 0.3])).toEqual([0.01, 0]);
    }
  });

  test("parts of opposite signs may have more digits than a cell shows: those are decimals", () => {
    for (const [amount, weights, parts] of [
      [3e14 - 1, [3, -2], ["899999999999997", "-599999999999998"]],
      [4e14 + 1, [3, -2], ["1200000000000003", "-800000000000002"]],
      [5e14, [3, -2], ["1500000000000000", "-1000000000000000"]],
      [5e14 - 1, [10_000_000, -9_999_999], ["4999999999999990000000", "-4999999499999990000001"]],
    ] as const) {
      const found = apportion(amount, weights, 0);
      expect(found.map((part) => (typeof part === "number" ? String(part) : String(part.toFixed())))).toEqual(parts);
      found.forEach((part) => expect(typeof part === "number").toBe(Math.abs(Number(part)) < 1e15));
    }
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
