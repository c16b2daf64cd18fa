import { Decimal, MOST_SHOWN, shownNumber } from "./decimal";
import { asShown, roundHalfAway, sum } from "./money";
import { dividedByZero, impossible, type Subject } from "./refusal";

/** Three roundings of a weight, a total and a product, and a quotient's: less than 8 of the half units of 2^-53. */
const BINARY_ERROR = 2 ** -50;
/** Far below any remainder, far above what is lost where doubles end. */
const LEAST_ERROR = 1e-290;
/** Whole numbers of doubles that may still be added up. */
const MOST_ADDED = 2 ** 52;

/** A decimal: a plain number, which means what its cell shows, as long as fifteen digits hold it. */
export type Amount = number | Decimal;

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
   * the units left over go to the largest remainders, the first of equals first. Always sums to `units`. Binary
   * arithmetic with its error bound decides nearly all of it; where the bound reaches a whole number or another
   * remainder, decimal arithmetic does.
   */
  share(given: Decimal, subject: Subject): Amount[] {
    if (this.total.isZero()) dividedByZero(subject, "0 in all", "must not sum to 0");
    const units = given.abs();
    const parts = this.inNumbers(units) ?? this.inDecimals(units);
    if (!given.isNegative()) return parts;
    return parts.map((part) => (typeof part === "number" ? 0 - part : part.negated()));
  }

  /** Undefined where whole numbers of doubles end. */
  private inNumbers(units: Decimal): number[] | undefined {
    const [wanted, divisor, count] = [units.toNumber(), this.total.toNumber(), this.binary.length];
    const [wholes, remainders, errors] = [new Array<number>(count), new Float64Array(count), new Float64Array(count)];
    const exactly = new Map<Amount, { readonly whole: Decimal; readonly remainder: number }>();
    let [added, sizes, furthest] = [0, 0, 0];
    for (let index = 0; index < count; index++) {
      const binary = wanted * ((this.binary[index] as number) / divisor);
      let error = Math.abs(binary) * BINARY_ERROR + LEAST_ERROR;
      let whole = Math.floor(binary);
      let remainder = binary - whole;
      if (!(binary - error >= whole && binary + error < whole + 1)) {
        const weight = this.shown[index] as Amount;
        let exact = exactly.get(weight);
        if (exact === undefined) exactly.set(weight, (exact = this.exactShare(units, weight)));
        whole = exact.whole.toNumber();
        [remainder, error] = [exact.remainder, BINARY_ERROR];
      }
      wholes[index] = whole + 0;
      remainders[index] = remainder;
      errors[index] = error;
      added += whole;
      sizes += Math.abs(whole);
      furthest = Math.max(furthest, error);
    }
    if (!(sizes <= MOST_ADDED && wanted <= MOST_ADDED)) return undefined;
    const left = wanted - added;
    if (left === 0) return wholes;

    const threshold = inOrder(remainders.slice(), count - left);
    const doubtful: number[] = [];
    let surely = 0;
    for (let index = 0; index < count; index++) {
      const beyond = (remainders[index] as number) - threshold;
      if (Math.abs(beyond) <= 2.01 * furthest) doubtful.push(index);
      else if (beyond > 0) {
        wholes[index]!++;
        surely++;
      }
    }
    if (doubtful.length > left - surely) {
      const rests = new Map<number, Decimal>();
      const rest = (index: number): Decimal => {
        let known = rests.get(index);
        if (known === undefined) {
          rests.set(
            index,
            (known = this.restOf(units, this.shown[index] as Amount, new Decimal(wholes[index] as number))),
          );
        }
        return known;
      };
      doubtful.sort((a, b) => {
        const difference = (remainders[b] as number) - (remainders[a] as number);
        if (Math.abs(difference) > (errors[a] as number) + (errors[b] as number)) return difference;
        return this.shown[a] === this.shown[b] ? a - b : rest(b).cmp(rest(a)) || a - b;
      });
    }
    for (const index of doubtful.slice(0, left - surely)) wholes[index]!++;
    return wholes;
  }

  private inDecimals(units: Decimal): Decimal[] {
    const parts = this.shown.map((weight) => this.exactShare(units, weight).whole);
    const rests = parts.map((part, index) => this.restOf(units, this.shown[index] as Amount, part));
    const order = parts.map((_, index) => index);
    order.sort((a, b) => (rests[b] as Decimal).cmp(rests[a] as Decimal) || a - b);
    const left = units.minus(sum(parts)).toNumber();
    for (const index of order.slice(0, left)) parts[index] = (parts[index] as Decimal).plus(1);
    return parts;
  }

  private exactShare(units: Decimal, weight: Amount): { readonly whole: Decimal; readonly remainder: number } {
    let whole = units.times(weight).div(this.total).floor();
    let rest = this.restOf(units, weight, whole);
    // The quotient of forty digits may have been rounded to the next whole number.
    if (rest.isNegative()) {
      whole = whole.minus(1);
      rest = this.restOf(units, weight, whole);
    }
    return { whole, remainder: rest.div(this.total.abs()).toNumber() };
  }

  /** units × weight - whole × total, for a total above 0 as it is and for one below with both signs turned. */
  private restOf(units: Decimal, weight: Amount, whole: Decimal): Decimal {
    const rest = units.times(weight).minus(this.total.times(whole));
    return this.total.isNegative() ? rest.negated() : rest;
  }
}

/** Of parting: twice and more what chance ever takes. */
const MOST_ROUNDS = 80;

/** The value that would stand at a place if they were sorted. They are only parted around it, in a few passes. */
function inOrder(values: Float64Array, place: number): number {
  let [from, to] = [0, values.length - 1];
  for (let round = 0; from < to; round++) {
    if (round > MOST_ROUNDS) return values.sort()[place] as number;
    const middle = values[(from + to) >> 1] as number;
    let [low, high] = [from, to];
    while (low <= high) {
      while ((values[low] as number) < middle) low++;
      while ((values[high] as number) > middle) high--;
      if (low > high) break;
      const value = values[low] as number;
      values[low++] = values[high] as number;
      values[high--] = value;
    }
    if (place <= high) to = high;
    else if (place >= low) from = low;
    else break;
  }
  return values[place] as number;
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
  return ready.share(units, subject).map((part) => {
    const isPlain = typeof part === "number" && Math.abs(part) < MOST_SHOWN;
    return isPlain ? (part * times) / over : unit.times(part);
  });
}
