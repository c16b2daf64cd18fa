import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leastCostShares, type PropertyLimit } from "../../../src/trade/blending/least-cost";
import { Refusal } from "../../../src/trade/refusal";
import { exactOptimum, type WholeProgramme } from "../../support/exact-programme";
import { cases } from "../../support/random-cases";

/** Figures in whole units (microns, price) and share bounds in tenths, so that exact fractions can answer too. */
interface Case {
  readonly prices: number[];
  readonly micron: number[];
  readonly hauteur: number[];
  readonly finest: number;
  readonly coarsest: number;
  readonly shortest: number;
  readonly least: number[];
  readonly most: number;
}
const blends = fc.integer({ min: 2, max: 4 }).chain((count) => {
  const of = (min: number, max: number) => fc.array(fc.integer({ min, max }), { minLength: count, maxLength: count });
  return fc.record<Case>({
    prices: of(5, 20),
    micron: of(16, 28),
    hauteur: of(50, 80),
    finest: fc.integer({ min: 15, max: 21 }),
    coarsest: fc.integer({ min: 18, max: 27 }),
    shortest: fc.integer({ min: 50, max: 78 }),
    least: of(0, 2),
    most: fc.integer({ min: 5, max: 10 }),
  });
});

function property(values: number[], least: number, most: number): PropertyLimit {
  return { values, weights: values.map(() => 1), least, most };
}

function ours({ prices, micron, hauteur, finest, coarsest, shortest, least, most }: Case): number[] | Refusal {
  try {
    return leastCostShares(
      prices,
      [property(micron, finest, coarsest), property(hauteur, shortest, Infinity)],
      least.map((tenths) => tenths / 10),
      prices.map(() => most / 10),
    );
  } catch (thrown) {
    if (thrown instanceof Refusal) return thrown;
    throw thrown;
  }
}

/** The same in amounts of ten in all, which keeps the share bounds whole. */
function exactly(one: Case, without?: "finest" | "coarsest" | "shortest"): WholeProgramme {
  const over = (values: number[], bound: number) => values.map((value) => value - bound);
  return {
    direction: "least",
    objective: one.prices,
    limits: [
      { coefficients: one.prices.map(() => 1), sense: "exactly", bound: 10 },
      ...(without === "finest"
        ? []
        : [{ coefficients: over(one.micron, one.finest), sense: "at least" as const, bound: 0 }]),
      ...(without === "coarsest"
        ? []
        : [{ coefficients: over(one.micron, one.coarsest), sense: "at most" as const, bound: 0 }]),
      ...(without === "shortest"
        ? []
        : [{ coefficients: over(one.hauteur, one.shortest), sense: "at least" as const, bound: 0 }]),
      ...one.prices.map((_, place) => ({
        coefficients: one.prices.map((__, index) => (index === place ? 1 : 0)),
        sense: "at most" as const,
        bound: one.most,
      })),
      ...one.least.map((tenths, place) => ({
        coefficients: one.prices.map((__, index) => (index === place ? 1 : 0)),
        sense: "at least" as const,
        bound: tenths,
      })),
    ],
  };
}

const drawn = fc.sample(blends, { numRuns: cases(250), seed: 11 });
const optima = new Map<Case, ReturnType<typeof exactOptimum>>();
/** The exact answer, worked out once for all tests: it takes most of their time. */
function optimumOf(one: Case): ReturnType<typeof exactOptimum> {
  const optimum = optima.get(one) ?? exactOptimum(exactly(one));
  optima.set(one, optimum);
  return optimum;
}
const cost = (prices: number[], shares: number[]) =>
  prices.reduce((sum, price, i) => sum + price * (shares[i] as number), 0);
const mean = (values: number[], shares: number[]) => cost(values, shares);

describe("the cheapest blend", () => {
  test("costs what every corner in exact fractions says, and is refused exactly where there is none", () => {
    let [solved, refused] = [0, 0];
    for (const one of drawn) {
      const exact = optimumOf(one);
      const shares = ours(one);
      if (exact.kind === "optimal") {
        expect(shares, JSON.stringify(one)).toBeInstanceOf(Array);
        expect(cost(one.prices, shares as number[])).toBeCloseTo(exact.value / 10, 10);
        solved++;
      } else {
        expect(shares, JSON.stringify(one)).toBeInstanceOf(Refusal);
        refused++;
      }
    }
    expect(Math.min(solved, refused)).toBeGreaterThan(drawn.length / 5);
  });

  test("has shares that sum to 1, within their bounds and the limits", () => {
    for (const one of drawn) {
      const shares = ours(one);
      if (shares instanceof Refusal) continue;
      expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-14);
      shares.forEach((share, place) => {
        expect(share).toBeGreaterThanOrEqual((one.least[place] as number) / 10 - 1e-12);
        expect(share).toBeLessThanOrEqual(one.most / 10 + 1e-12);
      });
      expect(mean(one.micron, shares)).toBeGreaterThanOrEqual(one.finest - 1e-10);
      expect(mean(one.micron, shares)).toBeLessThanOrEqual(one.coarsest + 1e-10);
      expect(mean(one.hauteur, shares)).toBeGreaterThanOrEqual(one.shortest - 1e-10);
    }
  });

  test("moves with its components and does not mind the currency", () => {
    for (const one of drawn) {
      const shares = ours(one);
      if (shares instanceof Refusal) continue;
      const turned = ours({
        ...one,
        ...{ prices: turn(one.prices), micron: turn(one.micron), hauteur: turn(one.hauteur), least: turn(one.least) },
      });
      const best = cost(one.prices, shares);
      expect(cost(turn(one.prices), turned as number[])).toBeCloseTo(best, 10);
      if (corners(one) === 1)
        turn(shares).forEach((share, index) => expect((turned as number[])[index]).toBeCloseTo(share, 10));
      const abroad = ours({ ...one, prices: one.prices.map((price) => price * 1234.5) });
      expect(cost(one.prices, abroad as number[])).toBeCloseTo(best, 10);
    }
  });

  test("by length: the mean fibre diameter of the blend is within the limit as an instrument reads it", () => {
    const [diameters, cvs, prices] = [
      [18, 21, 25],
      [0.2, 0.22, 0.26],
      [14, 9, 6],
    ];
    const weights = diameters.map((d, index) => 1 / (d * d * (1 + (cvs[index] as number) ** 2)));
    const limits = [{ values: diameters, weights, least: -Infinity, most: 20 }];
    const shares = leastCostShares(prices, limits, [0, 0, 0], [1, 1, 1]);
    const length = shares.map((share, index) => share * (weights[index] as number));
    const read = mean(diameters, length) / length.reduce((sum, part) => sum + part, 0);
    expect(read).toBeCloseTo(20, 10);
    // A coarse fibre has less length in it, so the instrument's mean is finer and the blend may be coarser by mass.
    expect(mean(diameters, shares)).toBeGreaterThan(20);
  });
});

describe("a limit that cannot be met", () => {
  const one = [0, 0, 0];
  const all = [1, 1, 1];
  const message = (properties: PropertyLimit[], low = one, high = all) => {
    try {
      return JSON.stringify(leastCostShares([12, 9, 7], properties, low, high));
    } catch (thrown) {
      return `${(thrown as Refusal).kind}: ${(thrown as Refusal).message}`;
    }
  };

  test("alone is named with what can be reached", () => {
    expect(message([property([70, 60, 65], 50, 80), property([19, 21, 24], 19.5, 18.5)])).toBe(
      "absent: limits[1][1] is 18.5; these components reach 19 at the least",
    );
    expect(message([property([19, 21, 24], 22.5, Infinity)], one, [1, 1, 0.25])).toBe(
      "absent: limits[0][0] is 22.5; these components reach 21.75 at the most",
    );
  });

  test("alone by length: the extreme of a mean that is a ratio, within the share bounds", () => {
    const diameters = [18, 21, 25, 30];
    const weights = diameters.map((d, index) => 1 / (d * d * (1 + (0.2 + index / 50) ** 2)));
    const [low, high] = [
      [0.1, 0.05, 0.1, 0],
      [1, 1, 0.5, 0.2],
    ];
    const read = (shares: number[]) => {
      const length = shares.map((share, index) => share * (weights[index] as number));
      return mean(diameters, length) / length.reduce((sum, part) => sum + part, 0);
    };
    // A ratio of two sums that are linear in the shares is extreme at a corner: try them all, in twentieths.
    const reached: number[] = [];
    for (let a = 2; a <= 20; a++)
      for (let b = 1; a + b <= 20; b++)
        for (let c = 2; a + b + c <= 20 && c <= 10; c++)
          if (20 - a - b - c <= 4) reached.push(read([a, b, c, 20 - a - b - c].map((part) => part / 20)));
    const shown = (value: number) => String(Number(value.toPrecision(6)));
    const by = (least: number, most: number) => {
      try {
        return JSON.stringify(leastCostShares([9, 8, 7, 6], [{ values: diameters, weights, least, most }], low, high));
      } catch (thrown) {
        return (thrown as Refusal).message;
      }
    };
    expect(by(29, Infinity)).toBe(
      `limits[0][0] is 29; these components reach ${shown(Math.max(...reached))} at the most`,
    );
    expect(by(-Infinity, 17)).toBe(
      `limits[1][0] is 17; these components reach ${shown(Math.min(...reached))} at the least`,
    );
    // The extreme itself can be met.
    expect(by(Math.max(...reached), Infinity)).toMatch(/^\[/);
    expect(by(-Infinity, Math.min(...reached))).toMatch(/^\[/);
  });

  test("alone by any weights: the extreme of a ratio is that of all corners, one component between its bounds at most", () => {
    const part = fc.record({
      value: fc.integer({ min: -20, max: 40 }),
      weight: fc.integer({ min: 1, max: 100 }),
      low: fc.integer({ min: 0, max: 3 }),
      more: fc.integer({ min: 2, max: 20 }),
    });
    let moved = 0;
    for (const parts of fc.sample(fc.array(part, { minLength: 2, maxLength: 5 }), { numRuns: 300, seed: 1967 })) {
      const [low, high] = [
        parts.map(({ low }) => low / 20),
        parts.map(({ low, more }) => Math.min(1, (low + more) / 20)),
      ];
      const sum = (shares: readonly number[]) => shares.reduce((all, share) => all + share, 0);
      if (sum(low) > 1 || sum(high) < 1) continue;
      const [values, weights] = [parts.map(({ value }) => value), parts.map(({ weight }) => weight)];
      const read = (shares: readonly number[]) =>
        shares.reduce((all, share, index) => all + share * weights[index]! * values[index]!, 0) /
        shares.reduce((all, share, index) => all + share * weights[index]!, 0);
      const reached: number[] = [];
      for (let free = 0; free < parts.length; free++) {
        for (let full = 0; full < 2 ** parts.length; full++) {
          const shares = parts.map((_, index) => ((full >> index) & 1 ? high[index]! : low[index]!));
          shares[free] = 1 - sum(shares) + shares[free]!;
          if (shares[free]! >= low[free]! - 1e-9 && shares[free]! <= high[free]! + 1e-9) reached.push(read(shares));
        }
      }
      const [least, most] = [Math.min(...reached), Math.max(...reached)];
      for (const beyond of [0.01, 5, 1000]) {
        for (const [bounds, extreme] of [
          [{ least: most + beyond, most: Infinity }, most],
          [{ least: -Infinity, most: least - beyond }, least],
        ] as const) {
          const prices = parts.map(() => 1);
          const refusal = refusalIn(() => leastCostShares(prices, [{ values, weights, ...bounds }], low, high));
          const [, named] = /; these components reach (\S+) at the (?:most|least)$/.exec(refusal) ?? [];
          expect(Math.abs(Number(named) - extreme), refusal).toBeLessThanOrEqual(
            5.1e-6 * Math.max(1, Math.abs(extreme)),
          );
          moved++;
        }
      }
    }
    expect(moved).toBeGreaterThan(300);
  });

  test("that can just be met alone is not blamed alone", () => {
    // 19 micron at the most is the first component alone, and that is too short.
    const both = [property([19, 21, 24], -Infinity, 19), property([60, 70, 68], 66, Infinity)];
    expect(message(both)).toMatch(/; beside the other limits it reaches /);
  });

  test("beside the others is the one that needs the smaller part of its range", () => {
    // The third component is not allowed, but widens the range of one property or of the other.
    const high = [1, 1, 0];
    expect(message([property([19, 21, 124], -Infinity, 20), property([60, 70, 68], 66, Infinity)], one, high)).toBe(
      "absent: limits[1][0] is 20; beside the other limits it reaches 20.2 at the least",
    );
    expect(message([property([19, 21, 24], -Infinity, 20), property([60, 70, 680], 66, Infinity)], one, high)).toBe(
      "absent: limits[0][1] is 66; beside the other limits it reaches 65 at the most",
    );
  });

  test("beside the others is named with what can be reached beside them", () => {
    // Fine fibre is short here: 20 micron leaves 0.5 of 19 and 0.5 of 21 at the best, hauteur 65.
    const both = [property([19, 21, 24], -Infinity, 20), property([60, 70, 68], 66, Infinity)];
    expect(message(both)).toMatch(
      /^absent: limits\[(1\]\[0\] is 20; beside the other limits it reaches 20\.2 at the least|0\]\[1\] is 66; beside the other limits it reaches 65 at the most)$/,
    );
  });

  test("is really one: without it the others can be met", () => {
    const names = {
      "[0][0]": "finest",
      "[1][0]": "coarsest",
      "[0][1]": "shortest",
    } as const;
    let named = 0;
    for (const one of drawn) {
      const refusal = ours(one);
      if (!(refusal instanceof Refusal) || !refusal.message.includes("beside")) continue;
      const name = /limits(\[\d\]\[\d\])/.exec(refusal.message)?.[1] as keyof typeof names;
      expect(exactOptimum(exactly(one, names[name])).kind, refusal.message).toBe("optimal");
      named++;
    }
    expect(named).toBeGreaterThan(drawn.length / 32);
  });

  test("together with another is named with that one", () => {
    // Each alone can be met. Property 3 at most 2 takes at least 0.75 of the last component, which spoils the first two.
    const limits = [
      property([18, 22, 26], -Infinity, 19),
      property([60, 75, 50], 70, Infinity),
      property([5, 9, 1], -Infinity, 2),
    ];
    const text = message(limits);
    const [own, other] = [...text.matchAll(/\[\d\]\[\d\]/g)].map(([place]) => place);
    expect(text).toMatch(/^absent: limits\[\d\]\[\d\] is [\d.]+; cannot be met together with limits\[\d\]\[\d\]$/);
    expect(own).not.toBe(other);
  });

  test("share bounds that leave no room are named", () => {
    expect(message([], [0.5, 0.4, 0.2])).toBe("absent: min_share is 1.1 in all; shares of 1 in all cannot be met");
    expect(message([], one, [0.3, 0.3, 0.3])).toBe("absent: max_share is 0.9 in all; shares of 1 in all cannot be met");
    expect(message([], [0, 0.5, 0], [1, 0.4, 1])).toBe(
      "argument: min_share[1] is 0.5; must not be above its max_share, 0.4",
    );
  });
});

/** The message of what is refused. */
function refusalIn(call: () => unknown): string {
  try {
    return JSON.stringify(call());
  } catch (thrown) {
    return (thrown as Refusal).message;
  }
}

function turn<T>(items: readonly T[]): T[] {
  return [...items.slice(1), items[0] as T];
}

function corners(one: Case): number {
  const exact = optimumOf(one);
  return exact.kind === "optimal" ? exact.corners : 0;
}
