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

/** Sums in decimal: 0.1 + 0.2 is 0.3. By halves, so that no sum rests on a long row of others. */
export function sum(values: readonly (number | Decimal)[], from = 0, to = values.length): Decimal {
  if (to - from > 2) {
    const middle = (from + to) >> 1;
    return sum(values, from, middle).plus(sum(values, middle, to));
  }
  let total = ZERO;
  for (let index = from; index < to; index++) total = total.plus(values[index] as number | Decimal);
  return total;
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

/** Three roundings of a weight, a total and a product, and a quotient's: less than 8 of the half units of 2^-53. */
const BINARY_ERROR = 2 ** -50;
/** Far below any remainder, far above what is lost where doubles end. */
const LEAST_ERROR = 1e-290;
/** Whole numbers of doubles that may still be added up. */
const MOST_ADDED = 2 ** 52;

/** Weights as their cells show them, ready to share out any number of amounts. */
export class Weights {
  private readonly shown: readonly Decimal[];
  private readonly binary: readonly number[];
  private readonly total: Decimal;

  constructor(weights: readonly (number | Decimal)[]) {
    this.shown = weights.map((weight) => asShown(weight));
    this.binary = this.shown.map((weight) => weight.toNumber());
    this.total = sum(this.shown);
  }

  /**
   * Shares a number of indivisible units out by largest remainder: each gets the whole part of its exact share, and
   * the units left over go to the largest remainders, the first of equals first. Always sums to `units`. Binary
   * arithmetic with its error bound decides nearly all of it; where the bound reaches a whole number or another
   * remainder, decimal arithmetic does.
   */
  share(given: Decimal, subject: Subject): Decimal[] {
    if (this.total.isZero()) dividedByZero(subject, "0 in all", "must not sum to 0");
    const units = given.abs();
    const [wanted, divisor] = [units.toNumber(), this.total.toNumber()];
    const count = this.binary.length;
    const [wholes, remainders, errors] = [new Array<number>(count), new Array<number>(count), new Array<number>(count)];
    const exactly = new Map<number, { readonly whole: Decimal; readonly remainder: number }>();
    let added = 0;
    for (let index = 0; index < count; index++) {
      const weight = this.binary[index] as number;
      const binary = wanted * (weight / divisor);
      const error = Math.abs(binary) * BINARY_ERROR + LEAST_ERROR;
      let whole = Math.floor(binary);
      if (binary - error >= whole && binary + error < whole + 1) {
        [remainders[index], errors[index]] = [binary - whole, error];
      } else {
        let exact = exactly.get(weight);
        if (exact === undefined) exactly.set(weight, (exact = this.exactShare(units, index)));
        whole = exact.whole.toNumber();
        [remainders[index], errors[index]] = [exact.remainder, BINARY_ERROR];
      }
      wholes[index] = whole;
      added += Math.abs(whole);
    }
    const parts = wholes.map((whole, index) =>
      added <= MOST_ADDED ? Decimal.short(whole, 0) : this.exactShare(units, index).whole,
    );
    const left = units.minus(sum(parts)).toNumber();
    if (left > 0) {
      const rests = new Map<number, Decimal>();
      const rest = (index: number): Decimal => {
        let known = rests.get(index);
        if (known === undefined) rests.set(index, (known = this.restOf(units, index, parts[index] as Decimal)));
        return known;
      };
      const order = parts.map((_, index) => index);
      order.sort((a, b) => {
        const difference = (remainders[b] as number) - (remainders[a] as number);
        if (Math.abs(difference) > (errors[a] as number) + (errors[b] as number)) return difference;
        return this.binary[a] === this.binary[b] ? a - b : rest(b).cmp(rest(a)) || a - b;
      });
      for (const index of order.slice(0, left)) parts[index] = (parts[index] as Decimal).plus(1);
    }
    return given.isNegative() ? parts.map((part) => part.negated()) : parts;
  }

  private exactShare(units: Decimal, index: number): { readonly whole: Decimal; readonly remainder: number } {
    let whole = units
      .times(this.shown[index] as Decimal)
      .div(this.total)
      .floor();
    let rest = this.restOf(units, index, whole);
    // The quotient of forty digits may have been rounded to the next whole number.
    if (rest.isNegative()) {
      whole = whole.minus(1);
      rest = this.restOf(units, index, whole);
    }
    return { whole, remainder: rest.div(this.total.abs()).toNumber() };
  }

  /** units × weight - whole × total, for a total above 0 as it is and for one below with both signs turned. */
  private restOf(units: Decimal, index: number, whole: Decimal): Decimal {
    const rest = units.times(this.shown[index] as Decimal).minus(this.total.times(whole));
    return this.total.isNegative() ? rest.negated() : rest;
  }
}

/** Indivisible units shared out by weight, by largest remainder. */
export function largestRemainder(
  units: Decimal,
  weights: readonly (number | Decimal)[],
  subject: Subject = "weights",
): Decimal[] {
  return new Weights(weights).share(units, subject);
}

/** An amount shared out by weight to so many decimals; the parts sum to the rounded amount exactly. */
export function apportion(
  amount: number | Decimal,
  weights: readonly (number | Decimal)[] | Weights,
  decimals = 2,
  subject: Subject = "weights",
): Decimal[] {
  const unit = new Decimal(Number(`1e${-decimals}`));
  const units = roundHalfAway(amount, decimals).div(unit).toDecimalPlaces(0);
  if (units.abs().gte(MOST_UNITS)) {
    impossible("the amount", String(amount), `with ${decimals} decimals it has more digits than can be kept`);
  }
  const ready = weights instanceof Weights ? weights : new Weights(weights);
  return ready.share(units, subject).map((whole) => whole.times(unit));
}
