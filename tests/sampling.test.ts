import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { figuresOf, percentileOf } from "../src/recalculate/figures";
import { histogramOf } from "../src/recalculate/histogram";
import { blockOf, blocksIn, planFor, sharesOf, xoshiro } from "../src/recalculate/sampling";
import { normalAt, valueAt, type Shape } from "../src/recalculate/shapes";
import { drawn, normal } from "./support/drawn";

const share = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });

describe("shapes", () => {
  test.each([
    // The check values that the algorithm was published with: Wichura, Applied Statistics 37 (1988).
    [0.25, -0.6744897501960817],
    [0.001, -3.090232306167814],
    [1e-20, -9.262340089798408],
    // 5 and 97.5 %: Owen, Handbook of Statistical Tables, 1962.
    [0.05, -1.6448536269514722],
    [0.975, 1.959963984540054],
  ])("%f of a normal lies below %f", (below, value) => {
    expect(Math.abs(normalAt(below) / value - 1)).toBeLessThan(5e-16);
  });

  test("a normal has 5 % below its low and 5 % above its high, and is even about the middle", () => {
    const shape = { kind: "normal", low: 3, high: 5 } as const;
    expect(valueAt(shape, 0.05)).toBeCloseTo(3, 14);
    expect(valueAt(shape, 0.95)).toBeCloseTo(5, 14);
    fc.assert(fc.property(share, (one) => Math.abs(valueAt(shape, one) + valueAt(shape, 1 - one) - 8) < 1e-6));
  });

  test("the share of a triangle below a value is the area of the triangle up to it", () => {
    const corner = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, corner, (one, likely) => {
        const x = valueAt({ kind: "triangle", low: 0, likely, high: 1 }, one);
        // N. L. Johnson, S. Kotz: the two parts of the distribution function.
        const below = x < likely ? (x * x) / likely : 1 - (1 - x) ** 2 / (1 - likely);
        expect(below).toBeCloseTo(one, 7);
      }),
    );
    expect(valueAt({ kind: "triangle", low: 2, likely: 2, high: 2 }, 0.3)).toBe(2);
  });

  test("a list has each of its values in as many of equal shares", () => {
    const shape: Shape = { kind: "list", values: [4, 7, 9] };
    const found = Array.from({ length: 300 }, (_, index) => valueAt(shape, (index + 0.5) / 300));
    for (const value of shape.values) expect(found.filter((one) => one === value)).toHaveLength(100);
  });
});

describe("drawing", () => {
  test("the numbers are those that the generator's authors give for the state 1, 2, 3, 4", () => {
    const next = xoshiro(1, 2, 3, 4);
    // The first outputs of the reference program in C.
    expect(Array.from({ length: 4 }, next)).toEqual([11520, 0, 5927040, 70819200]);
  });

  test("in every block each input falls once into each equal share of its range", () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 700 }), fc.nat(), (runs, seed) => {
        const plan = planFor(runs, seed);
        let total = 0;
        for (const block of blocksIn(plan)) {
          const shares = sharesOf(plan, block, 3);
          total += shares.length;
          for (let input = 0; input < 3; input++) {
            const places = shares.map((one) => Math.floor((one[input] as number) * shares.length));
            expect(places.sort((a, b) => a - b)).toEqual(places.map((_, index) => index));
          }
        }
        expect(total).toBe(runs);
      }),
    );
  });

  test("inputs and seeds have orders of their own, and one more input changes nothing of the others", () => {
    const plan = planFor(500, 1);
    const [three, two] = [sharesOf(plan, 4, 3), sharesOf(plan, 4, 2)];
    expect(three.map((shares) => shares.slice(0, 2))).toEqual(two);
    expect(three.map(([one]) => one)).not.toEqual(three.map(([, other]) => other));
    expect(sharesOf(planFor(500, 2), 4, 2)).not.toEqual(two);
    expect(sharesOf(planFor(500, 1 + 2 ** 32), 4, 2)).not.toEqual(two);
  });

  test("an input that moves with another has the same share of its own range", () => {
    const inputs = [
      { shape: { kind: "even", low: 0, high: 1 }, follows: 0 },
      { shape: { kind: "even", low: 10, high: 30 }, follows: 0 },
    ] as const;
    for (const [one, other] of blockOf(planFor(100, 1), 0, inputs)) expect(other).toBe(10 + (one as number) * 20);
  });
});

describe("figures against closed forms", () => {
  /** Within four standard errors, which chance passes once in sixteen thousand, and the standard error is small. */
  function near(figure: { value: number; error: number }, truth: number, most: number): void {
    expect(figure.error).toBeLessThan(most);
    expect(Math.abs(figure.value - truth)).toBeLessThan(4 * figure.error + 1e-9);
  }

  test("a sum of normals is normal, its variance the sum of theirs, its parts theirs", () => {
    const { figures } = drawn([normal(10, 3), normal(20, 4)], (a, b) => a + b, 2000, 1);
    near(figures.mean, 30, 0.02);
    near(figures.deviation, 5, 0.15);
    near(figures.percentiles.get(5) as never, 30 - 5 * 1.6448536269514722, 0.3);
    near(figures.percentiles.get(95) as never, 30 + 5 * 1.6448536269514722, 0.3);
    near(figures.percentiles.get(50) as never, 30, 0.3);
    const [three, four] = figures.parts;
    near(three as never, 9 / 25, 0.02);
    near(four as never, 16 / 25, 0.02);
  });

  test("a product of independent normals has the variance of L. A. Goodman (1960), its parts leave what they do together", () => {
    // Var(XY) = mx² sy² + my² sx² + sx² sy².
    const { figures } = drawn([normal(3, 1), normal(2, 1)], (x, y) => x * y, 4000, 3);
    const variance = 9 + 4 + 1;
    near(figures.mean, 6, 0.06);
    near(figures.deviation, Math.sqrt(variance), 0.1);
    near(figures.parts[0] as never, 4 / variance, 0.03);
    near(figures.parts[1] as never, 9 / variance, 0.03);
  });

  test("a quotient spreads as the propagation rule of NIST says, where the deviations are small", () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 2.5.5.3: (s/y)² = (sx/x)² + (sz/z)².
    const { figures } = drawn([normal(8, 0.04), normal(2, 0.01)], (x, z) => x / z, 2000, 1);
    const deviation = 4 * Math.sqrt((0.04 / 8) ** 2 + (0.01 / 2) ** 2);
    expect(Math.abs(figures.deviation.value / deviation - 1)).toBeLessThan(0.05);
    near(figures.mean, 4 * (1 + (0.01 / 2) ** 2), 1e-3);
    for (const part of figures.parts) near(part, 0.5, 0.02);
  });

  test.each([1, 2, 3, 4, 5])("the parts of Ishigami's function are found, seed %i", (seed) => {
    // T. Ishigami, T. Homma (1990), a = 7, b = 0.1: V1 = ½(1 + bπ⁴/5)², V2 = a²/8, V3 = 0, V13 = b²π⁸(1/18 − 1/50).
    const [a, b] = [7, 0.1];
    const first = 0.5 * (1 + (b * Math.PI ** 4) / 5) ** 2;
    const second = a ** 2 / 8;
    const total = first + second + b ** 2 * Math.PI ** 8 * (1 / 18 - 1 / 50);
    const even: Shape = { kind: "even", low: -Math.PI, high: Math.PI };
    const { figures } = drawn(
      [even, even, even],
      (x, y, z) => Math.sin(x) + a * Math.sin(y) ** 2 + b * z ** 4 * Math.sin(x),
      3000,
      seed,
    );
    near(figures.mean, a / 2, 0.06);
    near(figures.parts[0] as never, first / total, 0.02);
    near(figures.parts[1] as never, second / total, 0.02);
    near(figures.parts[2] as never, 0, 0.01);
  });

  test("the standard error of the mean is the spread of the mean over seeds", () => {
    const shapes = [normal(3, 1), normal(2, 1)];
    const found = Array.from({ length: 60 }, (_, seed) => drawn(shapes, (x, y) => x * y, 500, seed).figures.mean);
    const middle = found.reduce((sum, { value }) => sum + value, 0) / found.length;
    const spread = Math.sqrt(found.reduce((sum, { value }) => sum + (value - middle) ** 2, 0) / (found.length - 1));
    const told = found.reduce((sum, { error }) => sum + error, 0) / found.length;
    // Sixty seeds know their spread to a tenth.
    expect(Math.abs(told / spread - 1)).toBeLessThan(0.35);
    // A random sample of the same size would have √(14/500).
    expect(spread).toBeLessThan(0.6 * Math.sqrt(14 / 500));
  });

  test("an outcome that never changes has no spread and no parts", () => {
    const { figures } = drawn([normal(1, 1)], () => 5, 100, 1);
    expect(figures.mean).toEqual({ value: 5, error: 0 });
    expect(figures.parts).toMatchObject([{ value: 0, error: 0, low: 5, high: 5 }]);
  });

  test("an input that does not move has no part", () => {
    const { figures } = drawn([normal(1, 1), { kind: "even", low: 2, high: 2 }], (x, y) => x + y, 200, 1);
    expect(figures.parts[1]).toMatchObject({ value: 0, error: 0 });
    expect(figures.parts[0]?.value).toBeCloseTo(1, 9);
  });

  test("the chance of a limit is how often it is kept", () => {
    const { runs } = drawn([{ kind: "even", low: 0, high: 1 }], (x) => x, 1000, 1);
    const chance = (relation: "<" | ">=") =>
      figuresOf(runs, [0], [{ relation, value: 0.3 }]).chances[0]?.value as number;
    expect(chance("<")).toBeCloseTo(0.3, 2);
    expect(chance("<") + chance(">=")).toBeCloseTo(1, 12);
  });

  test("percentiles are those of PERCENTILE.INC", () => {
    // Microsoft's example: PERCENTILE.INC({1;3;2;4},0.3) is 1.9.
    expect(percentileOf([1, 2, 3, 4], 0.3)).toBeCloseTo(1.9, 12);
  });

  test("a histogram holds every value once, in few equal steps", () => {
    const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.array(number, { minLength: 1, maxLength: 300 }), (values) => {
        const bins = histogramOf(values);
        expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(values.length);
        expect(bins.length).toBeLessThanOrEqual(26);
      }),
    );
  });
});
