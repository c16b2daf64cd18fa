import type { Decimal } from "./money";

/** Far below any coin, and few enough that sums with ordinary amounts stay inside the forty digits of Decimal. */
const DECIMALS_KEPT = 24;

/**
 * amount × part / whole. The quotient is cut to a fixed number of decimals, so that it and what is left of the
 * amount add up to the amount exactly; a quotient of forty digits would leave a remainder that has to be rounded.
 */
export function proportion(amount: Decimal, part: Decimal, whole: Decimal): Decimal {
  return amount.times(part).div(whole).toDecimalPlaces(DECIMALS_KEPT);
}
