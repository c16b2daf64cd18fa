import type { Light } from "../../tables/lights";
import { additiveValues, blended, type BlendModel } from "./blend-models";
import {
  ALL_REFINED,
  BEST_REFINED,
  isLookedOver,
  MOST_SUBSETS,
  MOST_TRIED,
  searchSize,
  type SearchSize,
} from "./search-size";
import { levelled } from "./level-ground";
import { ShadeObjective } from "./shade-objective";
import {
  AT_LIMIT,
  bestPair,
  errorOf,
  furthestFall,
  mixed,
  polished,
  Refinement,
  TANGENT_SAFETY,
  type Candidate,
  type Guess,
} from "./shade-refinement";
import { BANDS } from "./spectra";
import { objectiveOf, SimplexLeastSquares, type ShareProblem } from "../solvers/simplex-least-squares";
import { eachSubset } from "./subsets";
import { bestInSteps, cheaperInSteps, inWholeSteps, type StepLimits } from "./whole-steps";

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
  /** One for every solid: its least share, used in any case where it is above 0. */
  readonly leastShares?: readonly number[] | undefined;
  /** One for every solid: its greatest share; one of 0 is not to be had. */
  readonly mostShares?: readonly number[] | undefined;
}

export interface Recipe {
  /** One for every solid, 0 where it is not used. */
  readonly shares: readonly number[];
  readonly reflectance: ArrayLike<number>;
}

/** The best recipes for a shade, nearest first, each of another set of solids. */
export function bestRecipes(wish: MatchWish): Found {
  const { problem, asRecipe } = prepared(wish);
  const { found, search } = problem.nearest();
  const best = wish.step > 0 ? found : distinct(found.map((candidate) => problem.level(problem.polish(candidate))));
  return { recipes: best.slice(0, wish.choices).map(asRecipe), search };
}

export interface Found {
  readonly recipes: readonly Recipe[];
  readonly search: Search;
}

/** The recipes that cost least among those within a difference, cheapest first, each of another set of solids. */
export function cheapestRecipes(wish: MatchWish, prices: readonly number[], within: number): Found {
  const { problem, asRecipe, order } = prepared(wish);
  const priced = order.map((place) => prices[place]!);
  const { found, search } = problem.cheapest(priced, within * within);
  return { recipes: found.slice(0, wish.choices).map(asRecipe), search };
}

function prepared(wish: MatchWish): {
  problem: MatchProblem;
  order: readonly number[];
  asRecipe: (candidate: Candidate) => Recipe;
} {
  const { solids, model, leastShares, mostShares } = wish;
  const order = orderOf(solids).filter((place) => mostShares?.[place] !== 0);
  const inOrder = <T>(values: readonly T[]): T[] => order.map((place) => values[place]!);
  const problem = new MatchProblem({
    ...wish,
    solids: inOrder(solids),
    leastShares: leastShares && inOrder(leastShares),
    mostShares: mostShares && inOrder(mostShares),
  });
  const asRecipe = (candidate: Candidate): Recipe => {
    const all = solids.map(() => 0);
    problem.sharesOf(candidate).forEach((share, place) => (all[order[place]!] = share));
    if (wish.step === 0) writeOut(all);
    return { shares: all, reflectance: blended(all, solids, model) };
  };
  return { problem, order, asRecipe };
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
    this.best = distinct([...this.best, candidate]).slice(0, this.length);
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
  const compare = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((order, value, band) => order || value - b[band]!, 0);
  return solids.map((_, place) => place).sort((a, b) => compare(solids[a]!, solids[b]!) || a - b);
}

/** Blends of the cheapest sets are made cheaper still, up to so many. */
const MOST_CHEAPENED = 200;
/** How often what a share costs is halved or doubled to find where the difference is just allowed. */
const HALVINGS = 40;

/** The error of a blend, and how strongly every solid draws it. */
interface Tangent {
  readonly error: number;
  /** The error of the blend from which it was found. */
  readonly startError: number;
  readonly pulls: Float64Array;
  /** The solids that the blend is of and their parts, where it is the nearest of its set. */
  readonly support: readonly number[] | undefined;
  readonly parts: readonly number[];
}

/** A blend that can gain no more than this part of its error is the nearest there is. */
const SAME_BLEND = 1e-6;

const MOST_TANGENTS = 100;

/** A blend made cheaper, and how much what a share costs counted beside its error. */
interface Cheapened extends Candidate {
  readonly weight?: number;
}

/** Where the weight is looked for anew, as a part of it, by so many chords; and what shares lose in being written out. */
const BESIDE = 1e-4;
const MOST_SECANTS = 5;
const FOR_ROUNDING = 1e-6;

/** What shares cost beside their error, the dearest of them so much. */
function costsAt(weight: number, used: readonly number[], prices: readonly number[]): number[] {
  const dearest = Math.max(...used.map((place) => prices[place]!), Number.MIN_VALUE);
  return used.map((place) => (weight * prices[place]!) / dearest);
}

class MatchProblem {
  /** The solids in the model's additive values. */
  private readonly solids: readonly Float64Array[];
  /**
   * The same with what must be used in any case mixed in: a blend of these by parts of what is left over is a recipe.
   * Where nothing must, they are the solids and the parts are the shares.
   */
  private readonly columns: readonly Float64Array[];
  /** What must be used of each solid, and the places of those of which something must. */
  private readonly kept: readonly number[];
  private readonly keptPlaces: readonly number[];
  private readonly leftOver: number;
  /** The greatest part of each, where any is limited. */
  private readonly most: readonly number[] | undefined;
  private readonly mostShares: readonly number[];
  private readonly objective: ShadeObjective;
  /** By colour, and by the whole curve; worked out when they are first asked for, because few steps need none. */
  private gramsKnown: readonly [colour: Float64Array, curve: Float64Array] | undefined;
  private readonly size: SearchSize;
  private readonly least: number;
  private readonly units: number;
  private readonly sizes: readonly number[];
  private readonly ownGram: Float64Array;
  private readonly drawn: Float64Array;
  private readonly solver: SimplexLeastSquares;
  private readonly refinement: Refinement;
  private readonly choices: number;
  private readonly tangents: Tangent[] = [];
  private next = 0;
  private readonly pairs: Guess[] = [];

  constructor(wish: MatchWish) {
    const { target, solids, parts, leastShare, model, lights, step, choices, leastShares, mostShares } = wish;
    this.choices = choices;
    this.solids = solids.map((solid) => additiveValues(solid, model));
    this.kept = leastShares ?? solids.map(() => 0);
    this.keptPlaces = solids.map((_, place) => place).filter((place) => this.kept[place]! > 0);
    this.leftOver = this.kept.reduce((left, share) => left - share, 1);
    this.columns = this.withKept();
    this.mostShares = mostShares ?? solids.map(() => 1);
    this.most =
      mostShares && this.leftOver > AT_LIMIT
        ? mostShares.map((share, place) => (share - this.kept[place]!) / this.leftOver)
        : undefined;
    this.objective = new ShadeObjective(target, model, lights);
    this.size = searchSize({ solids: solids.length, kept: this.keptPlaces.length, parts, leastShare, step });
    this.units = this.size.units;
    this.least = this.size.least;
    this.sizes = this.size.sizes;
    const { largest } = this.size;
    this.ownGram = new Float64Array(largest * largest);
    this.drawn = new Float64Array(largest);
    this.solver = new SimplexLeastSquares(largest);
    this.refinement = new Refinement(this.objective, largest);
  }

  private get grams(): readonly [colour: Float64Array, curve: Float64Array] {
    if (this.gramsKnown === undefined) {
      const atTarget = this.objective.at(this.objective.targetValues);
      this.gramsKnown = [atTarget.curvature(this.columns), atTarget.curvature(this.columns, false)];
    }
    return this.gramsKnown;
  }

  private withKept(): Float64Array[] {
    const fixed = mixed(this.solids, Float64Array.from(this.kept), new Float64Array(BANDS));
    return this.solids.map((column) => column.map((value, band) => fixed[band]! + this.leftOver * value));
  }

  /** The shares of all the solids in a recipe. */
  sharesOf({ used, shares }: Candidate): number[] {
    const all = this.kept.map(() => 0);
    used.forEach(
      (place, index) => (all[place] = this.units > 0 ? shares[index]! : this.shareOf(place, shares[index]!)),
    );
    return all;
  }

  private shareOf(place: number, part: number): number {
    return this.kept[place]! + this.leftOver * part;
  }

  /** How well the sets of solids are searched, by how many there are. */
  private searchBySets(): Search {
    const { sets } = this.size;
    if (sets > MOST_SUBSETS) return "heuristic";
    return sets > ALL_REFINED ? "near-best" : "all";
  }

  /** The nearest recipes: in whole steps as wanted, else still to be polished and some to spare. */
  nearest(): { found: Candidate[]; search: Search } {
    const shortlist = new Shortlist(this.choices, this.units === 0);
    if (this.units > 0 && this.size.recipes <= MOST_TRIED) {
      for (const size of this.sizes) this.eachSet(size, (used) => this.enterBestInSteps(used.slice(), shortlist));
      return { found: shortlist.best, search: "all" };
    }
    const search = this.searchBySets();
    if (search === "heuristic") {
      const seen = this.addedAndExchanged();
      for (const candidate of seen) this.enter(candidate, shortlist);
      if (shortlist.errorOf(this.choices) >= OUT_OF_REACH) {
        for (const { used } of seen) this.enter(this.startAgain(used, shortlist.enough), shortlist);
      }
      return { found: shortlist.best, search };
    }
    const promising = this.promising();
    // Size by size, each as if there were no larger one, so that one more solid never loses what fewer had found.
    for (const size of this.sizes) {
      const sets = promising.filter((used) => used.length === size);
      this.enterValley();
      for (const used of sets) {
        if (!this.isOut(used, shortlist.enough)) this.enter(this.refine(used, shortlist.enough), shortlist);
      }
      this.lookAgain(sets, shortlist, search);
    }
    if (this.choices > 1 && this.size.eachAlone && shortlist.errorOf(1) >= FAR_OUT_OF_REACH) {
      this.lookAtEachAlone(shortlist);
    }
    return { found: shortlist.best, search };
  }

  /**
   * Far out of reach no blend surely tells of another, so each set is refined as if there were no other. Only where
   * several recipes are asked for: a single one so far off is no match, and is refused by whoever asks.
   */
  private lookAtEachAlone(shortlist: Shortlist): void {
    for (let size = Math.max(1, this.keptPlaces.length); size <= this.size.largest; size++) {
      this.eachSet(size, (used) => {
        this.enterValley();
        for (const end of [this.refine(used), this.startAgain(used, Infinity)]) {
          if (end) shortlist.offer(this.polish(end));
        }
      });
    }
  }

  private enter(candidate: Candidate | undefined, shortlist: Shortlist): void {
    if (candidate === undefined || candidate.error >= shortlist.enough) return;
    const offered = this.units > 0 ? this.round(candidate) : candidate;
    if (offered) shortlist.offer(offered);
  }

  private enterBestInSteps(used: readonly number[], shortlist: Shortlist): void {
    const best = bestInSteps(this.objective, this.solidsOf(used), this.units, this.stepLimits(used));
    if (best) shortlist.offer({ used, ...best });
  }

  /** Every set of so many solids, with those that must be used; the array may be used again each time. */
  private eachSet(size: number, visit: (used: readonly number[]) => void): void {
    const { keptPlaces } = this;
    if (keptPlaces.length === 0) return eachSubset(this.columns.length, size, visit);
    const free = this.columns.map((_, place) => place).filter((place) => keptPlaces.indexOf(place) < 0);
    eachSubset(free.length, size - keptPlaces.length, (chosen) =>
      visit(sorted([...keptPlaces, ...chosen.map((index) => free[index]!)])),
    );
  }

  /** The sets of solids to be refined, the most promising by least squares first: what is near early spares the rest. */
  private promising(): (readonly number[])[] {
    const subsets = this.size.sets;
    const objectives = new Float64Array(subsets);
    let place = 0;
    const each = (visit: (used: readonly number[]) => void): void => {
      place = 0;
      for (const size of this.sizes) {
        this.eachSet(size, (used) => {
          visit(used);
          place++;
        });
      }
    };
    each((used) => {
      const problem = this.straightened(used, this.grams[0]);
      objectives[place] = objectiveOf(problem, this.solver.solve(problem));
    });
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
    for (const used of sets) {
      if (!this.isOut(used, shortlist.enough)) this.enter(this.startAgain(used, shortlist.enough), shortlist);
    }
    if (search !== "all" || shortlist.errorOf(1) < FAR_OUT_OF_REACH) return;
    for (let size = Math.max(1, this.keptPlaces.length); size < this.size.largest; size++) {
      if (!isLookedOver(size, this.columns.length, this.size)) continue;
      this.eachSet(size, (used) => {
        this.enter(this.refine(used, shortlist.enough), shortlist);
        this.enter(this.startAgain(used, shortlist.enough), shortlist);
      });
    }
  }

  /**
   * Does a tangent of the error, taken where another set of solids came nearest, show that this set stays further off?
   * It holds for every blend, of whatever solids.
   */
  private isOut(used: readonly number[], enough: number): boolean {
    const { drawn } = this;
    for (const { error, pulls } of this.tangents) {
      if (error <= enough) continue;
      for (let index = 0; index < used.length; index++) drawn[index] = pulls[used[index]!]!;
      const fall = TANGENT_SAFETY * furthestFall(drawn, used.length, this.least);
      if (error - fall > enough) return true;
    }
    return false;
  }

  /** Where the same start led other solids: to a blend of some of these, from which the rest of these does not draw it. */
  private knownEnd(used: readonly number[], start: Guess): Candidate | undefined {
    for (const { error, startError, pulls, support, parts } of this.tangents) {
      if (
        startError === start.error &&
        support?.every((place) => used.indexOf(place) >= 0) &&
        used.every((place) => support.indexOf(place) >= 0 || pulls[place]! <= SAME_BLEND * error)
      ) {
        const shares = Float64Array.from(used, (place) => parts[support.indexOf(place)] ?? 0);
        return { used: used.slice(), shares, error };
      }
    }
    return undefined;
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
    const known = this.knownEnd(used, start);
    if (known) return known;
    const columns = this.columnsOf(used);
    const { shares, error, settled } = this.refinement.from(start.shares, columns, this.least, enough);
    const pulls = this.refinement.pulls(this.columns);
    const free = { shares, error };
    const most = this.mostOf(used);
    const limited = settled && most ? this.withinMost(columns, most, free, this.least) : free;
    // Held back by a limit, the least share too, it is not the nearest of its set for other sets to be measured by.
    const isNearest = settled && limited === free && this.least === 0;
    const [support, parts]: [number[] | undefined, number[]] = [isNearest ? [] : undefined, []];
    for (let index = 0; support && index < used.length; index++) {
      if (shares[index]! <= 0) continue;
      support.push(used[index]!);
      parts.push(shares[index]!);
    }
    this.tangents[this.next++ % MOST_TANGENTS] = { error, startError: start.error, pulls, support, parts };
    return settled && limited ? { used: used.slice(), ...limited } : undefined;
  }

  private mostOf(used: readonly number[]): number[] | undefined {
    const { most } = this;
    return most && used.map((place) => most[place]!);
  }

  /**
   * The nearest with no part over its greatest. Where the nearest without limits passes some, one of those is at its
   * limit in the nearest within them, because the error falls all the way from there; the rest is the same question
   * about the others with that part mixed in.
   */
  private withinMost(
    columns: readonly Float64Array[],
    most: readonly number[],
    free: Guess,
    least: number,
    costs?: readonly number[],
  ): Guess | undefined {
    const over = most.map((_, index) => index).filter((index) => free.shares[index]! > most[index]! + AT_LIMIT);
    if (over.length === 0) return free;
    let best: (Guess & { readonly worth: number }) | undefined;
    for (const fixed of over) {
      const share = most[fixed]!;
      const left = 1 - share;
      const others = most.map((_, index) => index).filter((index) => index !== fixed);
      const room = others.reduce((sum, index) => sum + most[index]!, 0);
      if (share < least || room < left - AT_LIMIT) continue;
      const part = columns[fixed]!;
      const rest = others.map((index) => columns[index]!.map((value, band) => share * part[band]! + left * value));
      const restLeast = least / left;
      const restCosts = costs && others.map((index) => left * costs[index]!);
      const start = startOf(
        others.map((index) => free.shares[index]!),
        restLeast,
      );
      const nearest = this.refinement.from(start, rest, restLeast, Infinity, restCosts);
      const restMost = others.map((index) => most[index]! / left);
      const within = this.withinMost(rest, restMost, nearest, restLeast, restCosts);
      if (within === undefined) continue;
      const shares = new Float64Array(columns.length);
      shares[fixed] = share;
      others.forEach((index, place) => (shares[index] = left * within.shares[place]!));
      const worth = within.error + (costs ? share * costs[fixed]! : 0);
      if (!best || worth < best.worth) best = { shares, error: within.error, worth };
    }
    return best;
  }

  /** What was learnt in one valley says nothing of another. */
  private enterValley(): void {
    this.tangents.length = 0;
    this.next = 0;
  }

  private startAgain(used: readonly number[], enough: number): Candidate | undefined {
    if (used.length < 2) return undefined;
    const start = this.least > 0 ? bestPair(this.objective, this.columnsOf(used), this.least) : this.bestPairOf(used);
    return this.settle(used, start, enough);
  }

  polish({ used, shares }: Candidate): Candidate {
    return {
      used,
      ...polished(this.objective, this.columnsOf(used), shares, this.least, undefined, this.mostOf(used)),
    };
  }

  level(candidate: Candidate): Candidate {
    const { used } = candidate;
    return { used, ...levelled(this.objective, this.columnsOf(used), candidate, this.least, this.mostOf(used)) };
  }

  private round({ used, shares }: Candidate): Candidate | undefined {
    const whole = Float64Array.from(shares, (part, index) => this.shareOf(used[index]!, part));
    const rounded = inWholeSteps(this.objective, this.solidsOf(used), whole, this.units, this.stepLimits(used));
    return rounded && { used, ...rounded };
  }

  private stepLimits(used: readonly number[]): StepLimits {
    return {
      fewest: used.map((place) => Math.max(this.size.leastUnits, Math.ceil(this.kept[place]! * this.units - 1e-9))),
      most: used.map((place) => Math.floor(this.mostShares[place]! * this.units + 1e-9)),
    };
  }

  /** Of every set that comes within the error, the cheapest blend that does. */
  cheapest(prices: readonly number[], within: number): { found: Candidate[]; search: Search } {
    const allowed = within * (1 + 1e-9);
    const near: Candidate[] = [];
    const keep = (candidate: Candidate | undefined): void => {
      if (candidate && candidate.error <= allowed) near.push(candidate);
    };
    const search = this.searchBySets();
    if (search === "heuristic") {
      for (const candidate of this.addedAndExchanged()) keep(candidate);
    } else {
      for (const used of this.promising()) if (!this.isOut(used, allowed)) keep(this.refine(used, allowed));
    }
    const byCost = (candidates: Candidate[], costOf: (candidate: Candidate) => number): Candidate[] =>
      candidates
        .map((candidate) => ({ candidate, cost: costOf(candidate) }))
        .sort((a, b) => a.cost - b.cost || a.candidate.error - b.candidate.error)
        .map(({ candidate }) => candidate);
    const shareCost = (candidate: Candidate): number =>
      this.sharesOf(candidate).reduce((sum, share, place) => sum + share * prices[place]!, 0);
    const cheaper = byCost(near, shareCost)
      .slice(0, MOST_CHEAPENED)
      .map((candidate) => this.cheapened(candidate, prices, allowed))
      .filter((candidate): candidate is Candidate => candidate !== undefined);
    const found = firstOfEachSet(byCost(cheaper, shareCost));
    // What is rounded and then cheapened step by step may miss the cheapest.
    if (this.units > 0) return { found, search: search === "all" ? "near-best" : search };
    const exact = found.slice(0, this.choices + SPARE).map((candidate) => this.levelCost(candidate, prices, allowed));
    return { found: firstOfEachSet(byCost(exact, shareCost)), search };
  }

  /** The cheapest blend of the same solids within the error: what a share costs counts as much as the error allows. */
  private cheapened(candidate: Candidate, prices: readonly number[], within: number): Cheapened | undefined {
    const { used } = candidate;
    const columns = this.columnsOf(used);
    const most = this.mostOf(used);
    const tilted = (weight: number, from: Guess): Guess | undefined => {
      const costs = costsAt(weight, used, prices);
      const free = this.refinement.from(from.shares, columns, this.least, Infinity, costs);
      const { shares } = most ? (this.withinMost(columns, most, free, this.least, costs) ?? from) : free;
      return { shares, error: errorOf(this.objective, columns, shares) };
    };
    let best: Guess = candidate;
    let [low, high] = [0, Infinity];
    let weight = Math.max(within, 1e-6);
    for (let round = 0; round < HALVINGS; round++) {
      const guess = tilted(weight, best);
      if (guess && guess.error <= within) {
        best = guess;
        low = weight;
      } else {
        high = weight;
      }
      if (weight > 1e6) break;
      weight = high === Infinity ? weight * 4 : (low + high) / 2;
      if (high - low < 1e-9 * high) break;
    }
    if (this.units === 0) return { used, ...best, weight: low };
    for (const start of [best, candidate]) {
      const rounded = this.round({ used, ...start });
      if (!rounded || rounded.error > within) continue;
      const own = used.map((place) => prices[place]!);
      const limits = this.stepLimits(used);
      const solids = this.solidsOf(used);
      return { used, ...cheaperInSteps(this.objective, solids, rounded.shares, this.units, limits, own, within) };
    }
    return undefined;
  }

  /** The same to all digits: what a share costs is weighed until the error is what is allowed, less what rounding takes. */
  private levelCost(candidate: Cheapened, prices: readonly number[], allowed: number): Candidate {
    const { used, weight = 0 } = candidate;
    const columns = this.columnsOf(used);
    const most = this.mostOf(used);
    const at = (part: number): Guess =>
      levelled(this.objective, columns, candidate, this.least, most, costsAt(weight * part, used, prices));
    const target = allowed * (1 - FOR_ROUNDING);
    let [one, other] = [1 - BESIDE, 1 + BESIDE];
    let [near, far] = [at(one), at(other)];
    for (let round = 0; round < MOST_SECANTS && near.error !== far.error; round++) {
      const next = one + ((other - one) * (target - near.error)) / (far.error - near.error);
      [one, other, near, far] = [next, one, at(next), near];
    }
    return Math.abs(near.error - target) < FOR_ROUNDING * target ? { used, ...near } : candidate;
  }

  /** Least squares over one set of solids, straightened at the target; it stands until the next is asked for. */
  private straightened(used: readonly number[], gram: Float64Array): ShareProblem {
    const size = used.length;
    const count = this.columns.length;
    const own = this.ownGram;
    for (let row = 0; row < size; row++) {
      const start = used[row]! * count;
      for (let column = 0; column < size; column++) own[row * size + column] = gram[start + used[column]!]!;
    }
    return { gram: own, size, least: this.least };
  }

  /** From the better of two first guesses: by colour, and by the whole curve (exact where the target is a blend). */
  private refine(used: readonly number[], enough = Infinity): Candidate | undefined {
    const columns = this.columnsOf(used);
    const guesses = this.grams.map((gram) => {
      const shares = this.solver.solve(this.straightened(used, gram));
      return { shares, error: errorOf(this.objective, columns, shares) };
    }) as [Guess, Guess];
    const start = guesses[0].error < guesses[1].error ? guesses[0] : guesses[1];
    return this.settle(used, start, enough);
  }

  private columnsOf(used: readonly number[]): Float64Array[] {
    return used.map((place) => this.columns[place]!);
  }

  private solidsOf(used: readonly number[]): Float64Array[] {
    return used.map((place) => this.solids[place]!);
  }

  /**
   * From what must be used, or the best single solid, one more at a time, each time exchanging single solids as long as
   * that helps. A set that the limits leave no blend of leads nowhere and is passed over.
   */
  private addedAndExchanged(): Candidate[] {
    const seen: Candidate[] = [];
    const { keptPlaces } = this;
    const everySolid = this.columns.map((_, place) => place);
    const bestOf = (sets: readonly (readonly number[])[], sofar?: Candidate): Candidate | undefined => {
      let best = sofar;
      for (const used of sets) {
        const candidate = this.refine(used) ?? this.unlimited(used);
        seen.push(candidate);
        if (!best || candidate.error < best.error * (1 - 1e-9)) best = candidate;
      }
      return best;
    };
    const without = (used: readonly number[]): number[] => everySolid.filter((place) => used.indexOf(place) < 0);
    let current = keptPlaces.length > 0 ? bestOf([keptPlaces]) : undefined;
    for (let size = keptPlaces.length + 1; size <= this.size.largest; size++) {
      const used: readonly number[] = current ? current.used : [];
      current = bestOf(without(used).map((place) => sorted([...used, place])));
      for (;;) {
        const { used: now } = current as Candidate;
        const exchanges = ([] as number[][]).concat(
          ...now
            .filter((out) => keptPlaces.indexOf(out) < 0)
            .map((out) => without(now).map((place) => sorted([...now.filter((kept) => kept !== out), place]))),
        );
        const better = bestOf(exchanges, current);
        if (better === current) break;
        current = better;
      }
    }
    return seen;
  }

  /** A set that the limits leave no blend of; more solids may make one possible. */
  private unlimited(used: readonly number[]): Candidate {
    return { used, shares: new Float64Array(used.length), error: Infinity };
  }
}

/** A start for some of the shares, in the proportions they had. */
function startOf(had: readonly number[], least: number): Float64Array {
  const room = 1 - had.length * least;
  const above = had.map((share) => Math.max(0, share - least));
  const sum = above.reduce((all, share) => all + share, 0);
  return Float64Array.from(above, (share) => least + room * (sum > 0 ? share / sum : 1 / had.length));
}

function firstOfEachSet(candidates: readonly Candidate[]): Candidate[] {
  const sets = new Set<string>();
  return candidates.filter(({ used, shares }) => {
    const set = used.filter((_, index) => shares[index]! > UNUSED).join();
    return !sets.has(set) && sets.add(set);
  });
}

/** Errors less apart are the same to every eye; which of them is less is another in another runtime. */
const SAME_ERROR = 1e-12;

/** The best of each set of solids that is really used, nearest first, of equals the first set. */
function distinct(candidates: Candidate[]): Candidate[] {
  const rank = ({ error }: Candidate): number => Math.round(error / SAME_ERROR);
  return firstOfEachSet(candidates.sort((a, b) => rank(a) - rank(b) || inOrderOfSets(a.used, b.used)));
}

function inOrderOfSets(a: readonly number[], b: readonly number[]): number {
  const place = a.findIndex((solid, index) => solid !== b[index]);
  return place < 0 ? a.length - b.length : a[place]! - (b[place] ?? -1);
}

function sorted(places: number[]): number[] {
  return places.sort((a, b) => a - b);
}
