import { impossible } from "../refusal";

/** A limit on a weighted sum of the amounts: least <= Σ coefficient × amount <= most. */
export interface Limit {
  readonly coefficients: readonly number[];
  readonly least?: number | undefined;
  readonly most?: number | undefined;
}

/** Amounts of 0 or more that make a weighted sum as small or as large as the limits let it be. */
export interface LinearProgramme {
  readonly direction: "least" | "most";
  readonly objective: readonly number[];
  readonly limits: readonly Limit[];
}

export type Solution =
  | { readonly kind: "optimal"; readonly amounts: number[]; readonly value: number }
  | { readonly kind: "infeasible" }
  | { readonly kind: "unbounded" }
  /** Figures of very unlike size led to amounts that break a limit. */
  | { readonly kind: "unsettled" };

const SIGNS = { least: 1, most: -1 } as const;
/** Smaller than this, in scaled figures of about 1, is the rounding of a sum. */
const NEGLIGIBLE = 1e-10;
/** What a limit may be missed by, relative to the largest of the scaled figures. */
const MISSED = 1e-7;
/** Steps without gain after which Bland's rule takes over: it is slower but cannot go round in circles. */
const PATIENCE = 12;
const MOST_STEPS = 50000;

/** One row of the tableau: coefficients of every column, then the right-hand side. */
type Row = number[];

interface Tableau {
  readonly rows: Row[];
  /** The column whose amount each row gives. */
  readonly basis: number[];
  /** Columns up to here are amounts and slacks; those after are artificial and end at 0. */
  readonly columns: number;
  /** How long the rows are. */
  readonly width: number;
  /** By how much each amount was scaled, a power of two, so that scaling rounds nothing. */
  readonly scales: readonly number[];
}

/**
 * Two-phase simplex on a dense tableau. The same programme always gives the same answer: nothing depends on time or
 * chance, and Bland's rule ends every stall (R. G. Bland 1977), which the plain rule need not: Beale, Chvátal, Kuhn.
 */
export function solveLinearProgramme({ direction, objective, limits }: LinearProgramme): Solution {
  const { rows, basis, columns, width, scales } = scaledTableau(objective.length, limits);
  const stated = rows.map((row) => row.slice());

  // Phase 1: the artificial columns together as small as can be; 0 means that the limits can be met.
  const artificial = zeros(width);
  rows.forEach((row, index) => {
    if ((basis[index] as number) >= columns) row.forEach((entry, column) => ((artificial[column] as number) -= entry));
  });
  settle(rows, basis, artificial, columns);
  const largest = stated.reduce((most, row) => Math.max(most, row[width - 1] as number), 0);
  if (-(artificial[width - 1] as number) > NEGLIGIBLE * largest) return { kind: "infeasible" };
  releaseArtificial(rows, basis, columns);

  // Phase 2: the objective itself, as what one unit of each column would still change.
  const sign = SIGNS[direction];
  const scaled = objective.map((entry, index) => sign * entry * (scales[index] as number));
  const size = Math.max(...scaled.map(Math.abs), Number.MIN_VALUE);
  const costs = zeros(width);
  scaled.forEach((entry, index) => (costs[index] = entry / size));
  rows.forEach((row, index) => {
    const cost = costs[basis[index] as number] as number;
    row.forEach((entry, column) => ((costs[column] as number) -= cost * entry));
  });
  if (!settle(rows, basis, costs, columns)) return { kind: "unbounded" };

  const amounts = zeros(objective.length);
  const exact = basicAmounts(stated, basis).map((amount) => Math.max(0, amount));
  const room = MISSED * Math.max(largest, ...exact);
  const isKept = stated.every((row, place) => {
    const left = exact.reduce(
      (rest, amount, index) => rest - amount * (row[basis[index] as number] as number),
      row[width - 1] as number,
    );
    const outside = (basis[place] as number) < columns ? 0 : (exact[place] as number);
    return Math.abs(left) <= room && outside <= room;
  });
  if (!isKept) return { kind: "unsettled" };
  basis.forEach((column, index) => {
    if (column < amounts.length) amounts[column] = (exact[index] as number) * (scales[column] as number);
  });
  return {
    kind: "optimal",
    amounts,
    value: objective.reduce((sum, entry, i) => sum + entry * (amounts[i] as number), 0),
  };
}

/** The amounts of a programme that is made so that it has an answer: only figures of very unlike size can hide it. */
export function settledAmounts(subject: string, programme: LinearProgramme): number[] {
  const solution = solveLinearProgramme(programme);
  return solution.kind === "optimal" ? solution.amounts : beyondSettling(subject);
}

export function beyondSettling(subject: string): never {
  return impossible(subject, "beyond settling", "check for figures of very unlike size");
}

/** Limits as equations with slacks, every row and column brought to a largest entry near 1, right-hand sides >= 0. */
function scaledTableau(amounts: number, limits: readonly Limit[]): Tableau {
  const halves: { coefficients: readonly number[]; bound: number; slack: number }[] = [];
  for (const { coefficients, least = -Infinity, most = Infinity } of limits) {
    if (least === most) halves.push({ coefficients, bound: least, slack: 0 });
    else {
      if (most < Infinity) halves.push({ coefficients, bound: most, slack: 1 });
      if (least > -Infinity) halves.push({ coefficients, bound: least, slack: -1 });
    }
  }
  const down = halves.map(({ coefficients }) => powerOfTwoNear(Math.max(...coefficients.map(Math.abs))));
  const scales = zeros(amounts).map((_, column) => {
    const entries = halves.map(
      ({ coefficients }, row) => Math.abs(coefficients[column] as number) / (down[row] as number),
    );
    return 1 / powerOfTwoNear(Math.max(0, ...entries));
  });

  const columns = halves.reduce((count, { slack }) => count + Math.abs(slack), amounts);
  const width = columns + halves.filter(({ bound, slack }) => !startsOnSlack(bound, slack)).length + 1;
  const basis: number[] = [];
  let nextSlack = amounts;
  let nextArtificial = columns;
  const rows = halves.map(({ coefficients, bound, slack }, index) => {
    const row = zeros(width);
    const sign = bound < 0 || (bound === 0 && slack < 0) ? -1 : 1;
    const size = down[index] as number;
    coefficients.forEach((entry, column) => (row[column] = (sign * entry * (scales[column] as number)) / size));
    row[width - 1] = (sign * bound) / size;
    if (startsOnSlack(bound, slack)) basis[index] = nextSlack;
    else row[(basis[index] = nextArtificial++)] = 1;
    if (slack !== 0) row[nextSlack++] = sign === slack ? 1 : -1;
    return row;
  });
  return { rows, basis, columns, width, scales };
}

/** A row whose slack can hold its right-hand side needs no artificial column. */
export function startsOnSlack(bound: number, slack: number): boolean {
  return (slack > 0 && bound >= 0) || (slack < 0 && bound <= 0);
}

function powerOfTwoNear(size: number): number {
  return size > 0 ? 2 ** Math.round(Math.log2(size)) : 1;
}

function zeros(length: number): number[] {
  return new Array<number>(length).fill(0);
}

/** Exchanges columns until no column below `columns` lowers the costs; false when one does so without end. */
function settle(rows: Row[], basis: number[], costs: Row, columns: number): boolean {
  let stalled = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const bland = stalled > PATIENCE;
    const entering = enteringColumn(costs, columns, bland);
    if (entering < 0) return true;
    const leaving = leavingRow(rows, basis, entering, bland);
    if (leaving < 0) return false;
    const row = rows[leaving] as Row;
    stalled = (row[row.length - 1] as number) > NEGLIGIBLE ? 0 : stalled + 1;
    exchange([...rows, costs], leaving, entering);
    basis[leaving] = entering;
  }
  return impossible("the programme", `not settled after ${MOST_STEPS} steps`, "check for figures of very unlike size");
}

/** The column below `columns` that lowers the costs most, or Bland's choice, the first that does; -1 when none does. */
export function enteringColumn(costs: readonly number[], columns: number, bland: boolean): number {
  let entering = -1;
  let lowest = -NEGLIGIBLE;
  for (let column = 0; column < columns; column++) {
    if ((costs[column] as number) >= lowest) continue;
    entering = column;
    if (bland) break;
    lowest = costs[column] as number;
  }
  return entering;
}

/** The row that reaches 0 first as the entering column grows; of equals the safest divisor, or Bland's choice. */
export function leavingRow(rows: readonly Row[], basis: readonly number[], entering: number, bland: boolean): number {
  let leaving = -1;
  let first = Infinity;
  rows.forEach((row, index) => {
    const divisor = row[entering] as number;
    if (divisor <= NEGLIGIBLE) return;
    const reached = Math.max(0, row[row.length - 1] as number) / divisor;
    const tie = leaving >= 0 && Math.abs(reached - first) <= 1e-14 * Math.max(reached, first);
    const better = tie
      ? bland
        ? (basis[index] as number) < (basis[leaving] as number)
        : divisor > ((rows[leaving] as Row)[entering] as number)
      : reached < first;
    if (better) {
      leaving = index;
      first = reached;
    }
  });
  return leaving;
}

/** Solves the row for the entering column and takes that column out of all others, which leaves just 0 of it there. */
function exchange(rows: readonly Row[], leaving: number, entering: number): void {
  const pivotRow = rows[leaving] as Row;
  const divisor = pivotRow[entering] as number;
  for (let column = 0; column < pivotRow.length; column++) (pivotRow[column] as number) /= divisor;
  for (const row of rows) {
    const factor = row[entering] as number;
    if (row === pivotRow || factor === 0) continue;
    for (let column = 0; column < row.length; column++)
      (row[column] as number) -= factor * (pivotRow[column] as number);
  }
}

/** Puts artificial columns that rest at 0 out of the basis; in a row that says nothing new one stays, at 0 for good. */
function releaseArtificial(rows: readonly Row[], basis: number[], columns: number): void {
  rows.forEach((row, index) => {
    if ((basis[index] as number) < columns) return;
    let entering = -1;
    let safest = NEGLIGIBLE;
    for (let column = 0; column < columns; column++) {
      if (Math.abs(row[column] as number) <= safest) continue;
      entering = column;
      safest = Math.abs(row[column] as number);
    }
    if (entering < 0) return;
    exchange(rows, index, entering);
    basis[index] = entering;
  });
}

/** The amounts of the basis worked out afresh from the stated rows, so that the steps leave no rounding behind. */
function basicAmounts(stated: readonly Row[], basis: readonly number[]): number[] {
  const work = stated.map((row) => [...basis.map((column) => row[column] as number), row[row.length - 1] as number]);
  const size = basis.length;
  for (let step = 0; step < size; step++) {
    let safest = step;
    for (let index = step + 1; index < size; index++) {
      if (Math.abs((work[index] as Row)[step] as number) > Math.abs((work[safest] as Row)[step] as number))
        safest = index;
    }
    [work[step], work[safest]] = [work[safest] as Row, work[step] as Row];
    const pivotRow = work[step] as Row;
    for (let index = 0; index < size; index++) {
      const row = work[index] as Row;
      const factor = index === step ? 0 : (row[step] as number) / (pivotRow[step] as number);
      if (factor !== 0)
        for (let column = step; column <= size; column++)
          (row[column] as number) -= factor * (pivotRow[column] as number);
    }
  }
  return work.map((row, index) => (row[size] as number) / (row[index] as number));
}
