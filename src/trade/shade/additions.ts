import type { Light } from "../../tables/lights";
import { SimplexLeastSquares } from "../solvers/simplex-least-squares";
import { additiveValues, type BlendModel } from "./blend-models";
import { levelled } from "./level-ground";
import { ShadeObjective, type MeasuredBlend } from "./shade-objective";
import { errorOf, Refinement } from "./shade-refinement";
import { BANDS } from "./spectra";
import { eachSubset } from "./subsets";

/** A batch that is blended already and what may be added to it. */
export interface AdditionWish {
  readonly target: readonly number[];
  readonly batch: readonly number[];
  readonly batchMass: number;
  readonly solids: readonly (readonly number[])[];
  /** The greatest addition of each solid, in the unit of the batch. */
  readonly most: readonly number[];
  readonly model: BlendModel;
  /** The first is the one the shade is judged in. */
  readonly lights: readonly Light[];
  /** Additions are multiples of this; 0 for none. */
  readonly step: number;
}

/** Three solids can move a shade any way there is in one light; more would only be more to weigh. */
const MOST_SOLIDS = 3;
/** Sets of solids are refined from the most promising by least squares, up to so many. */
const MOST_REFINED = 1000;
/** Of additions in steps the nearest sets before rounding are rounded, up to so many. */
const MOST_ROUNDED = 40;
/** An improvement of the squared difference by less is none worth weighing for. */
const WORTHWHILE = 1e-4;
/** An addition over its limit by less, against the batch, is at it. */
const AT_LIMIT = 1e-12;

interface Addition {
  /** Places of the solids, and the mass of each against that of the batch. */
  readonly used: readonly number[];
  readonly ratios: readonly number[];
  readonly error: number;
}

/**
 * The mass of each solid to add to a batch, which may only grow, so that it comes nearest to the target: all 0 where
 * nothing helps. A batch of mass B with additions a is the blend of B/(B + Σa) of itself and a/(B + Σa) of each.
 */
export function bestAdditions(wish: AdditionWish): number[] {
  const search = new AdditionSearch(wish);
  const { used, ratios } = search.best();
  const all = wish.solids.map(() => 0);
  used.forEach((place, index) => (all[place] = ratios[index]! * wish.batchMass));
  return all.map((mass, place) => (wish.step > 0 ? mass : writtenOut(mass, wish.batchMass, wish.most[place]!)));
}

/** To a thousandth of a millionth of the batch, so that it is the same on every machine; at the limit it is the limit. */
function writtenOut(mass: number, batchMass: number, most: number): number {
  const written = Number((mass / batchMass).toFixed(9)) * batchMass;
  return Math.abs(written - most) <= 1e-8 * batchMass ? most : written;
}

class AdditionSearch {
  private readonly objective: ShadeObjective;
  private readonly atTarget: MeasuredBlend;
  private readonly batch: Float64Array;
  private readonly solids: readonly Float64Array[];
  /** The greatest addition of each solid against the mass of the batch, and the step of all. */
  private readonly most: readonly number[];
  private readonly step: number;
  private readonly solver = new SimplexLeastSquares(MOST_SOLIDS + 1);
  private readonly refinement: Refinement;

  constructor({ target, batch, batchMass, solids, most, model, lights, step }: AdditionWish) {
    this.objective = new ShadeObjective(target, model, lights);
    this.atTarget = this.objective.at(this.objective.targetValues);
    this.refinement = new Refinement(this.objective, MOST_SOLIDS + 1);
    this.batch = additiveValues(batch, model);
    this.solids = solids.map((solid) => additiveValues(solid, model));
    this.most = most.map((mass) => mass / batchMass);
    this.step = step / batchMass;
  }

  best(): Addition {
    const none: Addition = { used: [], ratios: [], error: this.objective.measure(this.batch) };
    const found = this.promising()
      .map((used) => this.withinMost(this.batch, 1, used))
      .sort((a, b) => a.error - b.error);
    const rounded = this.step > 0 ? found.slice(0, MOST_ROUNDED).map((addition) => this.inSteps(addition)) : found;
    const nearest = rounded.reduce(nearer, none);
    return nearest.error < none.error - WORTHWHILE ? nearest : none;
  }

  /** Sets of solids, those first that come nearest by least squares round the target. */
  private promising(): (readonly number[])[] {
    const open = this.solids.map((_, place) => place).filter((place) => this.most[place]! > 0);
    const size = Math.min(MOST_SOLIDS, open.length);
    const sets: { readonly used: readonly number[]; readonly error: number }[] = [];
    eachSubset(open.length, size, (chosen) => {
      const used = chosen.map((index) => open[index]!);
      const columns = this.columnsOf(this.batch, used);
      sets.push({ used, error: errorOf(this.objective, columns, this.guess(columns)) });
    });
    return sets
      .sort((a, b) => a.error - b.error)
      .slice(0, MOST_REFINED)
      .map(({ used }) => used);
  }

  private columnsOf(batch: Float64Array, used: readonly number[]): Float64Array[] {
    return [batch, ...used.map((place) => this.solids[place]!)];
  }

  /** Shares of the batch and the solids by least squares, straightened at the target. */
  private guess(columns: readonly Float64Array[]): Float64Array {
    return this.solver.solve({ gram: this.atTarget.curvature(columns), size: columns.length, least: 0 });
  }

  /**
   * Additions of some solids to a batch of this mass. Where the nearest blend passes the greatest addition of some, one
   * of those is added in full in the nearest that does not; the rest is the same question about the batch with it.
   */
  private withinMost(batch: Float64Array, mass: number, used: readonly number[]): Addition {
    const columns = this.columnsOf(batch, used);
    const alone = Float64Array.from(columns, (_, index) => (index === 0 ? 1 : 0));
    const starts = [this.guess(columns), alone].map((shares) => ({
      shares,
      error: errorOf(this.objective, columns, shares),
    }));
    const start = starts[0]!.error < starts[1]!.error ? starts[0]! : starts[1]!;
    const { shares, error } = levelled(this.objective, columns, this.refinement.from(start.shares, columns, 0), 0);
    const left = shares[0]!;
    const over = used
      .map((_, index) => index)
      .filter((index) => {
        return mass * shares[index + 1]! > (this.most[used[index]!]! + AT_LIMIT) * left;
      });
    if (over.length === 0) return { used, ratios: used.map((_, index) => (mass * shares[index + 1]!) / left), error };
    return over
      .map((full): Addition => {
        const added = this.most[used[full]!]!;
        const column = this.solids[used[full]!]!;
        const grown = batch.map((value, band) => (mass * value + added * column[band]!) / (mass + added));
        const others = used.filter((_, index) => index !== full);
        const rest = this.withinMost(grown, mass + added, others);
        return { used: [used[full]!, ...rest.used], ratios: [added, ...rest.ratios], error: rest.error };
      })
      .reduce(nearer);
  }

  private errorAt(used: readonly number[], steps: readonly number[]): number {
    const values = new Float64Array(BANDS);
    let whole = 1;
    for (const count of steps) whole += count * this.step;
    for (let band = 0; band < BANDS; band++) {
      let value = this.batch[band]!;
      for (let index = 0; index < used.length; index++) {
        value += steps[index]! * this.step * this.solids[used[index]!]![band]!;
      }
      values[band] = value / whole;
    }
    return this.objective.measure(values);
  }

  /** In whole steps: from the whole steps round about, one step up or down for any of them as long as that helps. */
  private inSteps({ used, ratios }: Addition): Addition {
    const most = used.map((place) => Math.floor(this.most[place]! / this.step + 1e-9));
    const moves = movesOf(used.length);
    const from = (start: readonly number[]): { steps: readonly number[]; error: number } => {
      let steps = start;
      let error = this.errorAt(used, steps);
      for (let improved = true; improved;) {
        improved = false;
        for (const move of moves) {
          const trial = steps.map((count, index) => count + move[index]!);
          if (trial.some((count, index) => count < 0 || count > most[index]!)) continue;
          const trialError = this.errorAt(used, trial);
          if (trialError >= error * (1 - 1e-9)) continue;
          [steps, error, improved] = [trial, trialError, true];
        }
      }
      return { steps, error };
    };
    const below = ratios.map((ratio, index) => Math.min(most[index]!, Math.floor(ratio / this.step + 1e-9)));
    const found = [below, most, used.map(() => 0)].map(from).sort((a, b) => a.error - b.error)[0]!;
    return { used, ratios: found.steps.map((count) => count * this.step), error: found.error };
  }
}

function nearer(best: Addition, other: Addition): Addition {
  return other.error < best.error ? other : best;
}

/** Every way in which each place goes one up or down or stays. */
function movesOf(places: number): number[][] {
  let moves: number[][] = [[]];
  for (let place = 0; place < places; place++) {
    moves = ([] as number[][]).concat(...moves.map((move) => [-1, 0, 1].map((by) => [...move, by])));
  }
  return moves;
}
