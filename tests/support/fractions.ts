/**
 * Exact fractions, for recomputing what the library says from the words of its rules alone. A number is read as the
 * decimal a person sees in the cell: 0.1 is one tenth.
 */
export class Fraction {
  private constructor(
    readonly numerator: bigint,
    readonly denominator: bigint,
  ) {}

  static of(numerator: bigint, denominator = 1n): Fraction {
    if (denominator === 0n) throw new Error("a fraction over zero");
    const common = greatestCommonDivisor(
      numerator < 0n ? -numerator : numerator,
      denominator < 0n ? -denominator : denominator,
    );
    const sign = denominator < 0n ? -1n : 1n;
    return new Fraction((sign * numerator) / common, (sign * denominator) / common);
  }

  static from(value: number): Fraction {
    const [digits, exponent] = value.toExponential().split("e") as [string, string];
    const [whole, part = ""] = digits.split(".") as [string, string?];
    const shift = Number(exponent) - part.length;
    const mantissa = BigInt(whole + part);
    return shift >= 0 ? Fraction.of(mantissa * 10n ** BigInt(shift)) : Fraction.of(mantissa, 10n ** BigInt(-shift));
  }

  plus(other: Fraction): Fraction {
    return Fraction.of(
      this.numerator * other.denominator + other.numerator * this.denominator,
      this.denominator * other.denominator,
    );
  }

  minus(other: Fraction): Fraction {
    return this.plus(Fraction.of(-other.numerator, other.denominator));
  }

  times(other: Fraction): Fraction {
    return Fraction.of(this.numerator * other.numerator, this.denominator * other.denominator);
  }

  over(other: Fraction): Fraction {
    return Fraction.of(this.numerator * other.denominator, this.denominator * other.numerator);
  }

  compare(other: Fraction): number {
    const difference = this.minus(other).numerator;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  equals(other: Fraction): boolean {
    return this.compare(other) === 0;
  }

  abs(): Fraction {
    return this.numerator < 0n ? Fraction.of(-this.numerator, this.denominator) : this;
  }

  /** The largest whole number that is not above. */
  floor(): bigint {
    const quotient = this.numerator / this.denominator;
    return this.numerator % this.denominator < 0n ? quotient - 1n : quotient;
  }

  /** To so many decimals, a half away from zero. */
  rounded(decimals: number): Fraction {
    const scale = power(decimals);
    const scaled = this.abs().times(scale).plus(Fraction.of(1n, 2n)).floor();
    return Fraction.of(this.numerator < 0n ? -scaled : scaled).over(scale);
  }

  /** The nearest double, good to the last digits of one. */
  toNumber(): number {
    const scale = 10n ** 40n;
    const [above, below] = [this.abs().numerator, this.denominator];
    // Long division to forty significant digits at least, then the decimal is read.
    let digits = (above * scale) / below;
    let exponent = -40;
    while (digits !== 0n && digits < 10n ** 25n) {
      exponent -= 25;
      digits = (above * 10n ** BigInt(-exponent)) / below;
    }
    return (this.numerator < 0n ? -1 : 1) * Number(`${digits}e${exponent}`);
  }
}

export function power(decimals: number): Fraction {
  return decimals >= 0 ? Fraction.of(10n ** BigInt(decimals)) : Fraction.of(1n, 10n ** BigInt(-decimals));
}

export function totalOf(fractions: readonly Fraction[]): Fraction {
  return fractions.reduce((sofar, fraction) => sofar.plus(fraction), Fraction.of(0n));
}

export function greater(a: Fraction, b: Fraction): Fraction {
  return a.compare(b) >= 0 ? a : b;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  while (b !== 0n) [a, b] = [b, a % b];
  return a === 0n ? 1n : a;
}
