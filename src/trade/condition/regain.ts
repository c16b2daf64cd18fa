import { asShown } from "../money";
import { refuse } from "../refusal";

// Moisture content is water on the moist mass, regain is water on the dry mass. Source: ASTM-D584 (D2118, D2494).

export function regainOfMoisture(moisture: number): number {
  return moisture / (1 - moisture);
}

export function moistureOfRegain(regain: number): number {
  return regain / (1 + regain);
}

/** Regain found by drying a sample. */
export function measuredRegain(mass: number, dryMass: number): number {
  expectDried("mass", mass, "dry_mass", dryMass);
  return Math.max(mass - dryMass, 0) / dryMass;
}

/** The most water that a standard or a sample can hold: as much as the dry fibre. */
const MOST_REGAIN = 1;

/** A quotient this near the limit stands on it. */
const ROUNDING = 1e-9;

/** A dried sample weighs less than before, but not so little that the two masses cannot be in one unit. */
export function expectDried(name: string, mass: number, dryName: string, dryMass: number): void {
  if (asShown(dryMass).gt(asShown(mass))) refuse(dryName, String(dryMass), `cannot exceed ${name} ${mass}`);
  const regain = mass / dryMass - 1;
  if (!(regain <= MOST_REGAIN + ROUNDING)) {
    refuse(dryName, String(dryMass), `under half of ${name} ${mass}, a regain above 100%; check unit and point`);
  }
}
