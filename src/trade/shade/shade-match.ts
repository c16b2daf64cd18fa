import type { Light } from "../../tables/lights";
import { additiveValues, blended, type BlendModel } from "./blend-models";
import { stepsInWhole } from "../blending/practical-shares";
import { ShadeObjective } from "./shade-objective";
import {
  bestPair,
  furthestFall,
  inWholeSteps,
  mixed,
  polished,
  pullsAt,
  refined,
  TANGENT_SAFETY,
  type Candidate,
  type Guess,
} from "./shade-refinement";
import { BANDS } from "./spectra";
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
const SPARE = 2;
/** The same far out of reach, where a tangent can mislead. */
const SPARE_FAR_OUT = 5;

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
  const { found, search } = problem.nearest();
  const best = wish.step > 0 ? found : distinct(found.map((candidate) => problem.polish(candidate)));
  const recipes = best.slice(0, choices).map(({ used, shares }) => {
    const all = solids.map(() => 0);
    used.forEach((place, index) => (all[order[place]!] = shares[index]!));
    if (wish.step === 0) writeOut(all);
    return { shares: all, reflectance: blended(all, solids, model) };
  });
  return { recipes, search };
}

/** Far finer than any scale, and far coarser than the last digits in which two machines differ. */
const PARTS_IN_WHOLE = 1e9;

/** Shares written out to nine decimals that sum to 1, so that what is derived from them is the same on every machine. */
function writeOut(shares: number[]): void {
  let left = PARTS_IN_WHOLE;
  let largest = 0;
  shares.forEach((share, index) => {
    const parts = Math.round(share * PARTS_IN_WHOLE);
    left -= parts;
    shares[index] = parts;
    if (parts > shares[largest]!) largest = index;
  });
  shares[largest]! += left;
  shares.forEach((parts, index) => (shares[index] = parts / PARTS_IN_WHOLE));
}

/** The nearest recipes so far, each of another set of solids, and how near another must come to be among them. */
class Shortlist {
  best: Candidate[] = [];

  private readonly length: number;

  constructor(
    private readonly choices: number,
    private readonly spared: boolean,
  ) {
    this.length = choices + (spared ? SPARE_FAR_OUT : 0);
  }

  offer(candidate: Candidate): void {
    if (candidate.error < this.enough) this.best = distinct([...this.best, candidate]).slice(0, this.length);
  }

  get enough(): number {
    const near = this.best.length > 0 && this.best[0]!.error < FAR_OUT_OF_REACH;
    const last = this.spared && near ? this.choices + SPARE : this.length;
    return this.best.length < last ? Infinity : this.best[last - 1]!.error;
  }

  /** The error of the last of the recipes wanted; of the last there is where there are fewer. */
  errorOf(choices: number): number {
    return this.best[Math.min(choices, this.best.length) - 1]?.error ?? Infinity;
  }
}

/** The solids in an order of their own, whatever order they were given in, so that the answer does not hang on it. */
function orderOf(solids: readonly (readonly number[])[]): number[] {
  const compare = (a: readonly number[], b: readonly number[]): number => {
    const band = a.findIndex((value, index) => value !== b[index]);
    return band < 0 ? 0 : a[band]! - b[band]!;
  };
  return solids.map((_, place) => place).sort((a, b) => compare(solids[a]!, solids[b]!) || a - b);
}

/** The error of a blend, and how strongly every solid draws it. */
interface Tangent {
  readonly error: number;
  readonly pulls: Float64Array;
  /** The solids that the blend is of, where it is the nearest of its set. */
  readonly support: readonly number[] | undefined;
}

/** A blend that can gain no more than this part of its error is the nearest there is. */
const SAME_BLEND = 1e-6;

const MOST_TANGENTS = 100;

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
  private readonly choices: number;
  private readonly drawn: Float64Array;
  private readonly tangents: Tangent[] = [];
  private next = 0;
  private readonly pairs: Guess[] = [];
  private oneValley = true;

  constructor({ target, solids, parts, leastShare, model, lights, step, choices }: MatchWish) {
    this.choices = choices;
    this.drawn = new Float64Array(solids.length);
    this.columns = solids.map((solid) => additiveValues(solid, model));
    this.objective = new ShadeObjective(target, model, lights);
    this.units = step > 0 ? stepsInWhole(step) : 0;
    this.leastUnits = Math.ceil(leastShare * this.units - 1e-9);
    this.least = this.units > 0 ? this.leastUnits / this.units : leastShare;
    const room = this.least > 0 ? Math.floor(1 / this.least + 1e-9) : Infinity;
    const largest = Math.min(parts, solids.length, room);
    // Without a least share a smaller recipe is a larger one with a share of 0; but it can stand the rounding better.
    this.sizes =
      this.least > 0 || this.units > 0 ? Array.from({ length: largest }, (_, index) => index + 1) : [largest];
    this.solver = new SimplexSolver(largest);
    const count = solids.length;
    this.colourGram = new Float64Array(count * count);
    this.curveGram = new Float64Array(count * count);
    this.objective.measure(this.objective.targetValues);
    this.objective.curvature(this.columns, this.objective.targetValues, this.colourGram);
    this.objective.curvature(this.columns, this.objective.targetValues, this.curveGram, false);
  }

  /** The nearest recipes: in whole steps as wanted, else still to be polished and some to spare. */
  nearest(): { found: Candidate[]; search: Search } {
    const count = this.columns.length;
    const shortlist = new Shortlist(this.choices, this.units === 0);
    const subsets = this.sizes.reduce((sum, size) => sum + subsetCount(count, size), 0);
    if (subsets > MOST_SUBSETS) {
      const seen = this.addedAndExchanged();
      for (const candidate of seen) this.enter(candidate, shortlist);
      if (shortlist.errorOf(this.choices) >= OUT_OF_REACH) {
        for (const { used } of seen) this.enter(this.startAgain(used, shortlist.enough), shortlist);
      }
      return { found: shortlist.best, search: "heuristic" };
    }
    const promising = this.promising(subsets);
    const search = subsets > ALL_REFINED ? "near-best" : "all";
    // Size by size, each as if there were no larger one, so that one more solid never loses what fewer had found.
    for (const size of this.sizes) {
      const sets = promising.filter((used) => used.length === size);
      this.enterValley();
      for (const used of sets) {
        if (!this.isOut(used, shortlist.enough)) this.enter(this.refine(used, shortlist.enough), shortlist);
      }
      this.lookAgain(sets, shortlist, search);
    }
    return { found: shortlist.best, search };
  }

  private enter(candidate: Candidate | undefined, shortlist: Shortlist): void {
    if (candidate === undefined || candidate.error >= shortlist.enough) return;
    shortlist.offer(this.units > 0 ? this.round(candidate) : candidate);
  }

  /** The sets of solids to be refined, the most promising by least squares first: what is near early spares the rest. */
  private promising(subsets: number): (readonly number[])[] {
    const objectives = new Float64Array(subsets);
    let place = 0;
    const each = (visit: (used: readonly number[]) => void): void => {
      place = 0;
      for (const size of this.sizes) {
        eachSubset(this.columns.length, size, (used) => {
          visit(used);
          place++;
        });
      }
    };
    each((used) => (objectives[place] = this.leastSquares(used, this.colourGram)));
    const limit = subsets > ALL_REFINED ? objectives.slice().sort()[BEST_REFINED - 1]! : Infinity;
    const chosen: { readonly used: readonly number[]; readonly objective: number }[] = [];
    each((used) => {
      if (objectives[place]! <= limit) chosen.push({ used: used.slice(), objective: objectives[place]! });
    });
    return chosen.sort((a, b) => a.objective - b.objective).map(({ used }) => used);
  }

  /**
   * A shade out of reach has more than one valley. It is looked for from the best blend of two solids as well; far out
   * of reach also over the smaller sets of solids, so that one more to choose from does not hide what was found
   * without it.
   */
  private lookAgain(sets: readonly (readonly number[])[], shortlist: Shortlist, search: Search): void {
    if (shortlist.errorOf(this.choices) < OUT_OF_REACH) return;
    this.enterValley();
    this.oneValley = false;
    for (const used of sets) {
      if (!this.isOut(used, shortlist.enough)) this.enter(this.startAgain(used, shortlist.enough), shortlist);
    }
    if (search !== "all" || shortlist.errorOf(1) < FAR_OUT_OF_REACH) return;
    const largest = this.sizes[this.sizes.length - 1]!;
    for (let size = 1; size < largest; size++) {
      if (this.sizes.indexOf(size) >= 0 || subsetCount(this.columns.length, size) > ALL_REFINED) continue;
      eachSubset(this.columns.length, size, (used) => {
        this.enter(this.refine(used, shortlist.enough), shortlist);
        this.enter(this.startAgain(used, shortlist.enough), shortlist);
      });
    }
  }

  /**
   * Does a tangent of the error, taken where another set of solids came nearest, show that this set stays further off?
   * It holds for every blend, of whatever solids. Or is that blend also the nearest of this set, which holds its solids?
   */
  private isOut(used: readonly number[], enough: number): boolean {
    const size = used.length;
    for (const { error, pulls, support } of this.tangents) {
      const known =
        this.oneValley &&
        this.least === 0 &&
        support !== undefined &&
        support.every((place) => used.indexOf(place) >= 0);
      if (error <= enough && !known) continue;
      for (let index = 0; index < size; index++) this.drawn[index] = pulls[used[index]!]!;
      const fall = TANGENT_SAFETY * furthestFall(this.drawn, size, this.least);
      if (error - fall > enough || (known && fall < SAME_BLEND * error)) return true;
    }
    return false;
  }

  /** The best blend of two of these solids. Without a least share a pair is the same in every set, and is tried once. */
  private bestPairOf(used: readonly number[]): Guess {
    const count = this.columns.length;
    let best: { first: number; second: number; pair: Guess } | undefined;
    for (let first = 0; first < used.length; first++) {
      for (let second = first + 1; second < used.length; second++) {
        const key = used[first]! * count + used[second]!;
        const pair = (this.pairs[key] ??= bestPair(this.objective, this.columnsOf([used[first]!, used[second]!]), 0));
        if (!best || pair.error < best.pair.error) best = { first, second, pair };
      }
    }
    const { first, second, pair } = best!;
    const shares = new Float64Array(used.length);
    shares[first] = pair.shares[0]!;
    shares[second] = pair.shares[1]!;
    return { shares, error: pair.error };
  }

  /** From a first guess to where these solids come nearest; nothing where that is not near enough. */
  private settle(used: readonly number[], start: Guess, enough: number): Candidate | undefined {
    const columns = this.columnsOf(used);
    const { shares, error, settled } = refined(this.objective, columns, start.shares, this.least, this.solver, enough);
    const values = mixed(columns, shares, new Float64Array(BANDS));
    this.objective.measure(values);
    const pulls = new Float64Array(this.columns.length);
    pullsAt(this.objective, this.columns, values, pulls);
    const support = settled ? used.filter((_, index) => shares[index]! > this.least) : undefined;
    this.tangents[this.next++ % MOST_TANGENTS] = { error, pulls, support };
    return settled ? { used: used.slice(), shares, error } : undefined;
  }

  /** What was learnt in one valley says nothing of another. */
  private enterValley(): void {
    this.tangents.length = 0;
    this.next = 0;
    this.oneValley = true;
  }

  private startAgain(used: readonly number[], enough: number): Candidate | undefined {
    if (used.length < 2) return undefined;
    const start = this.least > 0 ? bestPair(this.objective, this.columnsOf(used), this.least) : this.bestPairOf(used);
    return this.settle(used, start, enough);
  }

  polish({ used, shares }: Candidate): Candidate {
    return { used, ...polished(this.objective, this.columnsOf(used), shares, this.least) };
  }

  round({ used, shares }: Candidate): Candidate {
    return { used, ...inWholeSteps(this.objective, this.columnsOf(used), shares, this.units, this.leastUnits) };
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
  private refine(used: readonly number[], enough = Infinity): Candidate | undefined {
    const columns = this.columnsOf(used);
    const guesses = [this.colourGram, this.curveGram].map((gram) => {
      this.leastSquares(used, gram);
      const shares = this.solver.shares.slice(0, used.length);
      return polished(this.objective, columns, shares, this.least, []);
    }) as [Guess, Guess];
    const start = guesses[0].error < guesses[1].error ? guesses[0] : guesses[1];
    return this.settle(used, start, enough);
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
        const candidate = this.refine(used) as Candidate;
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
