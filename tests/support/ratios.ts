/** Exact fractions, to hold a calculation in doubles against. */
export interface Fraction {
  readonly above: bigint;
  readonly below: bigint;
}

export function fraction(above: bigint | number, below: bigint | number = 1n): Fraction {
  return { above: BigInt(above), below: BigInt(below) };
}

/** The number that a double holds, to the last bit. */
export function exactly(double: number): Fraction {
  let below = 1n;
  let scaled = double;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    below *= 2n;
  }
  return { above: BigInt(scaled), below };
}

/** A decimal as it is written: "0.9144" is 9144/10000. */
export function decimal(written: string): Fraction {
  const [whole, parts = ""] = written.split(".") as [string, string?];
  return { above: BigInt(whole + parts), below: 10n ** BigInt(parts.length) };
}

export function times(a: Fraction, b: Fraction): Fraction {
  return { above: a.above * b.above, below: a.below * b.below };
}

export function over(a: Fraction, b: Fraction): Fraction {
  return { above: a.above * b.below, below: a.below * b.above };
}

function plus(a: Fraction, b: Fraction): Fraction {
  return { above: a.above * b.below + b.above * a.below, below: a.below * b.below };
}

/** |double - wanted| / |wanted|, in units of 1e-18. */
export function relativeError(double: number, wanted: Fraction): number {
  const { above, below } = plus(exactly(double), { above: -wanted.above, below: wanted.below });
  const error = over({ above: above < 0n ? -above : above, below }, wanted);
  return Number((error.above * 10n ** 18n) / error.below) * 1e-18;
}
