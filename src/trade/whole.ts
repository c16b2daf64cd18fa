import { asShown, type Decimal } from "./money";

/**
 * Whole number of lots, steps or skeins, rounded up. 330.00000000000006 over 110 is 3 lots and not 4: both count as
 * their cells show them, and so does the quotient.
 */
export function wholeUp(quantity: number | Decimal, of: number | Decimal): Decimal {
  return asShown(asShown(quantity).div(asShown(of))).ceil();
}

/** The same, rounded down: 4.35 * 100 over 1 is 435 skeins. */
export function wholeDown(quantity: number | Decimal, of: number | Decimal): Decimal {
  return asShown(asShown(quantity).div(asShown(of))).floor();
}
