import { stepsInWhole } from "../blending/practical-shares";
import { subsetCount } from "./subsets";

/** Up to this many sets of solids every one is refined: the answer is the best there is. */
export const ALL_REFINED = 2000;
/** Of more, this many of the best by least squares are refined: the answer is near the best. */
export const BEST_REFINED = 1000;
/** Recipes in whole steps, up to this many, are all tried: what rounds the best shares can miss a better one. */
export const MOST_TRIED = 20_000;
/** So few sets of all sizes are each refined by itself where a shade is far out of reach. */
export const MOST_ALONE = 400;
/** Beyond this many sets, solids are added and exchanged one at a time. */
export const MOST_SUBSETS = 100_000;

/** What a search for a recipe has to choose from. */
export interface SearchTerms {
  /** Solids to be had, and those of them that must be used. */
  readonly solids: number;
  readonly kept: number;
  /** The most solids a recipe may use. */
  readonly parts: number;
  readonly leastShare: number;
  /** Shares are multiples of this; 0 for none. */
  readonly step: number;
}

export interface SearchSize {
  readonly units: number;
  readonly leastUnits: number;
  readonly least: number;
  /** How many solids the sets are of. */
  readonly sizes: readonly number[];
  readonly largest: number;
  /** How many sets of solids there are. */
  readonly sets: number;
  /** How many recipes in whole steps there are at the most; none without steps. */
  readonly recipes: number;
  /** Are all sets, the smaller ones too, so few that each can be refined by itself? */
  readonly eachAlone: boolean;
}

export function searchSize({ solids, kept, parts, leastShare, step }: SearchTerms): SearchSize {
  const units = step > 0 ? stepsInWhole(step) : 0;
  const leastUnits = Math.ceil(leastShare * units - 1e-9);
  const least = units > 0 ? leastUnits / units : leastShare;
  const room = least > 0 ? Math.floor(1 / least + 1e-9) : Infinity;
  const largest = Math.min(parts, solids, room);
  // Without a least share a smaller recipe is a larger one with a share of 0; but it can stand the rounding better.
  const sizes =
    least > 0 || units > 0
      ? Array.from({ length: largest }, (_, index) => index + 1).filter((size) => size >= kept)
      : [largest];
  const setsOf = (size: number): number => subsetCount(solids - kept, size - kept);
  const sum = (count: (size: number) => number): number => sizes.reduce((all, size) => all + count(size), 0);
  const upTo = Array.from({ length: largest - Math.min(kept, largest) + 1 }, (_, index) => kept + index);
  const eachAlone = units === 0 && upTo.reduce((all, size) => all + setsOf(size), 0) <= MOST_ALONE;
  const recipes = units > 0 ? sum((size) => setsOf(size) * subsetCount(units - 1, size - 1)) : 0;
  return { units, leastUnits, least, sizes, largest, sets: sum(setsOf), recipes, eachAlone };
}

/** Far out of reach the smaller sets are looked over too, where there are not too many. */
export function isLookedOver(size: number, solids: number, { sizes }: Pick<SearchSize, "sizes">): boolean {
  return sizes.indexOf(size) < 0 && subsetCount(solids, size) <= ALL_REFINED;
}

/** What the parts of a search take, in units of some microseconds. Measured. */
export const EFFORT = {
  recipesTried: { start: 600, solid: 2, recipe: 1.2 },
  rounding: 1.4,
  exchange: 14,
  start: 2000,
  /** Of a set, by the square of its size. */
  leastSquares: 1 / 8,
  lookedOver: 2.9,
  /** Of a set, by its size. */
  refined: 1.5,
  /** Until there are blends by which others can be dropped, each is refined in full. */
  first: 350,
  mostFirst: 18,
} as const;

/**
 * What a search takes at its worst, by the terms alone: least squares over every set, refinements, and those of smaller
 * sets for a shade out of reach.
 */
export function searchEffort(terms: SearchTerms, lights: number): number {
  const { solids, kept } = terms;
  const size = searchSize(terms);
  const { largest, sets, recipes, units } = size;
  const forEachLight = (2 + lights) / 3;
  if (units > 0 && recipes <= MOST_TRIED) {
    const { start, solid, recipe } = EFFORT.recipesTried;
    return forEachLight * (start + solid * solids + recipe * recipes);
  }
  const rounding = units > 0 ? EFFORT.rounding : 1;
  if (sets > MOST_SUBSETS) {
    return forEachLight * rounding * EFFORT.exchange * solids * largest ** 2 * Math.max(largest, 7);
  }
  const areAllRefined = sets <= ALL_REFINED;
  let smaller = 0;
  for (let count = kept; areAllRefined && count < largest; count++) {
    if (isLookedOver(count, solids, size)) smaller += count ** 2 * subsetCount(solids, count);
  }
  const first = areAllRefined ? Math.min(sets, EFFORT.mostFirst) : 0;
  return (
    forEachLight *
    (EFFORT.start +
      EFFORT.first * first +
      EFFORT.leastSquares * sets * largest ** 2 +
      EFFORT.refined * Math.min(sets, ALL_REFINED) * largest +
      EFFORT.lookedOver * smaller)
  );
}
