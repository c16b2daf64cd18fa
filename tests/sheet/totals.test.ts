import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  refuseSlippedPoint,
  refuseTotal,
  refuseTotalInBoth,
  refuseTotalLoss,
  refuseTotalOfMeasurements,
  refuseTotalWithMean,
} from "../../src/sheet/totals";
import { refusalOf } from "../support/refusals";

const isTotal = (place: number) =>
  `#VALUE! mass is the sum of the items above; leave the total out, or list it first`.replace(
    "mass",
    `mass item ${place}`,
  );
const passes = (call: () => void) => expect(call).not.toThrow();

describe("a total at the foot of a list of amounts", () => {
  test("is refused after three amounts of two digits or more", () => {
    expect(refusalOf(() => refuseTotal("mass", [12, 34, 56, 102]))).toBe(isTotal(4));
    expect(refusalOf(() => refuseTotal("mass", [1.2, 0.34, 560, 561.54]))).toContain("mass item 4");
    expect(refusalOf(() => refuseTotal("mass", [-12, -34, -56, -102]))).toContain("mass item 4");
    // A trace of binary arithmetic is none of the person's.
    expect(refusalOf(() => refuseTotal("mass", [0.15, 0.12, 0.13, 0.15 + 0.12 + 0.13]))).toContain("mass item 4");
  });

  test("is not suspected where figures of one digit may add up by chance, nor after two, nor of nothing", () => {
    for (const values of [[1, 2, 3, 6], [10, 20, 30, 60], [1e6, 2e-3, 3, 1000003.002], [12, 34, 46], [12], []]) passes(() => refuseTotal("mass", values)); // prettier-ignore
    for (const values of [[12, 34, 56, 103], [12, 34, -46, 0], [12, 34, 56, -102]]) passes(() => refuseTotal("mass", values)); // prettier-ignore
    // Nearer than a thousandth of a millionth it is the sum, and further off it is none.
    passes(() => refuseTotal("mass", [12, 34, 56, 102 * (1 + 3e-9)]));
    expect(refusalOf(() => refuseTotal("mass", [12, 34, 56, 102 * (1 + 3e-10)]))).toContain("mass item 4");
  });

  test("digits are those that count: neither zeros at the ends, sign, point nor power of ten", () => {
    // Six digits in three amounts are enough, five are not.
    expect(refusalOf(() => refuseTotal("mass", [12e20, 34e20, 56e20, 102e20]))).toContain("mass item 4");
    expect(refusalOf(() => refuseTotal("mass", [0.0012, 0.0034, 0.0056, 0.0102]))).toContain("mass item 4");
    expect(refusalOf(() => refuseTotal("mass", [105, 2, 34, 141]))).toContain("mass item 4");
    passes(() => refuseTotal("mass", [12, 34, 5, 51]));
    passes(() => refuseTotal("mass", [-0.1, -0.2, -0.3, -0.6]));
    passes(() => refuseTotal("mass", [1e25, 2e25, 3e25, 6e25]));
    passes(() => refuseTotal("mass", [1e-9, 2e-9, 3e-9, 6e-9]));
  });

  test("may be seen in other figures than those written, whose digits count", () => {
    expect(refusalOf(() => refuseTotal("count", [11, 22, 33, 44], [1, 2, 3, 6]))).toContain("count item 4 is the sum");
    passes(() => refuseTotal("count", [1, 2, 3, 6], [12, 34, 56, 102]));
    passes(() => refuseTotal("count", [12, 34, 56, 102], [1, 2, 3, 7]));
  });
});

describe("what all losses come to together, at their foot", () => {
  const together = (losses: readonly number[]) => 1 - losses.reduce((left, loss) => left * (1 - loss), 1);

  test("is refused, as worked out by hand and for any losses of a thousandth or more", () => {
    // 0.95 × 0.97 = 0.9215
    expect(refusalOf(() => refuseTotalLoss("losses", [0.05, 0.03, 0.0785]))).toContain(
      "losses item 3 is the sum of the",
    );
    const losses = fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(losses, (thousandths) => {
        const own = thousandths.map((loss) => loss / 1000);
        const last = Number(together(own).toPrecision(12));
        fc.pre(String(last).length > 5);
        expect(refusalOf(() => refuseTotalLoss("losses", [...own, last]))).toContain(
          `losses item ${own.length + 1} is`,
        );
      }),
    );
  });

  test("may be another stage where it has two digits, follows one alone, or is only near", () => {
    for (const losses of [[0.2, 0.1, 0.28], [0.0785, 0.0785], [0.05, 0.03, 0.0786], [0.05, 0.03, 0.08], [0.05], []]) passes(() => refuseTotalLoss("losses", losses)); // prettier-ignore
  });

  test("is refused where it is their plain sum, as any amount", () => {
    expect(refusalOf(() => refuseTotalLoss("losses", [0.055, 0.032, 0.024, 0.111]))).toContain(
      "losses item 4 is the sum",
    );
  });
});

describe("a total at the foot of measurements of one thing", () => {
  test("is refused after two of them, however short", () => {
    expect(refusalOf(() => refuseTotalOfMeasurements("mass", [5, 6, 11]))).toBe(isTotal(3));
    for (const values of [[5, 5], [5, 6, 12], [5, 6], [5, -5, 0]]) passes(() => refuseTotalOfMeasurements("mass", values)); // prettier-ignore
  });

  test("in two columns is refused only where both end in their sums", () => {
    expect(refusalOf(() => refuseTotalInBoth("mass", [5, 6, 11], [1, 2, 3]))).toBe(isTotal(3));
    passes(() => refuseTotalInBoth("mass", [5, 6, 11], [1, 2, 4]));
    passes(() => refuseTotalInBoth("mass", [5, 6, 12], [1, 2, 3]));
  });
});

describe("a total beside the mean of the figures", () => {
  const beside =
    (figures: number[], amounts = [5, 15, 20]) =>
    () =>
      refuseTotalWithMean("mass", amounts, figures);

  test("is refused, the mean as exact as it may be shown: within 0.2 %", () => {
    // (5 × 10 + 15 × 30) / 20 = 25.
    for (const mean of [25, 25.05, 24.951]) expect(refusalOf(beside([10, 30, mean]))).toBe(isTotal(3));
    for (const other of [25.06, 24.94, 20, -25]) passes(beside([10, 30, other]));
    expect(refusalOf(beside([-10, -30, -25]))).toBe(isTotal(3));
  });

  test("is not suspected where all figures are alike, or the amounts do not add up", () => {
    passes(beside([25, 25, 25]));
    passes(beside([10, 30, 25], [5, 15, 21]));
    expect(refusalOf(beside([1, 2, 3, 4], [12, 34, 56, 102]))).toBe(isTotal(4));
  });

  test("may be another mean: here the mean by length, which the rows are asked for", () => {
    const rows: number[][] = [];
    const mean = (asked: readonly number[]) => {
      rows.push([...asked]);
      return 22;
    };
    expect(refusalOf(() => refuseTotalWithMean("mass", [5, 15, 20], [10, 30, 22], mean))).toBe(isTotal(3));
    expect(rows).toEqual([[0, 1]]);
    passes(() => refuseTotalWithMean("mass", [5, 15, 20], [10, 30, 25], mean));
  });
});

describe("a point that stands wrong among measurements of one thing", () => {
  const slipped = (values: number[]) => () => refuseSlippedPoint("mass", values);

  test("is one figure five times off, the others within a factor of 2, in any order", () => {
    expect(refusalOf(slipped([23, 24, 2.4, 25]))).toBe(
      "#VALUE! mass item 3 is 2.4; far from the others, which lie about 24; check its point",
    );
    expect(refusalOf(slipped([23, 240, 24, 25]))).toBe(
      "#VALUE! mass item 2 is 240; far from the others, which lie about 25; check its point",
    );
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 100, max: 200 }), { minLength: 2, maxLength: 9 }), fc.nat(9), fc.constantFrom(10, 0.1), (values, at, times) => {
        passes(slipped(values));
        const place = Math.min(at, values.length);
        const wrong = [...values.slice(0, place), 150 * times, ...values.slice(place)];
        expect(refusalOf(slipped(wrong))).toContain(`mass item ${place + 1} is ${150 * times}; far`);
      }),
    ); // prettier-ignore
  });

  test("is told from five times and from a factor of 2 on", () => {
    expect(refusalOf(slipped([20, 30, 40, 4]))).toContain("mass item 4 is 4;");
    passes(slipped([20, 30, 40, 4.1]));
    passes(slipped([20, 30, 41, 4]));
    expect(refusalOf(slipped([20, 30, 40, 200]))).toContain("mass item 4 is 200;");
    passes(slipped([20, 30, 40, 199]));
    passes(slipped([20, 30, 41, 205.1]));
  });

  test("is not told of two, nor where two are off", () => {
    passes(slipped([20, 2]));
    passes(slipped([20, 21, 2, 2.1]));
    passes(slipped([20, 21, 200, 210]));
    passes(slipped([2, 20, 200]));
    expect(refusalOf(slipped([20, 21, 2]))).toContain("mass item 3 is 2; far from the others, which lie about 20;");
  });
});
