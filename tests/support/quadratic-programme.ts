import { solveQP } from "quadprog";
import { SimplexLeastSquares, type ShareProblem } from "../../src/trade/solvers/simplex-least-squares";

/** Least squares over shares: the blend of the columns nearest to the target, every share at least `least`. */
export interface Problem {
  readonly columns: readonly (readonly number[])[];
  readonly target: readonly number[];
  readonly least: number;
}

/** More columns than equations leave the shares open; this little weight on evenness settles them. */
const RIDGE = 1e-10;

/** The problem as our solver takes it. */
export function shareProblem({ columns, target, least }: Problem): ShareProblem {
  const size = columns.length;
  const rows = target.length;
  const gram = new Float64Array(size * size);
  // Measured from the target, because the sum is 1: then nothing is left of the large common part.
  const offsets = columns.map((column) => column.map((value, row) => value - target[row]!));
  let largest = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let product = 0;
      for (let row = 0; row < rows; row++) product += offsets[i]![row]! * offsets[j]![row]!;
      gram[i * size + j] = gram[j * size + i] = product;
    }
    largest = Math.max(largest, gram[i * size + i]!);
  }
  if (size > rows) for (let i = 0; i < size; i++) gram[i * size + i]! += RIDGE * largest;
  return { gram, size, least };
}

/** The shares, and how far they are from optimal relative to the size of the problem: its KKT residual, 0 if perfect. */
export function sharesBySolver(problem: Problem): { shares: number[]; kktResidual: number } {
  const set = shareProblem(problem);
  const { gram, size } = set;
  const shares = Array.from(new SimplexLeastSquares(size).solve(set));
  const slopes = shares.map((_, i) => shares.reduce((sum, share, j) => sum + gram[i * size + j]! * share, 0));
  const free = slopes.filter((_, i) => shares[i]! > problem.least);
  const level = free.length > 0 ? Math.max(...free) : Math.min(...slopes);
  const scale = Math.max(...gram);
  return { shares, kktResidual: scale === 0 ? 0 : (level - Math.min(...slopes)) / scale };
}

/** The same problem as a general package wants it: counted from 1, with the sum as its one equation. */
export function packageTermsOf({ columns, target, least }: Problem): Parameters<typeof solveQP> {
  const size = columns.length;
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, row) => sum + value * b[row]!, 0);
  const fromOne = <T>(values: T[]): T[] => [undefined as T, ...values];
  const matrix = fromOne(columns.map((a) => fromOne(columns.map((b) => dot(a, b)))));
  const linear = fromOne(columns.map((a) => dot(a, target)));
  const constraints = fromOne(
    columns.map((_, row) => fromOne([1, ...columns.map((__, column) => (row === column ? 1 : 0))])),
  );
  return [matrix, linear, constraints, fromOne([1, ...new Array<number>(size).fill(least)]), 1];
}

/** The shares by a general package for quadratic programmes. */
export function sharesByPackage(problem: Problem): number[] {
  const { solution, message } = solveQP(...packageTermsOf(problem));
  if (message !== "") throw new Error(message);
  return solution.slice(1);
}
