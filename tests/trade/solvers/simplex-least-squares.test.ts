import fc from "fast-check";
import { solveQP } from "quadprog";
import { describe, expect, test, vi } from "vitest";
import { objectiveOf, SimplexLeastSquares } from "../../../src/trade/solvers/simplex-least-squares";
import { TEXTILES } from "../../support/measured-textiles";
import { cases } from "../../support/random-cases";
import {
  packageTermsOf,
  shareProblem,
  sharesByPackage,
  sharesBySolver,
  type Problem,
} from "../../support/quadratic-programme";

/** Numbers from a seed, so that a failure can be met again. */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function randomProblem(seed: number): Problem {
  const random = randomNumbers(seed);
  const rows = 3 + Math.floor(random() * 29);
  const size = 1 + Math.floor(random() * Math.min(rows, 12));
  const scale = 10 ** (4 * random() - 2);
  const vector = (): number[] => Array.from({ length: rows }, () => scale * (random() - (seed % 3 === 0 ? 0 : 0.5)));
  return {
    columns: Array.from({ length: size }, vector),
    target: vector(),
    least: seed % 4 === 0 ? (random() * 0.9) / size : 0,
  };
}

function squares({ columns, target }: Problem, shares: readonly number[]): number {
  return target.reduce((sum, value, row) => {
    const mixed = shares.reduce((total, share, index) => total + share * columns[index]![row]!, 0);
    return sum + (mixed - value) ** 2;
  }, 0);
}

describe("least squares over shares", () => {
  test("random problems: never worse than a general package, optimal by its own certificate", () => {
    let compared = 0;
    for (let seed = 1; seed <= cases(1000); seed++) {
      const problem = randomProblem(seed);
      const { shares, kktResidual } = sharesBySolver(problem);
      const ours = squares(problem, shares);
      const theirs = squares(problem, sharesByPackage(problem));
      expect(ours, `problem ${seed}`).toBeLessThanOrEqual(theirs * (1 + 1e-9));
      expect(kktResidual, `problem ${seed}`).toBeLessThan(1e-14);
      expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...shares)).toBeGreaterThanOrEqual(problem.least);
      compared++;
    }
    expect(compared).toBe(cases(1000));
  });
  test("problems in which shares come and go on the way, of columns nearly alike and of measured shades", () => {
    const all = [...TEXTILES.values()];
    for (let seed = 1; seed <= cases(3000); seed++) {
      const random = randomNumbers(seed);
      const size = 3 + Math.floor(random() * 9);
      const rows = 3 + Math.floor(random() * 10);
      const common = Array.from({ length: rows }, () => random() - 0.5);
      const apart = [1, 1e-2, 1e-5][seed % 3] as number;
      const near = () => common.map((value) => 3 * value + apart * (random() - 0.5));
      const shade = () => all[Math.floor(random() * all.length)]!;
      const draw = seed % 2 === 0 ? near : shade;
      const columns = Array.from({ length: size }, draw);
      const problem = { columns, target: draw(), least: seed % 5 === 0 ? (random() * 0.9) / size : 0 };
      const { shares, kktResidual } = sharesBySolver(problem);
      expect(kktResidual, `problem ${seed}`).toBeLessThan(1e-14);
      expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-14);
      expect(Math.min(...shares)).toBeGreaterThanOrEqual(problem.least);
    }
  });
  test("with a linear term: the objective returned is that of the answer, and no worse than a general package's", () => {
    for (let seed = 1; seed <= cases(500); seed++) {
      const { columns, least } = randomProblem(seed);
      const size = columns.length;
      const random = randomNumbers(seed + 7);
      const dot = (a: readonly number[], b: readonly number[]) =>
        a.reduce((sum, value, row) => sum + value * b[row]!, 0);
      const gram = columns.map((a, i) => columns.map((b, j) => dot(a, b) + (i === j ? 0.1 * dot(a, a) : 0)));
      const linear = columns.map((a) => dot(a, a) * (random() - 0.3));
      const set = { gram: Float64Array.from(gram.flat()), linear: Float64Array.from(linear), size, least };
      const found = new SimplexLeastSquares(size).solve(set);
      const value = objectiveOf(set, found);
      const objective = (shares: readonly number[]) =>
        shares.reduce((sum, share, i) => sum + share * (dot(gram[i]!, shares) / 2 - linear[i]!), 0);
      const scale = Math.max(...gram.flat().map(Math.abs), ...linear.map(Math.abs));
      expect(Math.abs(value - objective(Array.from(found)))).toBeLessThan(1e-13 * scale);
      const [, , constraints, bounds, equations] = packageTermsOf({ columns, target: columns[0]!, least });
      const fromOne = <T>(values: T[]): T[] => [undefined as T, ...values];
      const { solution } = solveQP(
        fromOne(gram.map((row) => fromOne(row))),
        fromOne(linear),
        constraints,
        bounds,
        equations,
      );
      expect(value, `problem ${seed}`).toBeLessThanOrEqual(objective(solution.slice(1)) + 1e-11 * scale);
    }
  });
  test("nothing outlives a problem: a solver with room for more, used for others before, answers as a new one does", () => {
    const used = new SimplexLeastSquares(16);
    const random = randomNumbers(16);
    for (let seed = 1; seed <= 600; seed++) {
      const set = shareProblem(randomProblem(seed));
      const linear =
        seed % 3 === 0 ? Float64Array.from({ length: set.size }, () => set.gram[0]! * (random() - 0.5)) : undefined;
      const problem = { ...set, linear };
      expect(Array.from(used.solve(problem)), `problem ${seed}`).toEqual(
        Array.from(new SimplexLeastSquares(set.size).solve(problem)),
      );
    }
  });
  test("from the best single share it takes hardly more than one step for each that comes in", () => {
    const steps = vi.spyOn(SimplexLeastSquares.prototype as unknown as { stepOnFree: () => void }, "stepOnFree");
    const asked = vi.spyOn(SimplexLeastSquares.prototype as unknown as { entering: () => number }, "entering");
    let [used, problems] = [0, 0];
    for (let seed = 1; seed <= 400; seed++) {
      const set = shareProblem(randomProblem(seed));
      const shares = new SimplexLeastSquares(set.size).solve(set);
      used += shares.filter((share) => share > set.least + 1e-12).length;
      problems++;
    }
    const [stepped, entered] = [steps.mock.calls.length, asked.mock.calls.length];
    steps.mockRestore();
    asked.mockRestore();
    expect(stepped).toBeLessThanOrEqual(1.06 * (used - problems));
    // Each that comes in, and once more to see that none does.
    expect(entered).toBeLessThanOrEqual(1.03 * used);
  });
  test("where one share has all that is left over it is started from, and no step is taken", () => {
    const steps = vi.spyOn(SimplexLeastSquares.prototype as unknown as { stepOnFree: () => void }, "stepOnFree");
    for (let seed = 1; seed <= 100; seed++) {
      const random = randomNumbers(seed);
      const size = 2 + (seed % 7);
      const columns = Array.from({ length: size }, () => Array.from({ length: 12 }, () => random() - 0.4));
      const least = seed % 3 === 0 ? 0 : (0.95 * random()) / size;
      const wanted = columns.map((_, index) => (index === seed % size ? 1 - (size - 1) * least : least));
      const target = columns[0]!.map((_, row) =>
        columns.reduce((sum, column, index) => sum + wanted[index]! * column[row]!, 0),
      );
      const dot = (a: readonly number[], b: readonly number[]) =>
        a.reduce((sum, value, row) => sum + value * b[row]!, 0);
      const gram = Float64Array.from(columns.flatMap((a) => columns.map((b) => dot(a, b))));
      const linear = Float64Array.from(columns, (column) => dot(column, target));
      const shares = new SimplexLeastSquares(size).solve({ gram, linear, size, least });
      wanted.forEach((share, index) => expect(Math.abs(shares[index]! - share)).toBeLessThan(1e-12));
    }
    const asked = vi.spyOn(SimplexLeastSquares.prototype as unknown as { entering: () => number }, "entering");
    // Where all is asked for at the least, nothing is left over.
    const whole = { ...shareProblem(randomProblem(3)), least: 0 };
    const shares = new SimplexLeastSquares(whole.size).solve({ ...whole, least: 1 / whole.size });
    const [stepped, entered] = [steps.mock.calls.length, asked.mock.calls.length];
    steps.mockRestore();
    asked.mockRestore();
    expect([stepped, entered]).toEqual([0, 0]);
    expect(Array.from(shares)).toEqual(new Array(whole.size).fill(1 / whole.size));
  });
  test("two columns: where the line between them comes nearest, or the nearer end, by hand", () => {
    // |x·a + (1-x)·b - t|² is least at x = (t-b)·(a-b) / |a-b|².
    for (let seed = 1; seed <= 300; seed++) {
      const random = randomNumbers(seed);
      const [a, b, t] = [0, 1, 2].map(() => Array.from({ length: 3 }, () => random() - 0.5)) as [number[], number[], number[]]; // prettier-ignore
      const least = seed % 2 === 0 ? 0.4 * random() : 0;
      const across = a.map((value, row) => value - b[row]!);
      const along = t.reduce((sum, value, row) => sum + (value - b[row]!) * across[row]!, 0);
      const nearest = along / across.reduce((sum, value) => sum + value * value, 0);
      const wanted = Math.min(1 - least, Math.max(least, nearest));
      const { shares } = sharesBySolver({ columns: [a, b], target: t, least });
      expect(Math.abs(shares[0]! - wanted), `problem ${seed}`).toBeLessThan(1e-13);
      expect(Math.abs(shares[1]! - (1 - wanted)), `problem ${seed}`).toBeLessThan(1e-13);
    }
  });
  test("the certificate is true: equal slopes on the used shares, none smaller elsewhere", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2000, max: 9000 }), (seed) => {
        const problem = randomProblem(seed);
        const { shares } = sharesBySolver(problem);
        const residual = problem.target.map(
          (value, row) => shares.reduce((sum, share, index) => sum + share * problem.columns[index]![row]!, 0) - value,
        );
        const slopes = problem.columns.map((column) =>
          column.reduce((sum, value, row) => sum + value * residual[row]!, 0),
        );
        const size = Math.max(...problem.columns.map((column) => column.reduce((sum, value) => sum + value ** 2, 0)));
        const lowest = Math.min(...slopes);
        shares.forEach((share, index) => {
          if (share > problem.least + 1e-9) expect(slopes[index]! - lowest).toBeLessThan(1e-9 * size);
        });
      }),
    );
  });
  test("more solids than bands, and solids that are alike, still give shares that sum to 1", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = randomNumbers(seed);
      const vector = (): number[] => Array.from({ length: 4 }, random);
      const columns = Array.from({ length: 9 }, vector);
      const twins = [...columns, columns[0]!, columns[3]!];
      const weights = twins.map(() => random());
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const target = columns[0]!.map((_, row) =>
        twins.reduce((sum, column, index) => sum + (weights[index]! / total) * column[row]!, 0),
      );
      const { shares } = sharesBySolver({ columns: twins, target, least: 0 });
      expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-12);
      expect(squares({ columns: twins, target, least: 0 }, shares)).toBeLessThan(1e-9);
    }
  });
});
