import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { doubledVariation, indexOfIrregularity, limitingVariation } from "../../../src/trade/spinning/evenness";
import { shareDeviation } from "../../../src/trade/spinning/share-variation";
import { spinningFineness } from "../../../src/trade/spinning/spinning-fineness";
import { refusalOf } from "../../support/refusals";
import { between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("limiting irregularity", () => {
  test("four times the fibres, half the irregularity; a yarn at the limit has index 1", () => {
    fc.assert(
      fc.property(between(5, 1000), between(0, 0.5), (fibres, cv) => {
        const limit = limitingVariation(fibres, cv);
        expectClose(limitingVariation(4 * fibres, cv), limit / 2, 1e-14);
        expectClose(indexOfIrregularity(limit, fibres, cv), 1, 1e-14);
      }),
    );
  });

  test("what is more even than random fibres by more than measuring can miss is refused with the limit", () => {
    // 100 fibres alike: a limit of 10 %.
    expect(indexOfIrregularity(0.081, 100, 0)).toBeCloseTo(0.81, 12);
    expect(refusalOf(() => indexOfIrregularity(0.079, 100, 0))).toBe(
      "#VALUE! cv_measured is 0.079; below the limit of 0.1 for 100 fibres; check both",
    );
  });

  test("the handbooks' round figures: 100, 106 and 112 %/√n", () => {
    expect(limitingVariation(1, 0)).toBe(1);
    expect(limitingVariation(1, 0.176)).toBeCloseTo(1.06, 2);
    expect(limitingVariation(1, 0.25)).toBeCloseTo(1.12, 2);
  });
});

describe("doubling", () => {
  test("twice by m and n is once by m × n; what a machine adds is added in squares", () => {
    fc.assert(
      fc.property(
        between(0.001, 0.5),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 12 }),
        between(0, 0.2),
        (cv, m, n, added) => {
          expectClose(doubledVariation(doubledVariation(cv, m, 0), n, 0), doubledVariation(cv, m * n, 0), 1e-14);
          expectClose(doubledVariation(cv, m, added) ** 2, cv ** 2 / m + added ** 2, 1e-13);
        },
      ),
    );
  });
});

describe("a colour's share", () => {
  test("is the binomial law, summed term by term", () => {
    for (const [share, fibres] of [
      [0.1, 40],
      [0.5, 7],
      [0.93, 60],
    ] as const) {
      let probability = (1 - share) ** fibres;
      let [mean, square] = [0, 0];
      for (let k = 1; k <= fibres; k++) {
        probability *= ((fibres - k + 1) / k) * (share / (1 - share));
        mean += probability * (k / fibres);
        square += probability * (k / fibres) ** 2;
      }
      expectClose(shareDeviation(share, fibres), Math.sqrt(square - mean ** 2), 1e-9);
    }
  });

  test("is symmetric, greatest at one half, nothing for a plain yarn", () => {
    fc.assert(
      fc.property(between(0, 1), between(1, 500), (share, fibres) => {
        expect(Math.abs(shareDeviation(share, fibres) - shareDeviation(1 - share, fibres))).toBeLessThan(1e-8);
        expect(shareDeviation(share, fibres)).toBeLessThanOrEqual(shareDeviation(0.5, fibres));
      }),
    );
    expect(shareDeviation(1, 30)).toBe(0);
  });
});

describe("spinning fineness", () => {
  test("is the diameter itself at 24 %, to the digits of the printed constant, and rises with the variation", () => {
    fc.assert(
      fc.property(between(12, 45), between(0, 0.24), between(0.25, 0.5), (micron, even, uneven) => {
        expectClose(spinningFineness(micron, 0.24), micron, 5e-4);
        expect(spinningFineness(micron, even)).toBeLessThan(micron);
        expect(spinningFineness(micron, uneven)).toBeGreaterThan(micron);
      }),
    );
  });
});
