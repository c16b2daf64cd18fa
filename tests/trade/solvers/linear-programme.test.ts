import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  enteringColumn,
  leavingRow,
  settledAmounts,
  solveLinearProgramme,
  startsOnSlack,
  type Limit,
  type LinearProgramme,
  type Solution,
} from "../../../src/trade/solvers/linear-programme";
import { exactOptimum, type Sense, type WholeProgramme } from "../../support/exact-programme";
import { cases } from "../../support/random-cases";

function asProgramme({ direction, objective, limits }: WholeProgramme): LinearProgramme {
  return {
    direction,
    objective,
    limits: limits.map(({ coefficients, sense, bound }) => limit(coefficients, sense, bound)),
  };
}

function limit(coefficients: readonly number[], sense: Sense, bound: number): Limit {
  return {
    coefficients,
    ...(sense !== "at most" && { least: bound }),
    ...(sense !== "at least" && { most: bound }),
  };
}

function expectWithinLimits({ limits }: LinearProgramme, solution: Solution): void {
  if (solution.kind !== "optimal") return;
  for (const amount of solution.amounts) expect(amount).toBeGreaterThanOrEqual(0);
  for (const { coefficients, least = -Infinity, most = Infinity } of limits) {
    const parts = coefficients.map((entry, index) => entry * (solution.amounts[index] as number));
    const sum = parts.reduce((total, part) => total + part, 0);
    const slack = 1e-12 * (1 + parts.reduce((total, part) => total + Math.abs(part), 0));
    expect(sum).toBeGreaterThanOrEqual(least - slack);
    expect(sum).toBeLessThanOrEqual(most + slack);
  }
}

/** Differing from the exact answer: a wrong kind, or an optimum off by more than rounding. */
function wrong(programme: WholeProgramme, exact: ReturnType<typeof exactOptimum>): string | undefined {
  const solution = solveLinearProgramme(asProgramme(programme));
  expectWithinLimits(asProgramme(programme), solution);
  const right =
    exact.kind === "optimal" && solution.kind === "optimal"
      ? Math.abs(exact.value - solution.value) <= 1e-13 * (1 + Math.abs(exact.value))
      : exact.kind === solution.kind;
  return right ? undefined : JSON.stringify({ programme, exact, solution });
}

const sense = fc.constantFrom<Sense>("at most", "at most", "at most", "at least", "exactly");
/** Whole entries in a range; a small range makes ties, rows that repeat others, and corners where many limits meet. */
function programmes(lowest: number, highest: number, bound: number): fc.Arbitrary<WholeProgramme> {
  return fc.integer({ min: 1, max: 4 }).chain((amounts) => {
    const row = fc.array(fc.integer({ min: lowest, max: highest }), { minLength: amounts, maxLength: amounts });
    return fc.record({
      direction: fc.constantFrom("least", "most"),
      objective: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: amounts, maxLength: amounts }),
      limits: fc.array(fc.record({ coefficients: row, sense, bound: fc.integer({ min: -2, max: bound }) }), {
        minLength: 1,
        maxLength: 6,
      }),
    });
  });
}

describe("against every corner worked out in exact fractions", () => {
  test.each([
    ["usual figures", programmes(-9, 9, 20), 700],
    ["amounts that only add", programmes(0, 9, 20), 400],
    ["many ties", programmes(-1, 1, 1), 700],
  ])("%s: no wrong optimum, none missed, none invented", (_, arbitrary, many) => {
    const drawn = fc.sample(arbitrary, { numRuns: cases(many), seed: 1945 });
    const exact = drawn.map(exactOptimum);
    expect(drawn.flatMap((programme, place) => wrong(programme, exact[place]!) ?? [])).toEqual([]);
    for (const kind of ["optimal", "infeasible"])
      expect(exact.filter((one) => one.kind === kind).length).toBeGreaterThan(cases(many) / 14);
  });
});

describe("against optima that are known because they were built in", () => {
  // With amounts x and prices y chosen first, of which one of each pair is 0, x is optimal (complementary slackness).
  const size = fc.record({ amounts: fc.integer({ min: 2, max: 40 }), limits: fc.integer({ min: 1, max: 25 }) });
  const built = size.chain(({ amounts, limits }) => {
    const figure = fc.integer({ min: -50, max: 50 });
    const maybe = fc.integer({ min: -20, max: 20 });
    const many = <T>(item: fc.Arbitrary<T>, count: number) => fc.array(item, { minLength: count, maxLength: count });
    return fc.record({
      matrix: many(many(figure, amounts), limits),
      onAmount: many(maybe, amounts),
      onLimit: many(maybe, limits),
      scale: fc.constantFrom(1e-6, 1, 1e6),
      ofLimit: many(fc.constantFrom(1e-7, 1e-2, 1, 3e5), limits),
      ofAmount: many(fc.constantFrom(1e-6, 0.1, 1, 2e4), amounts),
    });
  });

  test("every limit and every amount in a unit of its own", () => {
    fc.assert(
      fc.property(built, ({ matrix, onAmount, onLimit, ofLimit, ofAmount }) => {
        const x = onAmount.map((part) => Math.max(part, 0));
        const y = onLimit.map((part) => Math.max(part, 0));
        const dot = (one: readonly number[], other: readonly number[]) =>
          one.reduce((sum, entry, place) => sum + entry * other[place]!, 0);
        const prices = onAmount.map(
          (part, place) =>
            dot(
              matrix.map((row) => row[place]!),
              y,
            ) - Math.min(part, 0),
        );
        const programme: LinearProgramme = {
          direction: "least",
          objective: prices.map((price, place) => price * ofAmount[place]!),
          limits: matrix.map((row, index) => ({
            coefficients: row.map((entry, place) => entry * ofLimit[index]! * ofAmount[place]!),
            least: (dot(row, x) + Math.min(onLimit[index]!, 0)) * ofLimit[index]!,
          })),
        };
        const solution = solveLinearProgramme(programme);
        expect(solution.kind).toBe("optimal");
        const amounts = (solution as { amounts: number[] }).amounts.map((amount, place) => amount * ofAmount[place]!);
        matrix.forEach((row, index) => {
          const whole = row.reduce((sum, entry, place) => sum + Math.abs(entry * amounts[place]!), 1);
          const least = dot(row, x) + Math.min(onLimit[index]!, 0);
          expect(dot(row, amounts)).toBeGreaterThanOrEqual(least - 1e-10 * whole);
        });
        const best = dot(prices, x);
        const size = prices.reduce((sum, price, place) => sum + Math.abs(price * x[place]!), 1);
        expect(Math.abs((solution as { value: number }).value - best)).toBeLessThan(1e-12 * size);
      }),
      { numRuns: 300, seed: 8 },
    );
  });

  test("large, scaled up and down", () => {
    fc.assert(
      fc.property(built, ({ matrix, onAmount, onLimit, scale }) => {
        const x = onAmount.map((part) => Math.max(part, 0));
        const y = onLimit.map((part) => Math.max(part, 0));
        const limits = matrix.map((row, index) => ({
          coefficients: row.map((entry) => entry * scale),
          least:
            (row.reduce((sum, entry, place) => sum + entry * (x[place] as number), 0) +
              Math.min(onLimit[index] as number, 0)) *
            scale,
        }));
        const objective = onAmount.map(
          (part, place) =>
            matrix.reduce((sum, row, index) => sum + (row[place] as number) * (y[index] as number), 0) -
            Math.min(part, 0),
        );
        const programme: LinearProgramme = { direction: "least", objective, limits };
        const solution = solveLinearProgramme(programme);
        const best = objective.reduce((sum, entry, place) => sum + entry * (x[place] as number), 0);
        expect(solution.kind).toBe("optimal");
        expectWithinLimits(programme, solution);
        const size = objective.reduce((sum, entry, place) => sum + Math.abs(entry * (x[place] as number)), 1);
        expect(Math.abs((solution as { value: number }).value - best)).toBeLessThan(1e-12 * size);
      }),
      { numRuns: 1000, seed: 7 },
    );
  });
});

describe("programmes on which the plain simplex goes round in circles", () => {
  const atMost = (rows: number[][], bounds: number[]) =>
    rows.map((row, index) => limit(row, "at most", bounds[index] as number));

  test("Beale (1955): -1/20 in units of his objective", () => {
    const limits = atMost(
      [
        [0.25, -60, -1 / 25, 9],
        [0.5, -90, -1 / 50, 3],
        [0, 0, 1, 0],
      ],
      [0, 0, 1],
    );
    const solution = solveLinearProgramme({ direction: "least", objective: [-0.75, 150, -1 / 50, 6], limits });
    expect((solution as { value: number }).value).toBeCloseTo(-1 / 20, 12);
  });

  test("Chvátal (1983): 1", () => {
    const limits = atMost(
      [
        [0.5, -5.5, -2.5, 9],
        [0.5, -1.5, -0.5, 1],
        [1, 0, 0, 0],
      ],
      [0, 0, 1],
    );
    const solution = solveLinearProgramme({ direction: "most", objective: [10, -57, -9, -24], limits });
    expect((solution as { value: number }).value).toBeCloseTo(1, 12);
  });

  test("Kuhn: -2", () => {
    const limits = atMost(
      [
        [-2, -9, 1, 9],
        [1 / 3, 1, -1 / 3, -2],
        [2, 3, -1, -12],
      ],
      [0, 0, 2],
    );
    const solution = solveLinearProgramme({ direction: "least", objective: [-2, -3, 1, 12], limits });
    expect((solution as { value: number }).value).toBeCloseTo(-2, 12);
  });
});

describe("programmes at the edge", () => {
  test("without a limit nothing is least, and there is no most", () => {
    expect(solveLinearProgramme({ direction: "least", objective: [3, 0], limits: [] })).toEqual({
      ...{ kind: "optimal", amounts: [0, 0], value: 0 },
    });
    expect(solveLinearProgramme({ direction: "most", objective: [3, 0], limits: [] })).toEqual({ kind: "unbounded" });
  });

  test("limits that repeat each other, in large figures that do not foot to the last digit, can be met", () => {
    const third = 1e9 / 3;
    const limits = [
      { coefficients: [1, 1, 0], least: third, most: third },
      { coefficients: [3, 3, 0], least: 1e9, most: 1e9 },
      { coefficients: [0.1, 0.1, 0], least: 0.1 * third, most: 0.1 * third },
      { coefficients: [0, 1, 1], least: 2 * third, most: 2 * third },
      { coefficients: [1, 2, 1], least: 1e9, most: 1e9 },
    ];
    const solution = solveLinearProgramme({ direction: "most", objective: [0, 2, 1], limits });
    expect(solution.kind).toBe("optimal");
    // y + z is two thirds, and y at most the first third.
    expect((solution as { value: number }).value / (3 * third)).toBeCloseTo(1, 12);
  });

  test("but not if they differ by what is no rounding", () => {
    const limits = [
      { coefficients: [1, 1], least: 1000, most: 1000 },
      { coefficients: [1, 1], least: 1000.001, most: 1000.001 },
    ];
    expect(solveLinearProgramme({ direction: "least", objective: [1, 1], limits })).toEqual({ kind: "infeasible" });
  });

  test("a long stall of steps without gain ends: each amount at most the next, twice said, the last at most 1", () => {
    const amounts = 30;
    const chain = Array.from({ length: amounts - 1 }, (_, place) =>
      limit(
        Array.from({ length: amounts }, (__, index) => (index === place ? 1 : index === place + 1 ? -1 : 0)),
        "at most",
        0,
      ),
    );
    const last = limit(
      Array.from({ length: amounts }, (_, index) => (index === amounts - 1 ? 1 : 0)),
      "at most",
      1,
    );
    const objective = Array.from({ length: amounts }, (_, index) => (index % 3 === 0 ? 1 : 0));
    const solution = solveLinearProgramme({ direction: "most", objective, limits: [...chain, ...chain, last] });
    expect((solution as { value: number }).value).toBeCloseTo(10, 12);
  });
});

describe("the least-cost diet (Stigler 1945)", () => {
  const foods = readFileSync("tests/data/stigler_diet.csv", "utf8")
    .trim()
    .split("\n")
    .filter((line) => !line.startsWith("#"))
    .slice(1)
    .map((line) => (line.match(/"[^"]*"|[^,]+/g) as string[]).slice(3).map(Number));
  const daily = [3, 70, 0.8, 12, 5, 1.8, 2.7, 18, 75];
  const limits = daily.map((least, nutrient) => ({
    coefficients: foods.map((food) => food[nutrient] as number),
    least,
  }));

  test("costs 39.6617 dollars a year, of 77 foods", () => {
    expect(foods).toHaveLength(77);
    const solution = solveLinearProgramme({ direction: "least", objective: foods.map(() => 1), limits });
    expect(Math.abs((solution as { value: number }).value * 365 - 39.6617)).toBeLessThan(0.00005);
    expectWithinLimits({ direction: "least", objective: [], limits }, solution);
  });
});

describe("the steps of the simplex", () => {
  test("the column that lowers the costs most comes in, the first of equals; by Bland's rule the first that lowers them", () => {
    expect(enteringColumn([-1, -3, 2, -3, -9], 4, false)).toBe(1);
    expect(enteringColumn([-1, -3, 2, -3, -9], 5, false)).toBe(4);
    expect(enteringColumn([0, -1, -3], 3, true)).toBe(1);
    expect(enteringColumn([0, 5, -1e-11], 3, false)).toBe(-1);
    expect(enteringColumn([0, 5, -1e-11], 3, true)).toBe(-1);
    expect(enteringColumn([0, 5, -1], 2, false)).toBe(-1);
  });

  test("the row that reaches 0 first goes out; of equals that of the largest divisor, or by Bland's rule the first column", () => {
    const [basis, tenth] = [[7, 5, 6], 0.1 * 3e9];
    // prettier-ignore
    const leaves: [wanted: number, rows: number[][], basis: number[], bland?: boolean][] = [
      [1, [[1, 4], [1, 3], [1, 5]], basis],
      [1, [[2, 4], [4, 3], [-1, 5]], basis],
      // 2, 2 and 2: the safest divisor wherever it stands.
      [1, [[1, 2], [3, 6], [2, 4]], basis],
      [0, [[3, 6], [1, 2], [2, 4]], basis],
      [0, [[3, 6], [3, 6], [3, 6]], basis],
      [1, [[1, 2], [3, 6], [2, 4]], basis, true],
      [0, [[1, 2], [3, 6], [2, 4]], [5, 7, 6], true],
      [2, [[1, 2], [3, 6], [2, 4]], [7, 6, 5], true],
      // Large figures differ in their last digits and are still equal; small ones that differ are not.
      [1, [[1, tenth], [2, 0.3 * 2e9], [1, 1e12]], basis],
      [0, [[1, 1e-9], [2, 2.2e-9], [1, 1]], basis],
      [1, [[1, 1.1e-9], [2, 2e-9], [1, 1]], basis],
      // At 0 already, and a divisor that is just negligible.
      [1, [[1, 0], [4, 0], [2, 0]], basis],
      [-1, [[1e-10, 0], [-2, 3], [0, 1]], basis],
      // What is below 0 by rounding is 0; what does not grow, or by next to nothing, never gets there.
      [1, [[1, 1e-15], [4, -1e-9], [1, 1]], basis],
      [-1, [[1e-11, 0], [-2, 3], [0, 1]], basis],
      [2, [[1e-11, 0], [-2, 3], [1, 1]], basis],
    ];
    for (const [wanted, given, columns, bland = false] of leaves)
      expect(leavingRow(given, columns, 0, bland), JSON.stringify([given, columns, bland])).toBe(wanted);
  });

  test("a slack holds the bound of its row where it need not be below 0", () => {
    for (const [bound, slack, starts] of [
      [1, 1, true],
      [0, 1, true],
      [-1, 1, false],
      [1, -1, false],
      [0, -1, true],
      [-1, -1, true],
      [1, 0, false],
      [0, 0, false],
      [-1, 0, false],
    ] as const) {
      expect(startsOnSlack(bound, slack)).toBe(starts);
    }
  });

  test("limits in small figures that differ by what is no rounding cannot be met together", () => {
    const limits = [0.001, 0.00100000005].map((sum) => ({ coefficients: [1, 1], least: sum, most: sum }));
    expect(solveLinearProgramme({ direction: "least", objective: [1, 1], limits })).toEqual({ kind: "infeasible" });
  });
});

test("a programme that should have an answer gives its amounts, or says of what it has none", () => {
  const settled = (least: number, most: number) =>
    settledAmounts("the plan", { direction: "most", objective: [2], limits: [{ coefficients: [1], least, most }] });
  expect(settled(1, 3)).toEqual([3]);
  expect(() => settled(3, 1)).toThrow("the plan is beyond settling; check for figures of very unlike size");
});

test("amounts that break a limit of figures of very unlike size are no answer", () => {
  const wild: LinearProgramme[] = [
    {
      direction: "least",
      objective: [0, 0.03686080907238647],
      limits: [
        { coefficients: [0, 0.0000055412034473847595], least: 41940058.87256935 },
        { coefficients: [32151.7772693187, 0.0003395819665631279], least: 684221152.6352912 },
      ],
    },
    // Nothing but positive parts cannot come to less than 0.
    {
      direction: "least",
      objective: [-0.0003734362913761288, 0],
      limits: [
        { coefficients: [0.006790327788796276, 9780386.561760679], most: -0.05490927377715707 },
        { coefficients: [-0.000005834142086794599, 0], most: 27.59487017756328 },
      ],
    },
  ];
  for (const programme of wild) {
    expect(solveLinearProgramme(programme)).toEqual({ kind: "unsettled" });
    expect(() => settledAmounts("the plan", programme)).toThrow("the plan is beyond settling");
  }
});
