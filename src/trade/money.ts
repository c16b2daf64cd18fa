import { Decimal, decimal, quotient, ZERO, type Amount } from "./decimal";

export { Decimal, decimal, quotient, ZERO, type Amount };

/**
 * A value as its cell shows it: 1.15 * 3 is 3.45 there, though the double is a trace below it. Whatever is rounded,
 * counted or compared for money, whole numbers or what is left is brought to this first.
 */
export function asShown(value: Amount): Decimal {
  return Decimal.shown(value);
}

/** Sums in decimal: 0.1 + 0.2 is 0.3. */
export function sum(values: readonly Amount[]): Decimal {
  return decimal(plainSum(values));
}

/** The same, a plain number where one holds it. Those of many digits by halves, so that no sum rests on a long row of others. */
export function plainSum(values: readonly Amount[]): Amount {
  const long: Amount[] = [];
  const short = Decimal.sumOfShort(values, long);
  if (short === undefined) return sumByHalves(values, 0, values.length);
  return long.length === 0 ? short : sumByHalves(long, 0, long.length).plus(short);
}

function sumByHalves(values: readonly Amount[], from: number, to: number): Decimal {
  if (to - from > 2) {
    const middle = (from + to) >> 1;
    return sumByHalves(values, from, middle).plus(sumByHalves(values, middle, to));
  }
  let total = ZERO;
  for (let index = from; index < to; index++) total = total.plus(values[index] as Amount);
  return total;
}

/**
 * Rounded half away from zero on what the cell shows, like the sheet's own ROUND: 1.005 gives 1.01, 2.675 gives 2.68,
 * -2.5 gives -3. Negative decimals round to tens, hundreds …
 */
export function roundHalfAway(value: Amount, decimals: number): Decimal {
  return rounded(value, decimals, Decimal.ROUND_HALF_UP);
}

/** Rounded on what a person sees in the cell, in a mode of the decimal package. */
export function rounded(value: Amount, decimals: number, mode: Parameters<Decimal["toDecimalPlaces"]>[1]): Decimal {
  return asShown(value).toDecimalPlaces(decimals, mode);
}
