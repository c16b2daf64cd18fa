import type { MeasuredBlend, ShadeObjective } from "./shade-objective";
import { SimplexLeastSquares } from "../solvers/simplex-least-squares";
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
/** Parts of the error: what the slope must promise for another step, and what a step must bring for one more after it. */
const WORTH_A_STEP = 1e-10;
const WORTH_ANOTHER = 1e-9;
/** Of what the slope promised, the part that a step must bring (Armijo's rule). */
const PART_KEPT = 1e-4;
/** Polishing: exchanges from a hundredth down to a ten-thousandth, each worth this part of the error. */
const POLISHING_STEPS = [0.01, 0.001, 0.0001];
const WORTH_A_POLISH = 1e-7;
const MOST_SWEEPS = 50;

/** A share as near to a limit is at it. */
export const AT_LIMIT = 1e-12;

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
  return objective.measure(mixed(columns, shares, objective.room));
}

/**
 * To the smallest true colour difference from a first guess: Gauss and Newton's squares with the exact slope, each
 * step solved over the shares as a whole and taken only as far as it helps. What it works in is kept between searches of
 * up to `capacity` solids; nothing in it outlives one.
 */
export class Refinement {
  private readonly solver: SimplexLeastSquares;
  private here: MeasuredBlend;
  private there: MeasuredBlend;
  private readonly values = new Float64Array(BANDS);
  private readonly linear: Float64Array;
  private readonly gram: Float64Array;

  constructor(objective: ShadeObjective, capacity: number) {
    this.solver = new SimplexLeastSquares(capacity);
    this.linear = new Float64Array(capacity);
    this.gram = new Float64Array(capacity * capacity);
    this.here = objective.at(objective.targetValues);
    this.there = objective.at(objective.targetValues);
  }

  /**
   * Given up where it is, not settled, as soon as the slope shows that these solids come no nearer than `enough`: a
   * convex error lies above its tangent, so it can fall by no more than the steepest way to a corner of the shares. With
   * costs, what a share costs is added to the error.
   */
  from(
    start: Float64Array,
    columns: readonly Float64Array[],
    least: number,
    enough = Infinity,
    costs?: ArrayLike<number>,
  ): Guess & { readonly settled: boolean } {
    const size = columns.length;
    const { linear, gram } = this;
    let shares: Float64Array = start.slice();
    let trial: Float64Array = new Float64Array(size);
    let error = this.here.become(mixed(columns, shares, this.values)) + costOf(shares, costs);
    for (let round = 0; round < MOST_ROUNDS && error > PERFECT && size > 1; round++) {
      pullsAt(this.here, columns, linear);
      if (costs) for (let index = 0; index < size; index++) linear[index]! -= costs[index]! / 2;
      if (error - TANGENT_SAFETY * furthestFall(linear, size, least) > enough) return { shares, error, settled: false };
      const aim = this.solver.solve({ gram: this.here.curvature(columns, true, gram), linear, size, least });
      let gain = 0;
      for (let index = 0; index < size; index++) gain += linear[index]! * (aim[index]! - shares[index]!);
      if (gain <= WORTH_A_STEP * error) break;
      const before = error;
      let part = 1;
      for (let halving = 0; halving < MOST_HALVINGS; halving++, part /= 2) {
        for (let index = 0; index < size; index++) {
          trial[index] = shares[index]! + part * (aim[index]! - shares[index]!);
        }
        const trialError = this.there.become(mixed(columns, trial, this.values)) + costOf(trial, costs);
        if (trialError < error - PART_KEPT * part * gain) {
          [shares, trial] = [trial, shares];
          [this.here, this.there] = [this.there, this.here];
          error = trialError;
          break;
        }
      }
      if (error > before * (1 - WORTH_ANOTHER)) break;
    }
    return { shares, error, settled: true };
  }

  /** How strongly each of some solids draws towards itself the blend where the last search ended. */
  pulls(solids: readonly Float64Array[]): Float64Array {
    return pullsAt(this.here, solids, new Float64Array(solids.length));
  }
}

export function costOf(shares: Float64Array, costs: ArrayLike<number> | undefined): number {
  let cost = 0;
  if (costs) for (let index = 0; index < shares.length; index++) cost += costs[index]! * shares[index]!;
  return cost;
}

/** Half the slope of the error towards each solid, downwards. */
export function pullsAt(blend: MeasuredBlend, columns: readonly Float64Array[], pulls: Float64Array): Float64Array {
  const slopes = blend.slopes();
  let own = 0;
  for (let band = 0; band < BANDS; band++) own += slopes[band]! * blend.values[band]!;
  for (let index = 0; index < columns.length; index++) {
    const column = columns[index]!;
    let all = 0;
    for (let band = 0; band < BANDS; band++) all += slopes[band]! * column[band]!;
    pulls[index] = own - all;
  }
  return pulls;
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
  steps: readonly number[] = POLISHING_STEPS,
  most?: ArrayLike<number>,
): Guess {
  const shares = start.slice();
  const values = mixed(columns, shares, new Float64Array(BANDS));
  let error = objective.measure(values);
  const trial = new Float64Array(BANDS);

  /** Moves a step, or as much of it as the limits leave, if that brings the blend nearer. */
  const exchange = (from: number, to: number, step: number): boolean => {
    const spare = shares[from]! - least;
    const amount = Math.min(step, spare, most ? most[to]! - shares[to]! : 1);
    if (!(amount > 0)) return false;
    for (let band = 0; band < BANDS; band++) {
      trial[band] = values[band]! + amount * (columns[to]![band]! - columns[from]![band]!);
    }
    const trialError = objective.measure(trial);
    if (trialError >= error * (1 - WORTH_A_POLISH)) return false;
    error = trialError;
    values.set(trial);
    shares[from] = amount < step && amount === spare ? least : shares[from]! - amount;
    shares[to]! += amount;
    return true;
  };
  const sweep = (step: number): boolean => {
    let improved = false;
    for (let from = 0; from < columns.length; from++) {
      for (let to = 0; to < columns.length; to++) {
        if (to !== from && exchange(from, to, step)) improved = true;
      }
    }
    return improved;
  };
  for (const step of steps) for (let count = 0; count < MOST_SWEEPS && sweep(step); count++);
  return { shares, error };
}
