import { Decimal } from "../money";
import { wholeUp } from "../whole";

/** A carrier's volumetric divisor of 6,000 cm³ a kg, as kg in a cubic metre. Source: CARRIER. */
export const AIR_KG_PER_CUBIC_METRE = 1000000 / 6000;

/** The greater of the gross mass and the volume's mass, in kg, taken up to the carrier's step. */
export function chargeableMass(
  grossMass: number,
  volume: number,
  kgPerCubicMetre: number,
  step: number | undefined,
): Decimal {
  const greater = Decimal.max(grossMass, new Decimal(volume).times(kgPerCubicMetre));
  return step === undefined ? greater : wholeUp(greater, step).times(step);
}
