import type { Decimal } from "./money";

/** Digits in which two measured quantities count as equal; a computed double is good to about fifteen. */
const DIGITS = 12;

/**
 * Whole number of lots, steps or skeins, rounded up. 330.00000000000006 over 110 is 3 lots and not 4: the last digits
 * of a computed double are forgiven.
 */
export function wholeUp(count: Decimal): Decimal {
  return count.toSignificantDigits(DIGITS).ceil();
}

/** The same, rounded down: 99.999999999999 skeins are 100. */
export function wholeDown(count: Decimal): Decimal {
  return count.toSignificantDigits(DIGITS).floor();
}
