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
  if (dryMass > mass) refuse("dry_mass", String(dryMass), `cannot exceed mass ${mass}`);
  return (mass - dryMass) / dryMass;
}
