import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { called } from "../support/calls";
import { sourceFunctions } from "../support/functions";
import { cases } from "../support/random-cases";
import type { Implementation } from "../../src/recalculate/bundle";

/*
 * What a cell shows is what is rounded, counted and compared. A product or a sum of typed decimals is a trace off the
 * decimal that its cell shows; every function that makes whole numbers, steps or money of it must give what it gives for
 * that decimal, typed.
 */

/** A computed figure and the decimal that it shows, worked out in whole numbers. */
interface Figure {
  readonly computed: number;
  readonly shown: number;
}

const hundredths = fc.integer({ min: 1, max: 9999 });

/** a × b of two decimals each, or a + b, as a sheet computes it and as whole ten-thousandths over ten thousand. */
const figure: fc.Arbitrary<Figure> = fc.oneof(
  fc.tuple(hundredths, hundredths).map(([a, b]) => ({
    computed: (a / 100) * (b / 100),
    shown: Number(`${a * b}e-4`),
  })),
  fc.tuple(hundredths, hundredths).map(([a, b]) => ({ computed: a / 100 + b / 100, shown: Number(`${a + b}e-2`) })),
);

/** A decimal with which it makes a whole number about as often as not. */
const part = fc.constantFrom(0.01, 0.02, 0.05, 0.1, 0.25, 0.3, 0.7, 1, 1.1, 3);

const stages = (basis: string): unknown[][] => [["spin", 0.1, 0.1, 0, 0, basis, 1.1, 0, 0]];

/** Every function that rounds, counts or compares, with the computed figure in each place where it decides. */
const CALLS: [name: string, cells: (x: number, part: number) => unknown[]][] = [
  ["SKEINS", (x, p) => [x, p]],
  ["SKEINS", (x, p) => [p * 1000, x]],
  ["SKEINS", (x, p) => [x, p, 0.12, 0.1825]],
  ["SKEINREMAINDER", (x, p) => [x, p]],
  ["NETCHECK", (x) => [[[x + 5], [x + 5]], x + 5]],
  ["NETCHECK", (x) => [[[x + 6], [x + 5]], x + 5, 0.5]],
  ["QUOTES", (x, p) => [x, [["A", "per in", 2, 0, 0, Math.max(p, x / 900), 30, 0, ""]], 10]],
  ["SPINDLESNEEDED", (x, p) => [x, 7, p]],
  ["SPINDLESNEEDED", (x, p) => [10, x, p * 10]],
  ["DOFFPLAN", (x, p) => [x, 10, p * 100, 33.75]],
  ["TESTSNEEDED", (x, p) => [Math.min(x / 1e6 + 0.001, 0.5), Math.min(p / 100, 0.01)]],
  ["CLEANMASS", (x) => [x + 50, 0.7]],
  ["WOOLGRADE", (x) => [8 + (x % 50)]],
  ["SHORTFALL", (x) => [5 + (x % 9000)]],
  // About as many lots whatever the amount, and the same vessel for both figures.
  ["DYELOTS", (x, p) => [x, Math.max(p, 10 ** (String(Math.round(x)).length - 2))]],
  ["TIERED", (x, p) => [x, [[0], [p], [x]], [[3], [2], [1]], "all units"]],
  ["TIERED", (x, p) => [x, [[0], [p * 10], [p * 10000]], [[3], [2], [1]], "all units"]],
  ["TIERED", (x, p) => [x, [[0], [p * 10], [p * 10000]], [[3], [2], [1]], "next break"]],
  ["CHARGE", (x, p) => [x, 2, 0, p, 30]],
  ["CHARGE", (x) => [x, 2, 0, null, null, x, 0.15]],
  ["APPORTION", (x) => [x, [[1], [1], [1]]]],
  ["APPORTION", (x, p) => [100, [[x], [p], [1]]]],
  ["ROUNDCASH", (x) => [x, 1]],
  ["ROUNDCASH", (x) => [x, 2, "up"]],
  ["ROUNDCASH", (x) => [x, 3, "down"]],
  ["ROUNDCASH", (x) => [x, 2, "half even"]],
  ["CHARGEABLE", (x, p) => [x, 0, null, p]],
  ["BREAKEVEN", (x, p) => [x, p + 0.3, 0.3]],
  ["BREAKEVEN", (x, p) => [p, x + 1, 1]],
  ["FEE", (x) => [1, 0.01, x, x]],
  ["MEASUREDREGAIN", (x) => [x, x]],
  ["JOINTCOST", (x, p) => [100, [[x], [p]], [[1], [1]]]],
  ["JOINTCOST", (x) => [100, [[1], [1]], [[x], [x + 1]], [[x], [0]]]],
  ["EQUIVALENT", (x) => ["fifo", x, 0.5, x, 0.5, 0.5, 10, 20]],
  ["ORDERSIZE", (x) => [x, [[0], [x], [x * 3]], [[3], [2], [1]]]],
  ["ROUTECOST", (x, p) => [x, stages("per skein"), "made", 2, 0, p]],
  ["ROUTECOST", (x) => [x, stages("per in"), "made", 2]],
  [
    "LANDED",
    (x, p) => [
      [
        [x, 1, 1, 1],
        [p, 1, 1, 1],
      ],
      [[100, "value"]],
    ],
  ],
  ["LAYDOWN", (x) => [x + 100, [[0.62], [0.38]], 3, 0.5]],
  ["LABELSHARES", (x, p) => [[[x], [p]], [[0.17], [0.085]], null, 1]],
  [
    "STOCKLEDGER",
    (x) => [
      [
        [x, 2],
        [-x, null],
      ],
      "fifo",
    ],
  ],
  [
    "STOCKLEDGER",
    (x, p) => [
      [
        [x, 2],
        [p, 3],
        [-x, null],
        [-p, null],
      ],
      "average",
    ],
  ],
];

/** A column or a cell, as the host hands it over. */
function asCells(argument: unknown): unknown {
  return argument === null || Array.isArray(argument) ? argument : [[argument]];
}

/** Figures that decide must agree; a figure that is only carried along may keep the trace. */
function expectAlike(got: unknown[][], wanted: unknown[][]): void {
  expect(got.length).toBe(wanted.length);
  const sizes = wanted.flat().map((cell) => (typeof cell === "number" ? Math.abs(cell) : 0));
  const trace = 1e-12 * Math.max(1, ...sizes);
  got.forEach((row, line) =>
    row.forEach((cell, place) => {
      const other = (wanted[line] as unknown[])[place];
      if (typeof cell !== "number" || typeof other !== "number") return expect(cell).toEqual(other);
      expect(Math.abs(cell - other)).toBeLessThanOrEqual(trace);
    }),
  );
}

describe("a product or a sum of typed decimals counts as what its cell shows", () => {
  test.each(CALLS.map(([name, cells], index) => [`${name} ${index + 1}`, name, cells] as const))(
    "%s",
    (_, name, cells) => {
      const call = sourceFunctions.get(name) as Implementation;
      const outcome = (x: number, p: number) => called(call, cells(x, p).map(asCells));
      let answered = 0;
      fc.assert(
        fc.property(figure, part, ({ computed, shown }, p) => {
          const [got, wanted] = [outcome(computed, p), outcome(shown, p)];
          if ("rows" in wanted && "rows" in got) {
            answered++;
            return expectAlike(got.rows, wanted.rows);
          }
          // Refused for its size or its shape, but then as the decimal is.
          expect("error" in got && got.error.code).toBe("error" in wanted && wanted.error.code);
        }),
        { numRuns: 300 },
      );
      expect(answered).toBeGreaterThan(cases(300) / 6);
    },
  );

  test("the figures do differ from their decimals, and often", () => {
    const differ = fc.sample(figure, 500).filter(({ computed, shown }) => computed !== shown);
    expect(differ.length).toBeGreaterThan(50);
  });
});
