import type { ShadeObjective } from "./shade-objective";
import { SimplexSolver } from "../solvers/simplex-least-squares";
import { BANDS } from "./spectra";

/** Shares, and how far their blend is from the target. */
export interface Guess {
  readonly shares: Float64Array;
  readonly error: number;
}

/** A recipe in the making: the places of the solids it uses as well. */
export interface Candidate extends Guess {
  readonly used: readonly number[];
}

const MOST_ROUNDS = 40;
const MOST_HALVINGS = 14;
/** An objective below this is a match to the last digit. */
const PERFECT = 1e-20;

export function mixed(columns: readonly Float64Array[], shares: Float64Array, into: Float64Array): Float64Array {
  into.fill(0);
  for (let index = 0; index < columns.length; index++) {
    const share = shares[index]!;
    const column = columns[index]!;
    if (share !== 0) for (let band = 0; band < BANDS; band++) into[band]! += share * column[band]!;
  }
  return into;
}

export function errorOf(objective: ShadeObjective, columns: readonly Float64Array[], shares: Float64Array): number {
  return objective.measure(mixed(columns, shares, new Float64Array(BANDS)));
}

/**
 * To the smallest true colour difference from a first guess: Gauss and Newton's squares with the exact slope, each
 * step solved over the shares as a whole and taken only as far as it helps. Given up where it is, not settled, as soon as the
 * slope shows that these solids come no nearer than `enough`: a convex error lies above its tangent, so it can fall by
 * no more than the steepest way to a corner of the shares. With costs, what a share costs is added to the error.
 */
export function refined(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  start: Float64Array,
  least: number,
  solver = new SimplexSolver(columns.length),
  enough = Infinity,
  costs?: ArrayLike<number>,
): Guess & { readonly settled: boolean } {
  const size = columns.length;
  let shares: Float64Array = Float64Array.from(start);
  let values: Float64Array = mixed(columns, shares, new Float64Array(BANDS));
  let trial: Float64Array = new Float64Array(size);
  let trialValues: Float64Array = new Float64Array(BANDS);
  const costOf = (of: Float64Array): number => {
    let cost = 0;
    if (costs) for (let index = 0; index < size; index++) cost += costs[index]! * of[index]!;
    return cost;
  };
  let error = objective.measure(values) + costOf(shares);
  for (let round = 0; round < MOST_ROUNDS && error > PERFECT && size > 1; round++) {
    pullsAt(objective, columns, values, solver.linear);
    if (costs) for (let index = 0; index < size; index++) solver.linear[index]! -= costs[index]! / 2;
    if (error - TANGENT_SAFETY * furthestFall(solver.linear, size, least) > enough) {
      return { shares, error, settled: false };
    }
    objective.curvature(columns, values, solver.gram);
    solver.solve(size, least);
    let gain = 0;
    for (let index = 0; index < size; index++) gain += solver.linear[index]! * (solver.shares[index]! - shares[index]!);
    if (gain <= 1e-10 * error) break;
    const before = error;
    let part = 1;
    for (let halving = 0; halving < MOST_HALVINGS; halving++, part /= 2) {
      for (let index = 0; index < size; index++) {
        trial[index] = shares[index]! + part * (solver.shares[index]! - shares[index]!);
      }
      const trialError = objective.measure(mixed(columns, trial, trialValues)) + costOf(trial);
      if (trialError < error - 1e-4 * part * gain) {
        [shares, trial] = [trial, shares];
        [values, trialValues] = [trialValues, values];
        error = trialError;
        break;
      }
    }
    if (error > before * (1 - 1e-9)) break;
  }
  return { shares, error, settled: true };
}

/** How strongly each solid draws the blend last measured towards itself: half the slope of the error, downwards. */
export function pullsAt(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  values: Float64Array,
  into: Float64Array,
): void {
  const slopes = objective.slopes();
  let own = 0;
  for (let band = 0; band < BANDS; band++) own += slopes[band]! * values[band]!;
  for (let index = 0; index < columns.length; index++) {
    const column = columns[index]!;
    let all = 0;
    for (let band = 0; band < BANDS; band++) all += slopes[band]! * column[band]!;
    into[index] = own - all;
  }
}

/** The colour difference is not quite convex, so the tangent is trusted for so much less. */
export const TANGENT_SAFETY = 1.5;

/** How far the error falls at most along its tangent: to the best corner of the shares. Pulls are half slopes. */
export function furthestFall(pulls: Float64Array, size: number, least: number): number {
  let strongest = -Infinity;
  let all = 0;
  for (let index = 0; index < size; index++) {
    strongest = Math.max(strongest, pulls[index]!);
    all += pulls[index]!;
  }
  return 2 * ((1 - size * least) * strongest + least * all);
}

/** What is tried of the second of two solids. */
const PAIR_SHARES = [0.05, 0.25, 0.5, 0.75, 0.95];

/** The best start with all the room given to two solids. */
export function bestPair(objective: ShadeObjective, columns: readonly Float64Array[], least: number): Guess {
  const size = columns.length;
  const room = 1 - size * least;
  let best: Guess | undefined;
  for (let first = 0; first < size; first++) {
    for (let second = first + 1; second < size; second++) {
      for (const part of PAIR_SHARES) {
        const shares = new Float64Array(size).fill(least);
        shares[first]! += room * (1 - part);
        shares[second]! += room * part;
        const error = errorOf(objective, columns, shares);
        if (!best || error < best.error) best = { shares, error };
      }
    }
  }
  return best as Guess;
}

/** Exchanges between pairs of solids, finer and finer, as long as one helps: it does not trust any slope. */
export function polished(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  start: Float64Array,
  least: number,
  steps: readonly number[] = [0.01, 0.001, 0.0001],
  most?: ArrayLike<number>,
): Guess {
  let shares: Float64Array = Float64Array.from(start);
  let values = mixed(columns, shares, new Float64Array(BANDS));
  let error = objective.measure(values);
  const trialValues = new Float64Array(BANDS);
  for (const step of steps) {
    let improved = true;
    for (let sweep = 0; improved && sweep < 50; sweep++) {
      improved = false;
      for (let from = 0; from < columns.length; from++) {
        for (let to = 0; to < columns.length; to++) {
          const amount = Math.min(step, shares[from]! - least, most ? most[to]! - shares[to]! : 1);
          if (to === from || !(amount > 0)) continue;
          for (let band = 0; band < BANDS; band++) {
            trialValues[band] = values[band]! + amount * (columns[to]![band]! - columns[from]![band]!);
          }
          const trialError = objective.measure(trialValues);
          if (trialError >= error * (1 - 1e-7)) continue;
          error = trialError;
          values = Float64Array.from(trialValues);
          shares = Float64Array.from(shares);
          const goesToLeast = amount < step && amount === shares[from]! - least;
          shares[from] = goesToLeast ? least : shares[from]! - amount;
          shares[to]! += amount;
          improved = true;
        }
      }
    }
  }
  return { shares, error };
}

/** The fewest and the most steps that each share may have. */
export interface StepLimits {
  readonly fewest: readonly number[];
  readonly most: readonly number[];
}

/**
 * Shares in whole steps of 1/units: largest remainder within the limits, then exchanges of one step between pairs as
 * long as one brings the blend nearer. Undefined where the limits leave no such shares.
 */
export function inWholeSteps(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  shares: Float64Array,
  units: number,
  limits: StepLimits,
): Guess | undefined {
  const counts = wholeCounts(shares, units, limits);
  if (counts === undefined) return undefined;
  const errorAt = (): number => errorOf(objective, columns, inShares(counts, units));
  let error = errorAt();
  exchanged(counts, limits, () => {
    const trial = errorAt();
    const nearer = trial < error * (1 - 1e-9);
    if (nearer) error = trial;
    return nearer;
  });
  return { shares: inShares(counts, units), error };
}

/** From shares in whole steps, exchanges of one step as long as one is cheaper and the error stays within a limit. */
export function cheaperInSteps(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  shares: Float64Array,
  units: number,
  limits: StepLimits,
  prices: readonly number[],
  within: number,
): Guess {
  const counts = Array.from(shares, (share) => Math.round(share * units));
  const costOf = (): number => counts.reduce((sum, count, index) => sum + count * prices[index]!, 0);
  let cost = costOf();
  let error = errorOf(objective, columns, shares);
  exchanged(counts, limits, () => {
    const trialCost = costOf();
    if (trialCost >= cost * (1 - 1e-9)) return false;
    const trial = errorOf(objective, columns, inShares(counts, units));
    if (trial > within) return false;
    [cost, error] = [trialCost, trial];
    return true;
  });
  return { shares: inShares(counts, units), error };
}

function inShares(counts: readonly number[], units: number): Float64Array {
  return Float64Array.from(counts, (count) => count / units);
}

function wholeCounts(shares: Float64Array, units: number, { fewest, most }: StepLimits): number[] | undefined {
  const counts = Array.from(shares, (share, index) =>
    Math.min(most[index]!, Math.max(fewest[index]!, Math.floor(share * units + 1e-9))),
  );
  const remainders = Array.from(shares, (share, index) => share * units - counts[index]!);
  let missing = units - counts.reduce((sum, count) => sum + count, 0);
  while (missing !== 0) {
    const direction = Math.sign(missing);
    let chosen = -1;
    for (let index = 0; index < counts.length; index++) {
      if (direction < 0 ? counts[index]! <= fewest[index]! : counts[index]! >= most[index]!) continue;
      if (chosen < 0 || direction * (remainders[index]! - remainders[chosen]!) > 1e-9) chosen = index;
    }
    if (chosen < 0) return undefined;
    counts[chosen]! += direction;
    remainders[chosen]! -= direction;
    missing -= direction;
  }
  return counts;
}

/** Moves one step from one share to another, in place, as long as any such move is taken. */
function exchanged(counts: number[], { fewest, most }: StepLimits, isTaken: () => boolean): void {
  for (let improved = true; improved;) {
    improved = false;
    for (let from = 0; from < counts.length; from++) {
      for (let to = 0; to < counts.length; to++) {
        if (to === from || counts[from]! <= fewest[from]! || counts[to]! >= most[to]!) continue;
        counts[from]!--;
        counts[to]!++;
        if (isTaken()) {
          improved = true;
        } else {
          counts[from]!++;
          counts[to]!--;
        }
      }
    }
  }
}
