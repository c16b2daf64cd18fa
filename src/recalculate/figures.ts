import { effectsOf, type Effects } from "./parts";

/** One run: the drawn inputs and what one outcome showed. */
export interface Run {
  readonly inputs: readonly number[];
  readonly value: number;
  /** The block of the sampling that it belongs to. */
  readonly block: number;
}

/** A figure and its standard error. */
export interface Figure {
  readonly value: number;
  readonly error: number;
}

export interface Figures {
  readonly mean: Figure;
  readonly deviation: Figure;
  /** By the share in percent: 5, 25, 50, 75, 95. */
  readonly percentiles: ReadonlyMap<number, Figure>;
  /** How often the outcome is on the wanted side of each limit. */
  readonly chances: readonly Chance[];
  readonly parts: readonly Part[];
}

/** What one input, alone, brings into the variance of the outcome. */
export interface Part extends Figure {
  /** The place of the input in the list. */
  readonly input: number;
  /** The mean of the outcome, as fitted, in the tenth of the runs in which the input is lowest, and highest. */
  readonly low: number;
  readonly high: number;
}

export interface Chance extends Figure {
  readonly limit: Limit;
}

export interface Limit {
  readonly relation: "<" | "<=" | ">" | ">=";
  readonly value: number;
}

export const PERCENTS = [5, 25, 50, 75, 95] as const;

/** The standard errors come from leaving out one group after the other. */
const MOST_GROUPS = 20;

/**
 * The figures of an outcome. Every standard error is a jackknife over groups of whole blocks: the blocks of a Latin
 * hypercube are independent of each other and the runs within one are not.
 */
export function figuresOf(runs: readonly Run[], moving: readonly number[], limits: readonly Limit[] = []): Figures {
  const groups = groupsOf(runs);
  const left = groups.map((_, out) => groups.flatMap((group, index) => (index === out ? [] : group)));
  const values = runs.map(({ value }) => value);
  const leftValues = left.map((some) => some.map(({ value }) => value));
  const figure = (of: (some: readonly number[]) => number) => figureOf(of(values), leftValues.map(of));
  const sorted = ascending(values);
  const leftSorted = leftValues.map(ascending);
  const percentile = (percent: number) =>
    figureOf(
      percentileOf(sorted, percent / 100),
      leftSorted.map((some) => percentileOf(some, percent / 100)),
    );
  const effects = effectsOf(groups, moving);
  return {
    mean: figure(meanOf),
    deviation: figure((some) => Math.sqrt(varianceOf(some))),
    percentiles: new Map(PERCENTS.map((percent) => [percent, percentile(percent)])),
    chances: limits.map((limit) => ({
      limit,
      ...figure((some) => meanOf(some.map((one) => Number(keeps(one, limit))))),
    })),
    parts: moving.map((input, place) => partOf(input, effects, place, meanOf(values))),
  };
}

function partOf(input: number, { all, without, ends }: Effects, place: number, mean: number): Part {
  const { value, error } = figureOf(
    all[place] as number,
    without.map((parts) => parts[place] as number),
  );
  const { low, high } = ends[place] as Effects["ends"][number];
  // Without bias the estimate of a part that is nothing falls below 0 as often as above.
  return { input, value: Math.min(1, Math.max(0, value)), error, low: mean + low, high: mean + high };
}

function keeps(value: number, { relation, value: limit }: Limit): boolean {
  switch (relation) {
    case "<":
      return value < limit;
    case "<=":
      return value <= limit;
    case ">":
      return value > limit;
    case ">=":
      return value >= limit;
  }
}

/** Groups of whole blocks, as even as they come. */
function groupsOf(runs: readonly Run[]): Run[][] {
  const blocks = [...new Set(runs.map(({ block }) => block))].sort((a, b) => a - b);
  const count = Math.min(MOST_GROUPS, blocks.length);
  const groupOf = new Map(blocks.map((block, place) => [block, place % count]));
  const groups = Array.from({ length: count }, (): Run[] => []);
  for (const run of runs) groups[groupOf.get(run.block) as number]?.push(run);
  return groups;
}

/** A figure with the standard error of the jackknife: B. Efron, "The Jackknife, the Bootstrap and Other Resampling Plans", 1982. */
function figureOf(value: number, without: readonly number[]): Figure {
  const count = without.length;
  if (count < 2) return { value, error: 0 };
  const middle = meanOf(without);
  const spread = without.reduce((sum, one) => sum + (one - middle) ** 2, 0);
  return { value, error: Math.sqrt(((count - 1) / count) * spread) };
}

function meanOf(values: readonly number[]): number {
  const first = values[0] ?? 0;
  // Around the first value, so that figures that hardly differ lose no digits.
  return first + values.reduce((sum, value) => sum + (value - first), 0) / Math.max(1, values.length);
}

function varianceOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1);
}

function ascending(values: readonly number[]): number[] {
  return [...values].sort((a, b) => a - b);
}

/** As PERCENTILE.INC: between the two values around the place, in proportion. */
export function percentileOf(sorted: readonly number[], share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] as number;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] as number;
  return low + (place - below) * (high - low);
}
