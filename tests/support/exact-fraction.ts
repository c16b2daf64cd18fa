/** Exact fractions for recomputing money by another road than the library's decimals. */
export class Fraction {
  private constructor(
    readonly numerator: bigint,
    readonly denominator: bigint,
  ) {}

  /** The decimal that a person sees: 0.1 is one tenth, not the double next to it. */
  static of(value: number): Fraction {
    const [, sign, whole, decimals = "", exponent = "0"] = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(
      String(value),
    ) as RegExpExecArray;
    const power = Number(exponent) - decimals.length;
    const digits = BigInt(`${sign}${whole}${decimals}`);
    return power >= 0
      ? Fraction.ratio(digits * 10n ** BigInt(power), 1n)
      : Fraction.ratio(digits, 10n ** BigInt(-power));
  }

  static ratio(numerator: bigint, denominator: bigint): Fraction {
    if (denominator === 0n) throw new RangeError("a fraction over 0");
    let [a, b] = [numerator < 0n ? -numerator : numerator, denominator < 0n ? -denominator : denominator];
    while (b !== 0n) [a, b] = [b, a % b];
    const common = denominator < 0n ? -a : a;
    return new Fraction(numerator / common, denominator / common);
  }

  static sum(values: readonly Fraction[]): Fraction {
    return values.reduce((total, value) => total.plus(value), Fraction.of(0));
  }

  plus(other: Fraction): Fraction {
    return Fraction.ratio(
      this.numerator * other.denominator + other.numerator * this.denominator,
      this.denominator * other.denominator,
    );
  }

  minus(other: Fraction): Fraction {
    return this.plus(Fraction.ratio(-other.numerator, other.denominator));
  }

  times(other: Fraction): Fraction {
    return Fraction.ratio(this.numerator * other.numerator, this.denominator * other.denominator);
  }

  over(other: Fraction): Fraction {
    return Fraction.ratio(this.numerator * other.denominator, this.denominator * other.numerator);
  }

  /** Below, equal, above: -1, 0, 1. */
  compare(other: Fraction): number {
    const difference = this.minus(other).numerator;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  equals(other: Fraction): boolean {
    return this.compare(other) === 0;
  }

  /** The double nearest to it, by way of fifty decimals; for amounts between 1e-20 and 1e20. */
  toNumber(): number {
    const scaled = String(((this.numerator < 0n ? -this.numerator : this.numerator) * 10n ** 50n) / this.denominator);
    return Number(`${this.numerator < 0n ? "-" : ""}${scaled}e-50`) + 0;
  }
}
