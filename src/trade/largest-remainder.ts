import { Decimal, isOrdinary, MOST_SHOWN, shownNumber } from "./decimal";
import { inOrder } from "./in-order";
import { asShown, roundHalfAway, sum, type Amount } from "./money";
import { dividedByZero, impossible, type Subject } from "./refusal";

/** Three roundings of a weight, a total and a product, and a quotient's: less than 8 of the half units of 2^-53. */
const BINARY_ERROR = 2 ** -50;
/** Whole numbers of doubles that may still be added up. */
const MOST_ADDED = 2 ** 52;

/** Weights as their cells show them, ready to share out any number of amounts. */
export class Weights {
  private readonly shown: readonly Amount[];
  private readonly binary: readonly number[];
  private readonly total: Decimal;

  constructor(weights: readonly Amount[]) {
    this.shown = weights.map(
      (weight) => (typeof weight === "number" ? shownNumber(weight) : undefined) ?? asShown(weight),
    );
    this.binary = this.shown.map(Number);
    this.total = sum(this.shown);
  }

  /**
   * Shares a number of indivisible units out by largest remainder: each gets the whole part of its exact share, and
   * the units left over go to the largest remainders, the first of equals first. Always sums to `units`.
   */
  share(given: Decimal, subject: Subject): Amount[] {
    if (this.total.isZero()) dividedByZero(subject, "0 in all", "must not sum to 0");
    const units = given.abs();
    const parts = this.inNumbers(units) ?? this.inDecimals(units);
    if (!given.isNegative()) return parts;
    return parts.map((part) => (typeof part === "number" ? 0 - part : part.negated()));
  }

  /**
   * In doubles with a bound on their error; remainders that it leaves in doubt are compared in decimals. Undefined where
   * doubles or their whole numbers end. A share so near to a whole number that it is taken for the other side of it comes to
   * the same: what it then has left, all of a unit or less than nothing, is the first to gain or the last.
   */
  inNumbers(units: Decimal): number[] | undefined {
    const [wanted, divisor, count] = [units.toNumber(), this.total.toNumber(), this.binary.length];
    const [wholes, remainders] = [new Array<number>(count), new Float64Array(count)];
    let [added, sizes, furthest] = [0, 0, 0];
    for (let index = 0; index < count; index++) {
      const share = wanted * ((this.binary[index] as number) / divisor);
      const whole = Math.floor(share) + 0;
      wholes[index] = whole;
      remainders[index] = share - whole;
      added += whole;
      sizes += Math.abs(whole);
      furthest = Math.max(furthest, Math.abs(share));
    }
    if (!(isOrdinary(divisor) && sizes <= MOST_ADDED)) return undefined;
    const left = wanted - added;
    if (left === 0) return wholes;

    const threshold = inOrder(remainders.slice(), count - left);
    const doubt = 2.01 * furthest * BINARY_ERROR;
    const doubtful: number[] = [];
    const sure: number[] = [];
    for (let index = 0; index < count; index++) {
      const beyond = (remainders[index] as number) - threshold;
      if (beyond > doubt) sure.push(index);
      else if (beyond >= -doubt) doubtful.push(index);
    }
    const others = this.largestRests(units, wholes, doubtful).slice(0, left - sure.length);
    for (const index of sure.concat(others)) wholes[index]!++;
    return wholes;
  }

  /** The same in decimals throughout. */
  inDecimals(units: Decimal): Decimal[] {
    const parts = this.shown.map((weight) => units.times(weight).div(this.total).floor());
    const order = this.largestRests(
      units,
      parts,
      parts.map((_, index) => index),
    );
    const left = units.minus(sum(parts)).toNumber();
    for (const index of order.slice(0, left)) parts[index] = (parts[index] as Decimal).plus(1);
    return parts;
  }

  /** These parts, what is left of their exact shares from the most to the least, the first of equals first. */
  private largestRests(units: Decimal, parts: readonly Amount[], among: number[]): number[] {
    const rests = new Map<Amount, Decimal>();
    const restOf = (index: number): Decimal => {
      const weight = this.shown[index] as Amount;
      let rest = rests.get(weight);
      if (rest === undefined) {
        // For a total below 0 both signs turn.
        rest = units
          .times(weight)
          .minus(this.total.times(parts[index] as Amount))
          .times(this.total.isNegative() ? -1 : 1);
        rests.set(weight, rest);
      }
      return rest;
    };
    return among.sort((a, b) => restOf(b).cmp(restOf(a)) || a - b);
  }
}

/** Indivisible units shared out by weight, by largest remainder. */
export function largestRemainder(units: Decimal, weights: readonly Amount[], subject: Subject = "weights"): Amount[] {
  return new Weights(weights).share(units, subject);
}

/** An amount shared out by weight to so many decimals; the parts sum to the rounded amount exactly. */
export function apportion(
  amount: Amount,
  weights: readonly Amount[] | Weights,
  decimals = 2,
  subject: Subject = "weights",
): Amount[] {
  const unit = new Decimal(Number(`1e${-decimals}`));
  const units = roundHalfAway(amount, decimals).div(unit).toDecimalPlaces(0);
  if (units.abs().gte(MOST_SHOWN)) {
    impossible("the amount", String(amount), `with ${decimals} decimals it has more digits than can be kept`);
  }
  const ready = weights instanceof Weights ? weights : new Weights(weights);
  const [over, times] = [10 ** Math.max(0, decimals), 10 ** Math.max(0, -decimals)];
  const parts = ready.share(units, subject);
  for (let index = 0; index < parts.length; index++) {
    const part = parts[index] as Amount;
    const isPlain = typeof part === "number" && Math.abs(part) < MOST_SHOWN;
    parts[index] = isPlain ? (part * times) / over : unit.times(part);
  }
  return parts;
}
