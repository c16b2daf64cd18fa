import { Decimal } from "../money";
import { expectWithin } from "../plausible";
import { wholeUp } from "../whole";

/** A carrier's volumetric divisor of 6,000 cm³ a kg, as kg in a cubic metre. Source: CARRIER. */
export const AIR_KG_PER_CUBIC_METRE = 1000000 / 6000;

/** Foam weighs 10 kg/m³ and lead 11,340: packed goods lie between. Cubic feet for metres make a 35th of it. */
const LIGHTEST = 5;
const HEAVIEST = 12000;

/** Gross mass in kg and volume in m³ of the same goods; either may be 0 where it is not known. */
export function expectGoods(grossMass: number, volume: number): void {
  const density = grossMass / volume;
  const allowed = (shown: number): string => `${shown} kg/m³, as no goods are; swapped, or another unit?`;
  if (grossMass > 0)
    expectWithin(density, LIGHTEST, HEAVIEST, "gross_kg", () => `${grossMass} in ${volume} m³`, allowed);
}

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
