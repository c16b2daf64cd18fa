import { asShown, Decimal, ZERO } from "../money";
import { at, refuse, said } from "../refusal";

/**
 * How a price list with quantity breaks is read. "all units": the whole quantity at the rate of its tier, so that the
 * cost drops just past a break. "incremental": each part at its own tier's rate. "next break": as all units, but
 * billed at a later break where that is cheaper, which takes the drop away.
 */
export type TierMode = "all units" | "incremental" | "next break";

/** Breaks start at 0 and rise, and each has its rate. */
export function checkBreaks(breaks: readonly number[], rates: readonly number[]): void {
  if (rates.length < breaks.length) {
    refuse(at("rates", rates.length), "missing", `give one rate for each of the ${breaks.length} breaks`);
  }
  if (rates.length > breaks.length) {
    refuse(at("breaks", breaks.length), "missing", `give one break for each of the ${rates.length} rates`);
  }
  breaks.forEach((start, index) => {
    const before = breaks[index - 1];
    if (before === undefined) {
      if (start !== 0) refuse(at("breaks", 0), String(start), "the first break must be 0");
    } else if (asShown(start).lte(asShown(before))) {
      refuse(at("breaks", index), String(start), said`must be above ${at("breaks", index - 1)}, which is ${before}`);
    }
  });
}

/** Costs by one price list, for as many quantities as are asked for. */
export class PriceList {
  private readonly breaks: readonly number[];
  private readonly rates: readonly number[];
  /** The least that a bill at this break or a later one comes to. */
  private readonly leastFrom: readonly Decimal[];
  /** What all before a break costs when each part is at its own rate. */
  private readonly before: readonly Decimal[];

  constructor(breaks: readonly number[], rates: readonly number[]) {
    checkBreaks(breaks, rates);
    this.breaks = breaks.map((start) => asShown(start).toNumber());
    this.rates = rates;
    const leastFrom = new Array<Decimal>(breaks.length);
    const before = new Array<Decimal>(breaks.length);
    let sofar = ZERO;
    this.breaks.forEach((start, tier) => {
      if (tier > 0) {
        const last = this.breaks[tier - 1] as number;
        sofar = sofar.plus(new Decimal(start).minus(last).times(rates[tier - 1] as number));
      }
      before[tier] = sofar;
    });
    for (let tier = breaks.length - 1; tier >= 0; tier--) {
      const bill = new Decimal(this.breaks[tier] as number).times(rates[tier] as number);
      const later = leastFrom[tier + 1];
      leastFrom[tier] = later === undefined ? bill : Decimal.min(bill, later);
    }
    this.leastFrom = leastFrom;
    this.before = before;
  }

  /** Cost of a quantity, 0 or more; not rounded. */
  cost(given: number, mode: TierMode): Decimal {
    const quantity = asShown(given);
    const tier = this.tierOf(quantity.toNumber());
    const rate = this.rates[tier] as number;
    if (mode === "incremental") {
      return quantity
        .minus(this.breaks[tier] as number)
        .times(rate)
        .plus(this.before[tier] as Decimal);
    }
    const own = quantity.times(rate);
    // Any later break, not only the next: else a second drop close behind would still make more cost less.
    const later = mode === "next break" ? this.leastFrom[tier + 1] : undefined;
    return later === undefined ? own : Decimal.min(own, later);
  }

  /** The last break that the quantity reaches. */
  private tierOf(quantity: number): number {
    let low = 0;
    let high = this.breaks.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((this.breaks[middle] as number) <= quantity) low = middle;
      else high = middle;
    }
    return low;
  }
}
