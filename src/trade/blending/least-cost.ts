import { beyondSettling, settledAmounts, solveLinearProgramme, type Limit } from "../solvers/linear-programme";
import { absent, at, said, type Place } from "../refusal";
import { binding, expectShareBounds } from "./share-bounds";

/** Relative to the limit: nearer than this a limit counts as met, and a slack as none. */
const NEGLIGIBLE = 1e-9;
/** Relative change below which the extreme of a mean has been found. */
const SETTLED = 1e-12;

/** One property of the components and what the blend's mean of it must keep to; the bounds are infinite where open. */
export interface PropertyLimit {
  readonly values: readonly number[];
  /**
   * What a unit of mass of each component counts for in the mean: 1 in a mean by mass; the length of fibre in it,
   * 1/(d²(1 + cv²)), in a mean fibre diameter as an instrument reads it. Linear in the shares either way.
   */
  readonly weights: readonly number[];
  readonly least: number;
  readonly most: number;
}

/** One side of a property's limit; in the table of limits the minima come first, then the maxima. */
interface Side {
  readonly place: Place;
  readonly property: PropertyLimit;
  readonly bound: number;
  /** 1 for a minimum, -1 for a maximum. */
  readonly sense: 1 | -1;
  /** Σ coefficient × share >= 0 is what the limit says, in units of its largest coefficient. */
  readonly coefficients: readonly number[];
}

/** Shares of the cheapest blend within the limits; when there is none, the refusal names a limit that cannot be met. */
export function leastCostShares(
  prices: readonly number[],
  properties: readonly PropertyLimit[],
  minShare: readonly number[],
  maxShare: readonly number[],
): number[] {
  expectShareBounds(minShare, maxShare);
  const sides = sidesOf(properties);
  const limits = [...sides.map(({ coefficients }) => ({ coefficients, least: 0 })), ...shareLimits(minShare, maxShare)];
  const solution = solveLinearProgramme({ direction: "least", objective: prices, limits });
  if (solution.kind === "optimal") return solution.amounts;
  if (solution.kind === "unsettled") beyondSettling("limits");
  for (const side of sides) refuseAlone(side, minShare, maxShare);
  return refuseTogether(sides, minShare, maxShare);
}

function sidesOf(properties: readonly PropertyLimit[]): Side[] {
  const sides: Side[] = [];
  properties.forEach((property, column) => {
    const add = (bound: number, sense: 1 | -1) => {
      if (!Number.isFinite(bound)) return;
      // A mean of at least L: Σ x·w·p / Σ x·w >= L, so Σ x·w·(p - L) >= 0.
      const rise = property.values.map((value, index) => sense * (property.weights[index] as number) * (value - bound));
      const size = Math.max(...rise.map(Math.abs), Number.MIN_VALUE);
      const place = at("limits", sense === 1 ? 0 : 1, column);
      sides.push({ place, property, bound, sense, coefficients: rise.map((entry) => entry / size) });
    };
    add(property.least, 1);
    add(property.most, -1);
  });
  return sides;
}

function shareLimits(minShare: readonly number[], maxShare: readonly number[]): Limit[] {
  const limits: Limit[] = [{ coefficients: minShare.map(() => 1), least: 1, most: 1 }];
  minShare.forEach((low, place) => {
    const { least, most } = binding(low, maxShare[place] as number);
    const coefficients = minShare.map((_, index) => (index === place ? 1 : 0));
    limits.push({ coefficients, least }, { coefficients, most });
  });
  return limits;
}

function meanOf({ values, weights }: PropertyLimit, shares: readonly number[]): number {
  let [sum, whole] = [0, 0];
  shares.forEach((share, index) => {
    const weight = share * (weights[index] as number);
    sum += weight * (values[index] as number);
    whole += weight;
  });
  return sum / whole;
}

/** Refuses a limit that no blend of these components could meet even if it were the only one. */
function refuseAlone(side: Side, minShare: readonly number[], maxShare: readonly number[]): void {
  const { place, property, bound, sense } = side;
  const towards = (goal: number): number => {
    const gain = property.values.map((value, i) => sense * (property.weights[i] as number) * (value - goal));
    return meanOf(property, filledByGain(gain, minShare, maxShare));
  };
  // The mean is a ratio; its extreme is found by moving the goal to what was reached (Dinkelbach 1967).
  let reached = towards(bound);
  for (let next = towards(reached); sense * (next - reached) > SETTLED * Math.abs(reached); next = towards(reached)) {
    reached = next;
  }
  if (sense * (reached - bound) >= -NEGLIGIBLE * Math.max(Math.abs(bound), Math.abs(reached))) return;
  const extreme = sense === 1 ? "most" : "least";
  absent(place, String(bound), `these components reach ${shown(reached)} at the ${extreme}`);
}

/** Every component at its least, then the rest to those of greatest gain. */
function filledByGain(gain: readonly number[], minShare: readonly number[], maxShare: readonly number[]): number[] {
  const shares = minShare.slice();
  let left = 1 - shares.reduce((sum, share) => sum + share, 0);
  const order = gain.map((_, index) => index).sort((a, b) => (gain[b] as number) - (gain[a] as number) || a - b);
  for (const index of order) {
    const more = Math.max(0, Math.min(left, (maxShare[index] as number) - (shares[index] as number)));
    (shares[index] as number) += more;
    left -= more;
  }
  return shares;
}

/** Solves again with a slack on every limit, as little as will do, and names the limits that needed it. */
function refuseTogether(sides: readonly Side[], minShare: readonly number[], maxShare: readonly number[]): never {
  const slack = (own: number) => sides.map((_, index) => (index === own ? 1 : 0));
  const none = sides.map(() => 0);
  const amounts = settledAmounts("limits", {
    direction: "least",
    objective: [...minShare.map(() => 0), ...sides.map(() => 1)],
    limits: [
      ...sides.map(({ coefficients }, own) => ({ coefficients: [...coefficients, ...slack(own)], least: 0 })),
      ...shareLimits(minShare, maxShare).map((limit) => ({ ...limit, coefficients: [...limit.coefficients, ...none] })),
    ],
  });
  const shares = amounts.slice(0, minShare.length);
  const short = sides
    .map((side, index): Short => ({ side, by: amounts[minShare.length + index] as number }))
    .sort((a, b) => b.by - a.by);
  const [first, second] = short as [Short, Short | undefined];
  const { place, property, bound, sense } = first.side;
  if (second !== undefined && second.by > NEGLIGIBLE) {
    absent(place, String(bound), said`cannot be met together with ${second.side.place}`);
  }
  const reached = `${shown(meanOf(property, shares))} at the ${sense === 1 ? "most" : "least"}`;
  absent(place, String(bound), `beside the other limits it reaches ${reached}`);
}

interface Short {
  readonly side: Side;
  readonly by: number;
}

function shown(value: number): string {
  return String(Number(value.toPrecision(6)));
}
