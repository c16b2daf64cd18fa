import { Digits, ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, type Rounding } from "./digits";

type Step = "plus" | "minus" | "times" | "over" | "decimals" | "digits";

/** How a value came about, to be worked out again in forty digits where two doubles do not decide. */
interface Origin {
  readonly step: Step;
  readonly first: Decimal;
  readonly second: Decimal | number;
  /** All that lead here. */
  readonly steps: number;
}

/** Digits that a cell can show. Whatever stands behind them is a trace of binary arithmetic. */
export const DIGITS_SHOWN = 15;
/** Up to here doubles hold every whole number; a sum or product that comes to it may have been rounded down to it. */
const MOST_WHOLE = 2 ** 53;
/** Powers of ten that doubles hold exactly. */
const POWERS = Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
const MOST_SCALE = POWERS.length - 1;
/** Of a value that may have any number of decimals. */
const NO_SCALE = 99;
/** Units of each scale in one, nearly: looking them up costs a tenth of raising ten to a power. */
const UNITS = Array.from({ length: NO_SCALE + 1 }, (_, scale) => 10 ** scale);
/** From here on a cell does not show the last unit. */
export const MOST_SHOWN = 10 ** DIGITS_SHOWN;
/** Decimals of figures that are added up in whole units. */
const MOST_SUMMED = 9;
const [SMALLEST, GREATEST] = [1e-120, 1e120];
/** Relative errors of sums, products and quotients of pairs of doubles; each more than twice what it can be. */
const [SUM_ERROR, PRODUCT_ERROR, QUOTIENT_ERROR] = [2 ** -102, 2 ** -101, 2 ** -99];
/** What two doubles that are split into decimals can be off by, relative to them. */
const SPLIT_ERROR = 2 ** -100;
/** What rests on more steps is worked out in forty digits at once, so that no value leads back for ever. */
const MOST_STEPS = 250;

/**
 * A decimal number of forty digits, worked out as the sum of two doubles with a bound on its error: the filtered way of
 * exact geometry. Where the bound decides a comparison, a rounding or the nearest double, as it nearly always does,
 * that is all; where it reaches a tie, the same steps are taken again digit by digit. Short decimals, up to
 * 2^53 units of a power of ten, are exact as long as their sums and products are short.
 */
export class Decimal {
  static readonly ROUND_UP = ROUND_UP;
  static readonly ROUND_DOWN = ROUND_DOWN;
  static readonly ROUND_HALF_UP = ROUND_HALF_UP;
  static readonly ROUND_HALF_EVEN = ROUND_HALF_EVEN;

  private high = 0;
  private low = 0;
  private bound = 0;
  /** The value is units / 10^scale exactly; NaN where that is not known or they are too many. */
  private units = NaN;
  /** Its decimals at the most. */
  private scale = NO_SCALE;
  private origin: Origin | undefined = undefined;
  private digits: Digits | undefined = undefined;

  /** The decimal as written: 0.1 is a tenth and not the double beside it. */
  constructor(value: number | string);
  constructor(value?: number | string) {
    if (typeof value === "number") this.read(value);
    else if (typeof value === "string") this.know(Digits.of(value));
  }

  static max(one: Decimal | number, other: Decimal | number): Decimal {
    const [a, b] = [decimal(one), decimal(other)];
    return a.cmp(b) >= 0 ? a : b;
  }

  static min(one: Decimal | number, other: Decimal | number): Decimal {
    const [a, b] = [decimal(one), decimal(other)];
    return a.cmp(b) <= 0 ? a : b;
  }

  /** A value as its cell shows it, to fifteen digits; a double with more is rounded as the double that it is. */
  static shown(value: number | Decimal): Decimal {
    if (typeof value !== "number") return value.toSignificantDigits(DIGITS_SHOWN);
    const typed = new Blank();
    if (typed.readShort(value))
      return typed.isShort(DIGITS_SHOWN) ? typed : new Decimal(value.toPrecision(DIGITS_SHOWN));
    return roundedDigits(value, 0, 0, DIGITS_SHOWN) ?? new Decimal(shownText(value));
  }

  /**
   * The sum of the short decimals among them, as long as it is short itself: whole units of one power of ten, without a
   * step for each. Others are put aside.
   */
  static sumOfShort(values: readonly Amount[], others: Amount[]): Amount | undefined {
    let [scale, power, total] = [0, 1, 0];
    // By index: rows of ten are summed by the thousand, and a step of an iterator costs as much as the sum.
    for (let index = 0; index < values.length; index++) {
      const value = values[index] as Amount;
      let units = unitsIn(value, power, scale);
      if (!isKnown(units)) {
        const finer = finerScale(value, scale);
        if (finer === NO_SCALE) {
          others.push(value);
          continue;
        }
        total *= POWERS[finer - scale] as number;
        [scale, power] = [finer, POWERS[finer] as number];
        units = unitsIn(value, power, scale);
      }
      if (!(Math.abs(total) < MOST_WHOLE)) return undefined;
      total += units;
    }
    if (Math.abs(total) < MOST_SHOWN) return total / power;
    return Math.abs(total) < MOST_WHOLE ? short(total, scale) : undefined;
  }

  /** A plain number where fifteen digits hold it, which lists of them are kept as. */
  plain(): Amount {
    return Math.abs(this.units) < MOST_SHOWN ? this.high : this;
  }

  /** In whole units of 10^-scale; NaN if it is not, or has more than fifteen digits of them. */
  unitsAt(scale: number): number {
    const units = this.units * (POWERS[scale - this.scale] ?? NaN);
    return Math.abs(units) < MOST_SHOWN ? units : NaN;
  }

  plus(addend: Decimal | number): Decimal {
    const other = decimal(addend);
    return this.sum("plus", other, other.units, other.high, other.low);
  }

  minus(subtrahend: Decimal | number): Decimal {
    const other = decimal(subtrahend);
    return this.sum("minus", other, -other.units, -other.high, -other.low);
  }

  times(factor: Decimal | number): Decimal {
    const other = decimal(factor);
    if (this.units === 0 || other.units === 0) return ZERO;
    const units = this.units * other.units;
    const scale = this.scale + other.scale;
    if (Math.abs(units) < MOST_WHOLE && scale <= MOST_SCALE) return short(units, scale);
    const product = this.high * other.high;
    const error = productError(this.high, other.high, product) + (this.high * other.low + this.low * other.high);
    const high = product + error;
    const bound =
      Math.abs(high) * PRODUCT_ERROR +
      (this.bound * (Math.abs(other.high) + other.bound) + other.bound * Math.abs(this.high)) * 1.01;
    return this.then("times", other, high, error - (high - product), bound, scale);
  }

  div(divisor: Decimal | number): Decimal {
    const other = decimal(divisor);
    if (this.units === 0 && Math.abs(other.high) > other.bound) return ZERO;
    const quotient = this.high / other.high;
    const product = quotient * other.high;
    const rest = this.high - product - productError(quotient, other.high, product) + (this.low - quotient * other.low);
    const more = rest / other.high;
    const high = quotient + more;
    const size = Math.abs(other.high);
    const bound = Math.abs(high) * QUOTIENT_ERROR + ((this.bound + Math.abs(high) * other.bound) / size) * 2.1;
    return this.then("over", other, high, more - (high - quotient), other.bound < size / 2 ? bound : Infinity);
  }

  negated(): Decimal {
    return this.times(MINUS_ONE);
  }

  abs(): Decimal {
    return this.isNegative() ? this.negated() : this;
  }

  cmp(value: Decimal | number): number {
    const other = decimal(value);
    if (this.scale === other.scale && isKnown(this.units) && isKnown(other.units)) {
      return Math.sign(this.units - other.units);
    }
    const difference = this.high - other.high + (this.low - other.low);
    const doubt = this.bound + other.bound + (Math.abs(this.high) + Math.abs(other.high)) * SUM_ERROR;
    if (Math.abs(difference) > 1.01 * doubt) return Math.sign(difference);
    return this.inDigits().cmp(other.inDigits());
  }

  eq(other: Decimal | number): boolean {
    return this.cmp(other) === 0;
  }

  gt(other: Decimal | number): boolean {
    return this.cmp(other) > 0;
  }

  gte(other: Decimal | number): boolean {
    return this.cmp(other) >= 0;
  }

  lt(other: Decimal | number): boolean {
    return this.cmp(other) < 0;
  }

  lte(other: Decimal | number): boolean {
    return this.cmp(other) <= 0;
  }

  isZero(): boolean {
    if (isKnown(this.units)) return this.units === 0;
    return Math.abs(this.high) > this.bound ? false : this.inDigits().isZero();
  }

  isNegative(): boolean {
    if (isKnown(this.units)) return this.units < 0;
    return Math.abs(this.high) > this.bound ? this.high < 0 : this.inDigits().isNegative();
  }

  floor(): Decimal {
    const floor = this.wholePart(Math.floor(this.high), 1);
    return floor === undefined ? known(this.inDigits().floor()) : short(floor, 0);
  }

  ceil(): Decimal {
    const ceiling = this.wholePart(Math.ceil(this.high), -1);
    return ceiling === undefined ? known(this.inDigits().ceil()) : short(ceiling, 0);
  }

  /** Rounded half away from zero to so many decimals, or in another mode; negative decimals are tens, hundreds … */
  toDecimalPlaces(decimals: number, mode: Rounding = Decimal.ROUND_HALF_UP): Decimal {
    if (this.scale <= decimals) return this;
    if (isKnown(this.units)) {
      const power = POWERS[this.scale - decimals];
      if (power !== undefined) {
        const whole = divided(this.units, power, mode);
        return decimals >= 0 ? short(whole, decimals) : short(whole * (POWERS[-decimals] as number), 0);
      }
    }
    if (mode === Decimal.ROUND_HALF_UP) {
      const rounded = roundedDecimals(this.high, this.low, this.bound, decimals, this.scale);
      if (rounded !== undefined) return rounded;
      const { high, low, bound } = this;
      // More digits than whole numbers hold: two doubles hold them.
      const units = UNITS[decimals] as number;
      if (Math.abs(high) * units > MOST_WHOLE) {
        const by = toWhole(high, low, bound, decimals);
        const off = isKnown(by) ? Math.abs(high) * PRODUCT_ERROR : bound + 1 / units;
        return this.then("decimals", decimals, high, isKnown(by) ? low + by : low, off, decimals);
      }
    }
    return known(this.inDigits().toDecimalPlaces(decimals, mode));
  }

  /** Rounded half away from zero to so many digits. */
  toSignificantDigits(digits: number): Decimal {
    if (this.isShort(digits)) return this;
    if (digits > DIGITS_SHOWN) {
      const off = Math.abs(this.high) * 10 ** (1 - digits);
      return this.then("digits", digits, this.high, this.low, this.bound + off);
    }
    return (
      roundedDigits(this.high, this.low, this.bound, digits, this.scale) ??
      known(this.inDigits().toSignificantDigits(digits))
    );
  }

  /** The nearest double. */
  toNumber(): number {
    const { high, low, bound } = this;
    if (isKnown(this.units)) return high;
    if (bound < GREATEST && high + (low + bound) === high && high + (low - bound) === high) return high;
    return this.inDigits().toNumber();
  }

  valueOf(): number {
    return this.toNumber();
  }

  toString(): string {
    return this.inDigits().toString();
  }

  /** Never with an exponent. */
  toFixed(): string {
    return this.inDigits().toFixed();
  }

  private sum(step: "plus" | "minus", other: Decimal, units: number, high: number, low: number): Decimal {
    if (units === 0) return this;
    if (this.scale === other.scale) {
      const sum = this.units + units;
      if (Math.abs(sum) < MOST_WHOLE) return short(sum, this.scale);
    } else {
      const scale = Math.max(this.scale, other.scale);
      // One stands as it is and the other is even, so that their sum is exact where it is small enough.
      const sum = this.units * (POWERS[scale - this.scale] as number) + units * (POWERS[scale - other.scale] as number);
      if (Math.abs(sum) < MOST_WHOLE) return short(sum, scale);
    }
    const sum = this.high + high;
    const error = sumError(this.high, high, sum) + (this.low + low);
    const total = sum + error;
    const bound = this.bound + other.bound + (Math.abs(this.high) + Math.abs(high)) * SUM_ERROR;
    return this.then(step, other, total, error - (total - sum), bound, Math.max(this.scale, other.scale));
  }

  /** The value after a step from this one. Where two doubles leave one decimal of its scale, how it came about is left. */
  private then(
    step: Step,
    second: Decimal | number,
    high: number,
    low: number,
    bound: number,
    scale = NO_SCALE,
  ): Decimal {
    const next = new Blank();
    next.high = high;
    next.low = low;
    next.bound = isOrdinary(high) || (high === 0 && step !== "times" && step !== "over") ? bound : Infinity;
    next.scale = Math.min(scale, NO_SCALE);
    const size = Math.abs(high);
    if (isSplit(size) && (bound + size * SPLIT_ERROR) * (UNITS[scale] as number) < 0.45) return next;
    const steps = 1 + Math.max(stepsTo(this.origin), typeof second === "number" ? 0 : stepsTo(second.origin));
    next.origin = { step, first: this, second, steps };
    if (steps > MOST_STEPS) next.know(next.inDigits());
    return next;
  }

  /** Is it exact and of no more digits? */
  private isShort(digits: number): boolean {
    return Math.abs(this.units) < (POWERS[digits] ?? 1e22);
  }

  /** `candidate`, if the value lies less than 1 from it on the side of `sense`. */
  private wholePart(candidate: number, sense: 1 | -1): number | undefined {
    if (isKnown(this.units)) {
      const power = POWERS[this.scale] as number;
      const rest = this.units % power;
      const cut = (this.units - rest) / power;
      return rest * sense < 0 ? cut - sense : cut;
    }
    const beyond = (this.high - candidate + this.low) * sense;
    const doubt = this.bound + Math.abs(this.low) * 2 ** -40;
    return beyond >= doubt && beyond + doubt < 1 ? candidate : undefined;
  }

  /** Reads a double as the shortest decimal that means it: what was typed, and what the cell shows. */
  private read(value: number): void {
    if (this.readShort(value)) return;
    const size = Math.abs(value);
    // Beyond these, and where the search below ends, forty digits decide everything.
    this.high = value;
    this.bound = Infinity;
    if (!isSplit(size)) return;
    // The nearest decimal of fifteen digits, of sixteen, of seventeen: the first that means this double.
    const ahead = Math.floor(Math.log10(size)) + 1;
    for (let digits = DIGITS_SHOWN; digits <= DIGITS_SHOWN + 3; digits++) {
      const power = POWERS[digits - ahead] as number;
      const scaled = value * power;
      const candidate = Math.round(scaled);
      const rest = scaled - candidate + productError(value, power, scaled);
      const over = halfEven(rest, candidate);
      const low = (over - rest) / power;
      if (value + low !== value) continue;
      if (Math.abs(candidate) < 1e15) return this.setShort(candidate, digits - ahead);
      this.low = low;
      this.bound = size * PRODUCT_ERROR;
      this.scale = digits - ahead;
      return;
    }
  }

  /** Whole numbers and figures of few decimals, as most are. */
  private readShort(value: number): boolean {
    const size = Math.abs(value);
    if (size <= MOST_WHOLE && Math.floor(size) === size) {
      this.units = this.high = value + 0;
      this.scale = 0;
      return true;
    }
    for (let scale = 1; scale <= 4; scale++) {
      const power = POWERS[scale] as number;
      const units = Math.round(value * power);
      // Whole units over an exact power are the one decimal of up to fifteen digits.
      if (units / power !== value || !(Math.abs(units) < 1e15)) continue;
      this.setShort(units, scale);
      return true;
    }
    return false;
  }

  private setShort(units: number, scale: number): void {
    const power = POWERS[scale] as number;
    this.units = units + 0;
    this.scale = scale;
    this.high = units / power + 0;
    this.low = this.bound = 0;
    if (scale === 0) return;
    const product = this.high * power;
    this.low = (units - product - productError(this.high, power, product)) / power;
    this.bound = Math.abs(this.high) * SUM_ERROR;
  }

  /** From here on the value is these digits; how it came about is forgotten. */
  private know(digits: Digits): void {
    this.digits = digits;
    this.origin = undefined;
    this.high = digits.toNumber();
    this.bound = Infinity;
    if (!Number.isFinite(this.high)) return;
    const nearest = new Decimal(this.high);
    const rest = digits.minus(Digits.of(this.high));
    if (rest.isZero() && isKnown(nearest.units)) return this.setShort(nearest.units, nearest.scale);
    this.low = nearest.low + rest.toNumber();
    if (isOrdinary(this.high)) this.bound = nearest.bound + Math.abs(this.high) * PRODUCT_ERROR;
  }

  private inDigits(): Digits {
    return this.digits ?? (this.digits = this.workedOut());
  }

  private workedOut(): Digits {
    if (this.origin === undefined) {
      if (isKnown(this.units)) return Digits.of(`${this.units}e-${this.scale}`);
      const high = Digits.of(this.high);
      if (this.scale === NO_SCALE) return high;
      return high.plus(Digits.of(this.low - new Decimal(this.high).low)).toDecimalPlaces(this.scale);
    }
    const { first, second, step } = this.origin;
    const one = first.inDigits();
    if (typeof second === "number") {
      return step === "decimals" ? one.toDecimalPlaces(second) : one.toSignificantDigits(second);
    }
    const other = second.inDigits();
    if (step === "plus") return one.plus(other);
    if (step === "minus") return one.minus(other);
    return step === "times" ? one.times(other) : one.over(other);
  }

  /** units / 10^scale. */
  static short(units: number, scale: number): Decimal {
    const made = new Blank();
    made.setShort(units, scale);
    return made;
  }

  static known(digits: Digits): Decimal {
    const made = new Blank();
    made.know(digits);
    return made;
  }
}

/** A decimal: a plain number, which means what its cell shows, as long as fifteen digits hold it. */
export type Amount = number | Decimal;

function stepsTo(origin: Origin | undefined): number {
  return origin === undefined ? 0 : origin.steps;
}

/** The same class, for a value whose parts are filled in by a step. */
const Blank = Decimal as unknown as new () => Decimal;
const { short, known } = Decimal;
export const ZERO = new Decimal(0);
const MINUS_ONE = new Decimal(-1);

export function decimal(value: Amount): Decimal {
  return typeof value === "number" ? new Decimal(value) : value;
}

/** Is a double of this size read as the decimal that means it and what that is off? */
function isSplit(size: number): boolean {
  return size < 1e15 && size > 1e-7;
}

/** Is it so far from where doubles end that no error term overflows or gets lost? */
export function isOrdinary(value: number): boolean {
  const size = Math.abs(value);
  return size < GREATEST && size > SMALLEST;
}

/** Whole units over an exact power are the one decimal of up to fifteen digits; NaN for any other. */
function unitsIn(value: Amount, power: number, scale: number): number {
  if (typeof value !== "number") return value.unitsAt(scale);
  const units = Math.round(value * power);
  return units / power === value && Math.abs(units) < MOST_SHOWN ? units : NaN;
}

/** The next scale of figures that are added up in which a value is whole units. */
function finerScale(value: Amount, than: number): number {
  for (let scale = than + 1; scale <= MOST_SUMMED; scale++) {
    if (isKnown(unitsIn(value, POWERS[scale] as number, scale))) return scale;
  }
  return NO_SCALE;
}

/** The double nearest to a quotient; that of whole units of one power of ten is the nearest as it stands. */
export function quotient(dividend: Amount, divisor: Amount): number {
  for (let scale = 0; scale <= MOST_SUMMED; scale++) {
    const power = POWERS[scale] as number;
    const units = unitsIn(dividend, power, scale);
    const times = isKnown(units) ? units / unitsIn(divisor, power, scale) : NaN;
    if (isKnown(times)) return times;
  }
  return decimal(dividend).div(divisor).toNumber();
}

/** The double that means what the cell of another shows, its fifteen digits; undefined towards the ends of doubles. */
export function shownNumber(value: number): number | undefined {
  for (let scale = 0; scale <= 4; scale++) {
    if (isKnown(unitsIn(value, POWERS[scale] as number, scale))) return value + 0;
  }
  if (!isOrdinary(value)) return undefined;
  const decimals = decimalsOf(value, DIGITS_SHOWN);
  const units = nearestWhole(value, 0, 0, decimals);
  return isKnown(units) ? units / (POWERS[decimals] as number) : Number(shownText(value));
}

/** To the digits shown; what they would round beyond the end of doubles stays as it is. */
function shownText(value: number): string {
  const text = value.toPrecision(DIGITS_SHOWN);
  return Number.isFinite(Number(text)) ? text : String(value);
}

function isKnown(units: number): boolean {
  return units === units;
}

/** What a sum of doubles lost in rounding, exactly (Knuth). */
function sumError(a: number, b: number, sum: number): number {
  const part = sum - a;
  return a - (sum - part) + (b - part);
}

const SPLITTER = 2 ** 27 + 1;

/** What a product of doubles lost in rounding, exactly (Dekker). */
function productError(a: number, b: number, product: number): number {
  const wideA = SPLITTER * a;
  const upperA = wideA - (wideA - a);
  const lowerA = a - upperA;
  const wideB = SPLITTER * b;
  const upperB = wideB - (wideB - b);
  const lowerB = b - upperB;
  return lowerA * lowerB - (product - upperA * upperB - lowerA * upperB - upperA * lowerB);
}

/** Whole numbers to go from a candidate, to the even one of two as near: how doubles are written. */
function halfEven(rest: number, candidate: number): number {
  const over = Math.round(rest);
  return over - rest === 0.5 && ((candidate % 2) + over) % 2 !== 0 ? over - 1 : over;
}

/** Whole units over a power of ten, rounded in a mode. */
function divided(units: number, power: number, mode: Rounding): number {
  // The quotient of whole doubles is not rounded up to the next whole number, and a remainder takes five times as long.
  const cut = Math.trunc(units / power);
  const rest = units - cut * power;
  const twice = 2 * Math.abs(rest);
  const away =
    mode === Decimal.ROUND_UP ||
    (mode === Decimal.ROUND_HALF_UP && twice >= power) ||
    (mode === Decimal.ROUND_HALF_EVEN && (twice > power || (twice === power && cut % 2 !== 0)));
  return away ? cut + Math.sign(rest) : cut;
}

/** The whole number nearest to (high + low) × 10^decimals; NaN where the bound reaches a tie, or whole numbers or powers end. */
function nearestWhole(high: number, low: number, bound: number, decimals: number, scale = NO_SCALE): number {
  const power = POWERS[decimals] as number;
  const scaled = high * power;
  if (!(Math.abs(scaled) < MOST_WHOLE / 8)) return NaN;
  const candidate = Math.round(scaled);
  const beyond = scaled - candidate + (productError(high, power, scaled) + low * power);
  const off = Math.abs(beyond);
  const doubt = bound * power * 1.01 + off * 2 ** -50;
  if (off + doubt < 0.5) return candidate;
  // So near a tie lies no other decimal of so many places.
  const isTie = Math.abs(off - 0.5) + doubt < 10 ** (decimals - scale) / 2;
  if (isTie) return beyond > 0 === high > 0 ? candidate + Math.sign(beyond) : candidate;
  return off - doubt > 0.5 ? candidate + Math.sign(beyond) : NaN;
}

/** From two doubles to so many decimals, where that is a trace and not in doubt; else NaN. */
function toWhole(high: number, low: number, bound: number, decimals: number): number {
  const power = POWERS[decimals] ?? NaN;
  const scaled = high * power;
  const rest = scaled - Math.round(scaled) + productError(high, power, scaled) + low * power;
  const over = Math.round(rest) - rest;
  return Math.abs(over) + (bound + Math.abs(high) * SUM_ERROR) * power * 1.01 < 0.5 ? over / power : NaN;
}

function roundedDecimals(
  high: number,
  low: number,
  bound: number,
  decimals: number,
  scale: number,
): Decimal | undefined {
  const units = nearestWhole(high, low, bound, decimals, scale);
  return isKnown(units) ? short(units, decimals) : undefined;
}

function roundedDigits(
  high: number,
  low: number,
  bound: number,
  digits: number,
  scale = NO_SCALE,
): Decimal | undefined {
  return roundedDecimals(high, low, bound, decimalsOf(high, digits), scale);
}

/** How many decimals are so many digits. */
function decimalsOf(value: number, digits: number): number {
  const size = Math.abs(value);
  const decimals = digits - 1 - Math.floor(Math.log10(size));
  const shift = POWERS[decimals] as number;
  // The logarithm can be off by one beside a power of ten.
  if (size * shift >= (POWERS[digits] as number)) return decimals - 1;
  return size * shift < (POWERS[digits - 1] as number) ? decimals + 1 : decimals;
}
