import { Decimal, quotient } from "../money";
import { dividedByZero } from "../refusal";

// Margin is the profit on the price, mark-up the profit on the cost: a mark-up of 50% is a margin of 33.3%. In
// decimal, because 1 - 0.55 is not 0.45 in binary and 36 at a margin of 55% must be 80.

/** The price that leaves this margin: cost / (1 - margin). */
export function priceForMargin(cost: number, margin: number): number {
  const left = new Decimal(1).minus(margin);
  if (left.isZero()) dividedByZero("margin", "1", "must be below 1 (100%)");
  return quotient(cost, left);
}

/** The price with this mark-up: cost × (1 + mark-up). */
export function priceForMarkup(cost: number, markup: number): number {
  return new Decimal(1).plus(markup).times(cost).toNumber();
}

/** (price - cost) / price */
export function marginOf(cost: number, price: number): number {
  if (price === 0) dividedByZero("price", "0", "must be above 0");
  return quotient(new Decimal(price).minus(cost), price);
}

/** (price - cost) / cost */
export function markupOf(cost: number, price: number): number {
  if (cost === 0) dividedByZero("cost", "0", "must be above 0");
  return quotient(new Decimal(price).minus(cost), cost);
}
