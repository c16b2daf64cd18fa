import { readFileSync } from "node:fs";
import * as culori from "culori";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  difference1976,
  difference1994,
  difference2000,
  differenceCmc,
  type ShadeDifference,
} from "../../../src/trade/shade/shade-difference";
import type { Lab } from "../../../src/trade/shade/tristimulus";

const PAIRS = readFileSync("tests/data/ciede2000.csv", "utf8")
  .split("\n")
  .filter((line) => /^\d/.test(line))
  .map((line) => line.split(",").map(Number));

describe("CIEDE2000 of Sharma, Wu, Dalal (2005), table 1", () => {
  test("all 34 pairs are there", () => expect(PAIRS).toHaveLength(34));
  for (const pair of PAIRS) {
    const first = pair.slice(1, 4) as unknown as Lab;
    const second = pair.slice(4, 7) as unknown as Lab;
    const published = pair[pair.length - 1] as number;
    test(`pair ${pair[0]}, both ways`, () => {
      expect(Math.abs(difference2000(first, second) - published)).toBeLessThanOrEqual(1e-4);
      expect(Math.abs(difference2000(second, first) - published)).toBeLessThanOrEqual(1e-4);
    });
  }
});

const lab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
);
const nearby = fc
  .tuple(lab, fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 3, maxLength: 3 }))
  .map(([standard, step]) => {
    const sample = standard.map((value, axis) => value + (step[axis] as number)) as unknown as Lab;
    return [standard, [Math.max(0, sample[0]), sample[1], sample[2]] as Lab] as const;
  });

describe("against a general-purpose colour library, random pairs", () => {
  const cases: [string, ShadeDifference, ReturnType<typeof culori.differenceCie76>][] = [
    ["2000", difference2000, culori.differenceCiede2000()],
    ["CMC 2:1", differenceCmc(2, 1), culori.differenceCmc(2, 1)],
    ["CMC 1:1", differenceCmc(1, 1), culori.differenceCmc(1, 1)],
    ["1994", difference1994(1, 0.045, 0.015), culori.differenceCie94()],
    ["1994 textiles", difference1994(2, 0.048, 0.014), culori.differenceCie94(2, 0.048, 0.014)],
    ["1976", difference1976, culori.differenceCie76()],
  ];
  for (const [name, ours, theirs] of cases) {
    // In the mode that all their formulas work in, or they would convert for another white on the way.
    const colour = ([l, a, b]: Lab): Parameters<typeof theirs>[0] => ({ mode: "lab65", l, a, b });
    for (const [which, pairs] of [
      ["far apart", fc.tuple(lab, lab)],
      ["close", nearby],
    ] as const) {
      test(`${name}, ${which}`, () => {
        fc.assert(
          fc.property(pairs, ([standard, sample]) => {
            const expected = theirs(colour(standard), colour(sample));
            // Their ΔH² as a difference of squares can come out a little below 0, and then they have no answer.
            fc.pre(Number.isFinite(expected));
            expect(Math.abs(ours(standard, sample) - expected)).toBeLessThanOrEqual(1e-5 * (1 + expected));
          }),
          { numRuns: 2000 },
        );
      });
    }
    test(`${name}, round the hue circle`, () => {
      let compared = 0;
      for (let hue = 0; hue < 360; hue += 5) {
        for (const lightness of [10, 16, 70]) {
          for (const chroma of [4, 30, 90]) {
            const [a, b] = [chroma * Math.cos((hue * Math.PI) / 180), chroma * Math.sin((hue * Math.PI) / 180)];
            const standard: Lab = [lightness, hue === 90 ? 0 : a, hue === 180 ? 0 : b];
            for (const sample of [
              [lightness + 1, a * 1.1, b * 1.1],
              [lightness, a * 0.9 - b * 0.2, b * 0.9 + a * 0.2],
              [lightness - 2, a * 0.2 + b, b * 0.2 - a],
              [lightness, -a, -b * 0.9],
              [lightness, 0, 0],
            ] as const) {
              const expected = theirs(colour(standard), colour(sample));
              if (!Number.isFinite(expected)) continue;
              expect(Math.abs(ours(standard, sample) - expected), `${standard.join()} ${sample.join()}`).toBeLessThan(
                1e-6 * (1 + expected),
              );
              compared++;
            }
          }
        }
      }
      expect(compared).toBeGreaterThan(72 * 3 * 3 * 4);
    });
  }
});

test("CMC(2:1) far outside the usual colours", () => {
  const difference = differenceCmc(2, 1)([100, 21.57210357, 272.2281935], [100, 426.67945353, 72.39590835]);
  expect(Math.abs(difference - 172.70477129)).toBeLessThanOrEqual(1e-6);
});

describe("every formula", () => {
  const formulas = [difference2000, difference1976, differenceCmc(2, 1), difference1994(1, 0.045, 0.015)];
  test("gives 0 for a shade and itself and is never negative", () => {
    fc.assert(
      fc.property(lab, lab, (first, second) => {
        for (const difference of formulas) {
          expect(difference(first, first)).toBe(0);
          expect(difference(first, second)).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });
  test("2000 and 1976 do not care which is the standard", () => {
    fc.assert(
      fc.property(lab, lab, (first, second) => {
        for (const difference of [difference2000, difference1976]) {
          expect(Math.abs(difference(first, second) - difference(second, first))).toBeLessThan(1e-9);
        }
      }),
    );
  });
});
