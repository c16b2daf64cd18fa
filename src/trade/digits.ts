import Big from "big.js";
import { beyondNumbers } from "./refusal";

/** A constructor of our own, so that nobody's global settings change our sums. A quotient is cut and then rounded. */
const Exact = Big();
Exact.RM = Big.roundDown;

/** Digits that are kept after every step: they hold any sum of doubles here. */
const KEPT = 40;
/** The package cuts a quotient by decimals and not by digits: with so many more, forty and the next are there. */
const SPARE = 2;

export const [ROUND_DOWN, ROUND_HALF_UP, ROUND_HALF_EVEN, ROUND_UP] = [0, 1, 2, 3] as const;
export type Rounding = 0 | 1 | 2 | 3;

/** A decimal number of forty digits; each step is rounded to them, half away from zero. */
export class Digits {
  private constructor(private readonly value: Big) {}

  /** The decimal as written: 0.1 is a tenth and not the double beside it. */
  static of(written: number | string): Digits {
    if (!Number.isFinite(Number(written))) beyondNumbers();
    return new Digits(new Exact(written));
  }

  private static kept(exact: Big): Digits {
    return new Digits(exact.prec(KEPT, ROUND_HALF_UP));
  }

  plus(addend: Digits): Digits {
    return Digits.kept(this.value.plus(addend.value));
  }

  minus(subtrahend: Digits): Digits {
    return Digits.kept(this.value.minus(subtrahend.value));
  }

  times(factor: Digits): Digits {
    return Digits.kept(this.value.times(factor.value));
  }

  over(divisor: Digits): Digits {
    if (divisor.isZero()) beyondNumbers();
    Exact.DP = Math.max(0, KEPT + SPARE + divisor.value.e - this.value.e);
    return Digits.kept(this.value.div(divisor.value));
  }

  cmp(other: Digits): number {
    return this.value.cmp(other.value);
  }

  isZero(): boolean {
    return this.value.eq(0);
  }

  isNegative(): boolean {
    return this.value.lt(0);
  }

  /** The greatest whole number that is no greater. */
  floor(): Digits {
    return this.toDecimalPlaces(0, this.isNegative() ? ROUND_UP : ROUND_DOWN);
  }

  /** The smallest whole number that is no smaller. */
  ceil(): Digits {
    return this.toDecimalPlaces(0, this.isNegative() ? ROUND_DOWN : ROUND_UP);
  }

  /** To so many decimals; negative ones are tens, hundreds … */
  toDecimalPlaces(decimals: number, mode: Rounding = ROUND_HALF_UP): Digits {
    return new Digits(this.value.round(decimals, mode));
  }

  /** To so many digits, half away from zero. */
  toSignificantDigits(digits: number): Digits {
    return new Digits(this.value.prec(digits, ROUND_HALF_UP));
  }

  toNumber(): number {
    return this.value.toNumber();
  }

  toString(): string {
    return this.value.toString();
  }

  /** Never with an exponent. */
  toFixed(): string {
    return this.value.toFixed();
  }
}
