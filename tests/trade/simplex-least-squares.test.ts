import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sharesByPackage, sharesBySolver, type Problem } from "../support/quadratic-programme";

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
  test("1,000 random problems: never worse than a general package, optimal by its own certificate", () => {
    let compared = 0;
    for (let seed = 1; seed <= 1000; seed++) {
      const problem = randomProblem(seed);
      const { shares, kktResidual } = sharesBySolver(problem);
      const ours = squares(problem, shares);
      const theirs = squares(problem, sharesByPackage(problem));
      expect(ours, `problem ${seed}`).toBeLessThanOrEqual(theirs * (1 + 1e-9));
      expect(kktResidual, `problem ${seed}`).toBeLessThan(1e-10);
      expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...shares)).toBeGreaterThanOrEqual(problem.least);
      compared++;
    }
    expect(compared).toBe(1000);
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
