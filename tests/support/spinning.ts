import fc from "fast-check";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { TWIST_CONVENTIONS } from "../../src/tables/twist-conventions";
import { TWIST_UNITS } from "../../src/tables/twist-units";

/** What spinners work with, as random values. */
export const anySystem = fc.constantFrom(...COUNT_SYSTEMS);
export const anyTwistUnit = fc.constantFrom(...TWIST_UNITS);
export const anyConvention = fc.constantFrom(...TWIST_CONVENTIONS);

export function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}
