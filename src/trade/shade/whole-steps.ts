import { handedOut } from "../whole-counts";
import type { ShadeObjective } from "./shade-objective";
import { errorOf, type Guess } from "./shade-refinement";

/** What a share must be short of a whole step, or of another's remainder, to be told from it. */
const SAME_STEP = 1e-9;
/** The part of the error, or of the cost, that an exchange must bring. */
const WORTH_AN_EXCHANGE = 1e-9;

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
    const nearer = trial < error * (1 - WORTH_AN_EXCHANGE);
    if (nearer) error = trial;
    return nearer;
  });
  return { shares: inShares(counts, units), error };
}

/** The best of all recipes in whole steps that use every solid. */
export function bestInSteps(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  units: number,
  { fewest, most }: StepLimits,
): Guess | undefined {
  const shares = new Float64Array(columns.length);
  let best: Guess | undefined;
  const fill = (place: number, left: number): void => {
    const last = place === columns.length - 1;
    const from = Math.max(1, fewest[place]!, last ? left : 0);
    for (let count = from; count <= Math.min(left, most[place]!); count++) {
      shares[place] = count / units;
      if (!last) {
        fill(place + 1, left - count);
        continue;
      }
      const error = errorOf(objective, columns, shares);
      if (best === undefined || error < best.error) best = { shares: shares.slice(), error };
    }
  };
  fill(0, units);
  return best;
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
    if (trialCost >= cost * (1 - WORTH_AN_EXCHANGE)) return false;
    const trial = errorOf(objective, columns, inShares(counts, units));
    if (trial > within) return false;
    [cost, error] = [trialCost, trial];
    return true;
  });
  return { shares: inShares(counts, units), error };
}

function inShares(counts: readonly number[], units: number): Float64Array {
  const shares = new Float64Array(counts.length);
  for (let index = 0; index < counts.length; index++) shares[index] = counts[index]! / units;
  return shares;
}

function wholeCounts(shares: Float64Array, units: number, { fewest, most }: StepLimits): number[] | undefined {
  const counts = Array.from(shares, (share, index) =>
    Math.min(most[index]!, Math.max(fewest[index]!, Math.floor(share * units + SAME_STEP))),
  );
  const lack = (index: number): number => shares[index]! * units - counts[index]!;
  return handedOut(units, counts, {
    mayGain: (index) => counts[index]! < most[index]!,
    mayLose: (index) => counts[index]! > fewest[index]!,
    lacksMore: (one, other) => lack(one) - lack(other) > SAME_STEP,
  });
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
