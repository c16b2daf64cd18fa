import { Decimal as Shared } from "decimal.js";
import { dividedByZero, impossible } from "./refusal";

/** A private constructor, so that nobody's global settings change our sums. Forty digits hold any sum of doubles here. */
export const Decimal = Shared.clone({ defaults: true, precision: 40 });
export type Decimal = Shared;

export const ZERO = new Decimal(0);

/** Digits that a cell can show. Whatever stands behind them is a trace of binary arithmetic. */
const DIGITS_SHOWN = 15;

/**
 * A value as its cell shows it: 1.15 * 3 is 3.45 there, though the double is a trace below it. Whatever is rounded,
 * counted or compared for money, whole numbers or what is left is brought to this first.
 */
export function asShown(value: number | Decimal): Decimal {
  if (typeof value === "number") return new Decimal(value.toPrecision(DIGITS_SHOWN));
  return value.toSignificantDigits(DIGITS_SHOWN);
}

/** Sums in decimal: 0.1 + 0.2 is 0.3. */
export function sum(values: readonly (number | Decimal)[]): Decimal {
  return values.reduce((total: Decimal, value) => total.plus(value), ZERO);
}

/**
 * Rounded half away from zero on what the cell shows, like the sheet's own ROUND: 1.005 gives 1.01, 2.675 gives 2.68,
 * -2.5 gives -3. Negative decimals round to tens, hundreds …
 */
export function roundHalfAway(value: number | Decimal, decimals: number): Decimal {
  return rounded(value, decimals, Decimal.ROUND_HALF_UP);
}

/** Rounded on what a person sees in the cell, in a mode of the decimal package. */
export function rounded(value: number | Decimal, decimals: number, mode: Shared.Rounding): Decimal {
  const exact = asShown(value);
  return decimals >= 0 ? exact.toDecimalPlaces(decimals, mode) : exact.toNearest(new Decimal(10).pow(-decimals), mode);
}

/**
 * Shares a number of indivisible units out by weight, by largest remainder: each gets the whole part of its exact
 * share, and the units left over go to the largest remainders, the first of equals first. Always sums to `units`.
 */
export function largestRemainder(units: Decimal, weights: readonly (number | Decimal)[], name = "weights"): Decimal[] {
  const parts = weights.map(asShown);
  const total = sum(parts);
  if (total.isZero()) dividedByZero(name, "0 in all", "must not sum to 0");
  const wanted = units.abs();
  const shares = parts.map((weight) => {
    const exact = wanted.times(weight).div(total);
    const whole = exact.floor();
    // Cut well above the rounding of the division, so that equal remainders compare as equal.
    return { whole, remainder: exact.minus(whole).toDecimalPlaces(20) };
  });
  let left = wanted.minus(sum(shares.map(({ whole }) => whole))).toNumber();
  const order = shares.map((_, index) => index);
  order.sort((a, b) => (shares[b] as Share).remainder.cmp((shares[a] as Share).remainder) || a - b);
  for (const index of order) {
    if (left <= 0) break;
    const share = shares[index] as Share;
    share.whole = share.whole.plus(1);
    left--;
  }
  return shares.map(({ whole }) => (units.isNegative() ? whole.negated() : whole));
}

interface Share {
  whole: Decimal;
  readonly remainder: Decimal;
}

/** From here on a cell does not show the last unit. */
const MOST_UNITS = 10 ** DIGITS_SHOWN;

/** An amount shared out by weight to so many decimals; the parts sum to the rounded amount exactly. */
export function apportion(
  amount: number | Decimal,
  weights: readonly (number | Decimal)[],
  decimals = 2,
  name = "weights",
): Decimal[] {
  const unit = new Decimal(10).pow(-decimals);
  const units = roundHalfAway(amount, decimals).div(unit);
  if (units.abs().gte(MOST_UNITS)) {
    impossible("the amount", String(amount), `with ${decimals} decimals it has more digits than a cell can hold`);
  }
  return largestRemainder(units, weights, name).map((whole) => whole.times(unit));
}
