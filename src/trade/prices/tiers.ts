import { Decimal, ZERO } from "../money";
import { refuse } from "../refusal";

/**
 * How a price list with quantity breaks is read. "all units": the whole quantity at the rate of its tier, so that the
 * cost drops just past a break. "incremental": each part at its own tier's rate. "next break": as all units, but
 * billed at a later break where that is cheaper, which takes the drop away.
 */
export type TierMode = "all units" | "incremental" | "next break";

/** Breaks start at 0 and rise, and each has its rate. */
export function checkBreaks(breaks: readonly number[], rates: readonly number[]): void {
  if (rates.length < breaks.length) {
    refuse(`rates item ${rates.length + 1}`, "missing", `give one rate for each of the ${breaks.length} breaks`);
  }
  if (rates.length > breaks.length) {
    refuse(`breaks item ${breaks.length + 1}`, "missing", `give one break for each of the ${rates.length} rates`);
  }
  breaks.forEach((start, index) => {
    const before = breaks[index - 1];
    if (before === undefined) {
      if (start !== 0) refuse("breaks item 1", String(start), "the first break must be 0");
    } else if (start <= before) {
      refuse(`breaks item ${index + 1}`, String(start), `must be above item ${index}, which is ${before}`);
    }
  });
}

/** Cost of a quantity (0 or more) by breaks that checkBreaks has passed; not rounded. */
export function tieredCost(
  quantity: number,
  breaks: readonly number[],
  rates: readonly number[],
  mode: TierMode,
): Decimal {
  if (mode === "incremental") return incrementalCost(quantity, breaks, rates);
  let tier = breaks.length - 1;
  while ((breaks[tier] as number) > quantity) tier--;
  let cost = new Decimal(rates[tier] as number).times(quantity);
  if (mode === "next break") {
    // Any later break, not only the next: else a second drop close behind would still make more cost less.
    for (let later = tier + 1; later < breaks.length; later++) {
      cost = Decimal.min(cost, new Decimal(rates[later] as number).times(breaks[later] as number));
    }
  }
  return cost;
}

function incrementalCost(quantity: number, breaks: readonly number[], rates: readonly number[]): Decimal {
  return breaks.reduce((sofar: Decimal, start, tier) => {
    const end = Math.min(quantity, breaks[tier + 1] ?? Infinity);
    return end > start ? sofar.plus(new Decimal(end).minus(start).times(rates[tier] as number)) : sofar;
  }, ZERO);
}
