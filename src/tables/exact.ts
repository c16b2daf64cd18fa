/** An exact ratio of whole numbers, both small enough for a double to hold exactly. */
export interface Ratio {
  readonly numerator: number;
  readonly denominator: number;
}

/** In lowest terms. Every factor must itself be a whole number. */
export function ratio(numerators: readonly number[], denominators: readonly number[]): Ratio {
  const above = numerators.slice();
  const below = denominators.slice();
  // Cancel before multiplying, so that nothing passes 2^53 on the way.
  for (let i = 0; i < above.length; i++) {
    for (let j = 0; j < below.length; j++) {
      const common = greatestCommonDivisor(above[i] as number, below[j] as number);
      (above[i] as number) /= common;
      (below[j] as number) /= common;
    }
  }
  return { numerator: product(above), denominator: product(below) };
}

/** a / b, exactly. */
export function quotient(a: Ratio, b: Ratio): Ratio {
  return ratio([a.numerator, b.denominator], [a.denominator, b.numerator]);
}

function product(factors: readonly number[]): number {
  return factors.reduce((sofar, factor) => sofar * factor, 1);
}

function greatestCommonDivisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}

// The international yard and pound (1959): yd = 0.9144 m, lb = 0.45359237 kg, exactly. Source: NIST-YD-LB.
/** Yard in tenths of a millimetre. */
export const YARD_IN_TENTHS_OF_MM = 9144;
/** Pound in hundredths of a milligram. */
export const POUND_IN_HUNDREDTHS_OF_MG = 45359237;
export const GRAINS_IN_POUND = 7000;
export const OUNCES_IN_POUND = 16;
export const DRAMS_IN_POUND = 256;
