import { asShown, Decimal } from "../money";
import { wholeUp } from "../whole";

/** What a contractor's price list says beside the rate. */
export interface ChargeTerms {
  readonly minimum: number;
  /** Largest quantity of one lot; without it everything is one lot. */
  readonly lotSize: number | undefined;
  readonly lotFee: number;
  /** The surcharge is for quantities below this; without it, for all. */
  readonly below: number | undefined;
  /** Share of all that comes before it. */
  readonly surcharge: number;
}

/** In this order: rate, minimum, lot fees, surcharge. Each acts on all that comes before it; not rounded. */
export function charge(quantity: number, rate: number, terms: ChargeTerms): Decimal {
  const atRate = new Decimal(quantity).times(rate);
  const withMinimum = Decimal.max(atRate, terms.minimum);
  const lots = quantity === 0 ? 0 : terms.lotSize === undefined ? 1 : wholeUp(quantity, terms.lotSize);
  const withLots = withMinimum.plus(new Decimal(terms.lotFee).times(lots));
  const surcharged = terms.below === undefined || asShown(quantity).lt(asShown(terms.below));
  return surcharged ? withLots.times(new Decimal(1).plus(terms.surcharge)) : withLots;
}
