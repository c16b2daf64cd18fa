import type { Decimal } from "./money";

/** Far below any coin, and few enough that two doubles hold them beside ordinary amounts. */
const DECIMALS_KEPT = 22;

/**
 * amount × part / whole. The quotient is cut to a fixed number of decimals, so that it and what is left of the
 * amount add up to the amount exactly; a quotient of forty digits would leave a remainder that has to be rounded.
 */
export function proportion(amount: Decimal, part: Decimal, whole: Decimal, decimals = DECIMALS_KEPT): Decimal {
  return amount.times(part).div(whole).toDecimalPlaces(decimals);
}
