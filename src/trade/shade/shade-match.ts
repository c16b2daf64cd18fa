import type { Light } from "../../tables/lights";
import { additiveValues, blended, type BlendModel } from "./blend-models";
import { stepsInWhole } from "../blending/practical-shares";
import { ShadeObjective } from "./shade-objective";
import { bestPair, inWholeSteps, polished, refined, type Candidate, type Guess } from "./shade-refinement";
import { SimplexSolver } from "../solvers/simplex-least-squares";
import { eachSubset, subsetCount } from "./subsets";

/** Up to this many subsets every one is refined: the answer is the best there is. */
const ALL_REFINED = 2000;
/** Of more, this many of the best by least squares are refined: the answer is near the best. */
const BEST_REFINED = 1000;
/** Beyond this many subsets, solids are added and exchanged one at a time. */
const MOST_SUBSETS = 100000;
/** A mean square difference over which a shade counts as out of reach: there the search has more than one valley. */
const OUT_OF_REACH = 4;
/** Eight units away a smaller set of solids may have a deeper valley than the search finds in a larger one. */
const FAR_OUT_OF_REACH = 64;
/** Recipes polished beside those asked for. */
const SPARE = 5;
/** Recipes tried in whole steps beside those asked for: how well a recipe stands the rounding is a matter of luck. */
const SPARE_IN_STEPS = 100;

/** A share up to this is the rounding of 0. */
const UNUSED = 1e-9;

export type Search = "all" | "near-best" | "heuristic";

export interface MatchWish {
  readonly target: readonly number[];
  readonly solids: readonly (readonly number[])[];
  /** The most solids a recipe may use. */
  readonly parts: number;
  /** The least share of a solid that is used. */
  readonly leastShare: number;
  readonly model: BlendModel;
  /** The first is the one the shade is judged in. */
  readonly lights: readonly Light[];
  /** Shares are multiples of this; 0 for none. */
  readonly step: number;
  /** How many recipes are wanted. */
  readonly choices: number;
}

export interface Recipe {
  /** One for every solid, 0 where it is not used. */
  readonly shares: readonly number[];
  readonly reflectance: ArrayLike<number>;
}

/** The best recipes for a shade, nearest first, each of another set of solids. */
export function bestRecipes(wish: MatchWish): { readonly recipes: readonly Recipe[]; readonly search: Search } {
  const { solids, model, choices } = wish;
  const order = orderOf(solids);
  const problem = new MatchProblem({ ...wish, solids: order.map((place) => solids[place]!) });
  const { candidates: found, search } = problem.candidates();
  const last = distinct(found)[choices - 1];
  const candidates = last && last.error < OUT_OF_REACH ? found : problem.lookAgain(found, search);
  const finish = (candidate: Candidate): Candidate =>
    wish.step > 0 ? problem.round(candidate) : problem.polish(candidate);
  const spare = wish.step > 0 ? SPARE_IN_STEPS : SPARE;
  const best = distinct(
    distinct(candidates)
      .slice(0, choices + spare)
      .map(finish),
  );
  const recipes = best.slice(0, choices).map(({ used, shares }) => {
    const all = solids.map(() => 0);
    used.forEach((place, index) => (all[order[place]!] = shares[index]! > UNUSED ? shares[index]! : 0));
    return { shares: all, reflectance: blended(all, solids, model) };
  });
  return { recipes, search };
}

/** The solids in an order of their own, whatever order they were given in, so that the answer does not hang on it. */
function orderOf(solids: readonly (readonly number[])[]): number[] {
  const compare = (a: readonly number[], b: readonly number[]): number => {
    const band = a.findIndex((value, index) => value !== b[index]);
    return band < 0 ? 0 : a[band]! - b[band]!;
  };
  return solids.map((_, place) => place).sort((a, b) => compare(solids[a]!, solids[b]!) || a - b);
}

class MatchProblem {
  private readonly columns: readonly Float64Array[];
  private readonly objective: ShadeObjective;
  private readonly colourGram: Float64Array;
  private readonly curveGram: Float64Array;
  private readonly least: number;
  private readonly units: number;
  private readonly leastUnits: number;
  private readonly sizes: readonly number[];
  private readonly solver: SimplexSolver;

  constructor({ target, solids, parts, leastShare, model, lights, step }: MatchWish) {
    this.columns = solids.map((solid) => additiveValues(solid, model));
    this.objective = new ShadeObjective(target, model, lights);
    this.units = step > 0 ? stepsInWhole(step) : 0;
    this.leastUnits = Math.ceil(leastShare * this.units - 1e-9);
    this.least = this.units > 0 ? this.leastUnits / this.units : leastShare;
    const room = this.least > 0 ? Math.floor(1 / this.least + 1e-9) : Infinity;
    const largest = Math.min(parts, solids.length, room);
    // Without a least share a smaller recipe is a larger one with a share of 0.
    this.sizes = this.least > 0 ? Array.from({ length: largest }, (_, index) => index + 1) : [largest];
    this.solver = new SimplexSolver(largest);
    const count = solids.length;
    this.colourGram = new Float64Array(count * count);
    this.curveGram = new Float64Array(count * count);
    this.objective.measure(this.objective.targetValues);
    this.objective.curvature(this.columns, this.objective.targetValues, this.colourGram);
    this.objective.curvature(this.columns, this.objective.targetValues, this.curveGram, false);
  }

  candidates(): { candidates: Candidate[]; search: Search } {
    const count = this.columns.length;
    const subsets = this.sizes.reduce((sum, size) => sum + subsetCount(count, size), 0);
    if (subsets > MOST_SUBSETS) return { candidates: this.addedAndExchanged(), search: "heuristic" };
    const candidates: Candidate[] = [];
    const limit = subsets > ALL_REFINED ? this.limitOfBest(subsets) : Infinity;
    for (const size of this.sizes) {
      eachSubset(count, size, (used) => {
        if (limit === Infinity || this.leastSquares(used, this.colourGram) <= limit) candidates.push(this.refine(used));
      });
    }
    return { candidates, search: limit === Infinity ? "all" : "near-best" };
  }

  /**
   * A shade out of reach has more than one valley. It is looked for from the best blend of two solids as well; far out
   * of reach also over the smaller sets of solids, so that one more to choose from does not hide what was found
   * without it.
   */
  lookAgain(found: readonly Candidate[], search: Search): Candidate[] {
    const again = found.map((candidate) => this.startAgain(candidate));
    if (search !== "all" || Math.min(...again.map(({ error }) => error)) < FAR_OUT_OF_REACH) return again;
    const largest = this.sizes[this.sizes.length - 1]!;
    for (let size = 1; size < largest; size++) {
      if (this.sizes.indexOf(size) >= 0 || subsetCount(this.columns.length, size) > ALL_REFINED) continue;
      eachSubset(this.columns.length, size, (used) => again.push(this.startAgain(this.refine(used))));
    }
    return again;
  }

  private startAgain(candidate: Candidate): Candidate {
    const { used, error } = candidate;
    if (error < OUT_OF_REACH || used.length < 2) return candidate;
    const columns = this.columnsOf(used);
    const start = bestPair(this.objective, columns, this.least);
    const again = refined(this.objective, columns, start.shares, this.least, this.solver);
    return again.error < error ? { used, ...again } : candidate;
  }

  polish({ used, shares }: Candidate): Candidate {
    return { used, ...polished(this.objective, this.columnsOf(used), shares, this.least) };
  }

  round({ used, shares }: Candidate): Candidate {
    return { used, ...inWholeSteps(this.objective, this.columnsOf(used), shares, this.units, this.leastUnits) };
  }

  /** The largest least-squares objective that is still among the best to be refined. */
  private limitOfBest(subsets: number): number {
    const objectives = new Float64Array(subsets);
    let place = 0;
    for (const size of this.sizes) {
      eachSubset(this.columns.length, size, (used) => {
        objectives[place++] = this.leastSquares(used, this.colourGram);
      });
    }
    return objectives.sort()[BEST_REFINED - 1]!;
  }

  /** Least squares over one subset, straightened at the target; the shares stay in the solver. */
  private leastSquares(used: readonly number[], gram: Float64Array): number {
    const size = used.length;
    const count = this.columns.length;
    for (let row = 0; row < size; row++) {
      this.solver.linear[row] = 0;
      for (let column = 0; column < size; column++) {
        this.solver.gram[row * size + column] = gram[used[row]! * count + used[column]!]!;
      }
    }
    return this.solver.solve(size, this.least);
  }

  /** From the better of two first guesses: by colour, and by the whole curve (exact where the target is a blend). */
  private refine(used: readonly number[]): Candidate {
    const columns = this.columnsOf(used);
    const guesses = [this.colourGram, this.curveGram].map((gram) => {
      this.leastSquares(used, gram);
      const shares = this.solver.shares.slice(0, used.length);
      return polished(this.objective, columns, shares, this.least, []);
    }) as [Guess, Guess];
    const start = guesses[0].error < guesses[1].error ? guesses[0] : guesses[1];
    return { used: used.slice(), ...refined(this.objective, columns, start.shares, this.least, this.solver) };
  }

  private columnsOf(used: readonly number[]): Float64Array[] {
    return used.map((place) => this.columns[place]!);
  }

  /** The best single solid, then one more at a time, each time exchanging single solids as long as that helps. */
  private addedAndExchanged(): Candidate[] {
    const seen: Candidate[] = [];
    const everySolid = this.columns.map((_, place) => place);
    const bestOf = (sets: number[][], sofar?: Candidate): Candidate | undefined => {
      let best = sofar;
      for (const used of sets) {
        const candidate = this.refine(used);
        seen.push(candidate);
        if (!best || candidate.error < best.error * (1 - 1e-9)) best = candidate;
      }
      return best;
    };
    const without = (used: readonly number[]): number[] => everySolid.filter((place) => used.indexOf(place) < 0);
    let current: Candidate | undefined;
    for (let size = 1; size <= this.sizes[this.sizes.length - 1]!; size++) {
      const used: readonly number[] = current ? current.used : [];
      current = bestOf(without(used).map((place) => sorted([...used, place])));
      for (;;) {
        const { used: now } = current as Candidate;
        const exchanges = ([] as number[][]).concat(
          ...now.map((out) => without(now).map((place) => sorted([...now.filter((kept) => kept !== out), place]))),
        );
        const better = bestOf(exchanges, current);
        if (better === current) break;
        current = better;
      }
    }
    return seen;
  }
}

/** The best of each set of solids that is really used, nearest first. */
function distinct(candidates: readonly Candidate[]): Candidate[] {
  const sets = new Set<string>();
  const best: Candidate[] = [];
  for (const candidate of candidates.slice().sort((a, b) => a.error - b.error)) {
    const set = candidate.used.filter((_, index) => candidate.shares[index]! > UNUSED).join();
    if (sets.has(set)) continue;
    sets.add(set);
    best.push(candidate);
  }
  return best;
}

function sorted(places: number[]): number[] {
  return places.sort((a, b) => a - b);
}
