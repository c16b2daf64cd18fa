import { solveQP } from "quadprog";

/** Least squares over shares: the blend of the columns nearest to the target, every share at least `least`. */
export interface Problem {
  readonly columns: readonly (readonly number[])[];
  readonly target: readonly number[];
  readonly least: number;
}

/** The same problem by a general package for quadratic programmes. */
export function sharesByPackage({ columns, target, least }: Problem): number[] {
  const size = columns.length;
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, row) => sum + value * b[row]!, 0);
  const fromOne = <T>(values: T[]): T[] => [undefined as T, ...values];
  const matrix = fromOne(columns.map((a) => fromOne(columns.map((b) => dot(a, b)))));
  const linear = fromOne(columns.map((a) => dot(a, target)));
  const constraints = fromOne(
    columns.map((_, row) => fromOne([1, ...columns.map((__, column) => (row === column ? 1 : 0))])),
  );
  const { solution, message } = solveQP(matrix, linear, constraints, fromOne([1, ...new Array(size).fill(least)]), 1);
  if (message !== "") throw new Error(message);
  return solution.slice(1);
}
