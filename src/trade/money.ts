import { Decimal, DIGITS_SHOWN, ZERO } from "./decimal";
import { dividedByZero, impossible, type Subject } from "./refusal";

export { Decimal, ZERO };

/** From here on a cell does not show the last unit. */
const MOST_UNITS = 10 ** DIGITS_SHOWN;

/**
 * A value as its cell shows it: 1.15 * 3 is 3.45 there, though the double is a trace below it. Whatever is rounded,
 * counted or compared for money, whole numbers or what is left is brought to this first.
 */
export function asShown(value: number | Decimal): Decimal {
  return Decimal.shown(value);
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
export function rounded(
  value: number | Decimal,
  decimals: number,
  mode: Parameters<Decimal["toDecimalPlaces"]>[1],
): Decimal {
  return asShown(value).toDecimalPlaces(decimals, mode);
}

/**
 * Shares a number of indivisible units out by weight, by largest remainder: each gets the whole part of its exact
 * share, and the units left over go to the largest remainders, the first of equals first. Always sums to `units`.
 */
export function largestRemainder(
  units: Decimal,
  weights: readonly (number | Decimal)[],
  subject: Subject = "weights",
): Decimal[] {
  const shown = weights.map((weight) => asShown(weight));
  const total = sum(shown);
  if (total.isZero()) dividedByZero(subject, "0 in all", "must not sum to 0");
  const shares = sharesOf(units.abs(), shown, total);
  let left = units
    .abs()
    .minus(sum(shares.map(({ whole }) => whole)))
    .toNumber();
  const order = shares.map((_, index) => index);
  order.sort((a, b) => compareRemainders(shares[b] as Share, shares[a] as Share) || a - b);
  const parts = shares.map(({ whole }) => (typeof whole === "number" ? new Decimal(whole) : whole));
  for (const index of order) {
    if (left <= 0) break;
    parts[index] = (parts[index] as Decimal).plus(1);
    left--;
  }
  return units.isNegative() ? parts.map((part) => part.negated()) : parts;
}

/** A part before the units left over are given away. */
interface Share {
  readonly weight: number;
  readonly whole: number | Decimal;
  /** In binary, no further from the true remainder than the error. */
  readonly remainder: number;
  readonly error: number;
  /** The true remainder times the total, worked out when the binary one does not decide. */
  readonly exactly: () => Decimal;
}

/** Three roundings of a weight, a total and a product, and a quotient's: less than 8 of the half units of 2^-53. */
const BINARY_ERROR = 2 ** -50;
/** Far below any remainder, far above what is lost where doubles end. */
const LEAST_ERROR = 1e-290;

/**
 * The whole parts and remainders of units × weight / total. Binary arithmetic with its error bound decides nearly all
 * of them; where the bound reaches a whole number, decimal arithmetic does.
 */
function sharesOf(units: Decimal, weights: readonly Decimal[], total: Decimal): Share[] {
  const [wanted, divisor] = [units.toNumber(), total.toNumber()];
  const known = new Map<number, Share>();
  return weights.map((exactWeight) => {
    const weight = exactWeight.toNumber();
    let share = known.get(weight);
    if (share === undefined) {
      const binary = wanted * (weight / divisor);
      const error = Math.abs(binary) * BINARY_ERROR + LEAST_ERROR;
      const floor = Math.floor(binary);
      const certain = binary - error >= floor && binary + error < floor + 1;
      share = certain
        ? binaryShare(weight, floor, binary - floor, error, () => restOf(units.times(exactWeight), floor, total))
        : decimalShare(weight, units.times(exactWeight), total);
      known.set(weight, share);
    }
    return share;
  });
}

function binaryShare(weight: number, whole: number, remainder: number, error: number, rest: () => Decimal): Share {
  let exact: Decimal | undefined;
  return { weight, whole, remainder, error, exactly: () => (exact = exact ?? rest()) };
}

function decimalShare(weight: number, product: Decimal, total: Decimal): Share {
  let whole = product.div(total).floor();
  let rest = restOf(product, whole, total);
  // The quotient of forty digits may have been rounded to the next whole number.
  if (rest.isNegative() && !rest.isZero()) {
    whole = whole.minus(1);
    rest = restOf(product, whole, total);
  }
  return { weight, whole, remainder: rest.div(total.abs()).toNumber(), error: BINARY_ERROR, exactly: () => rest };
}

/** product - whole × total, for a total above 0 as it is and for one below with both signs turned. */
function restOf(product: Decimal, whole: number | Decimal, total: Decimal): Decimal {
  const rest = product.minus(total.times(whole));
  return total.isNegative() ? rest.negated() : rest;
}

function compareRemainders(a: Share, b: Share): number {
  const difference = a.remainder - b.remainder;
  if (Math.abs(difference) > a.error + b.error) return difference;
  return a.weight === b.weight ? 0 : a.exactly().cmp(b.exactly());
}

/** An amount shared out by weight to so many decimals; the parts sum to the rounded amount exactly. */
export function apportion(
  amount: number | Decimal,
  weights: readonly (number | Decimal)[],
  decimals = 2,
  subject: Subject = "weights",
): Decimal[] {
  const unit = new Decimal(Number(`1e${-decimals}`));
  const units = roundHalfAway(amount, decimals).div(unit);
  if (units.abs().gte(MOST_UNITS)) {
    impossible("the amount", String(amount), `with ${decimals} decimals it has more digits than can be kept`);
  }
  return largestRemainder(units, weights, subject).map((whole) => whole.times(unit));
}
