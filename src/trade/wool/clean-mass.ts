import { at, dividedByZero, refuse, type Subject } from "../refusal";
import { Decimal, quotient, roundHalfAway, sum } from "../money";

/** How a clean mass is rounded. */
export type CleanMassRounding = "certificate" | "none";

/** A certificate prints yields to 0.1 % and masses to 1 kg. */
const DECIMALS_OF_YIELD = 3;
const DECIMALS_OF_MASS = 0;

/**
 * Clean mass of a net mass. Certificates round the yield first and the mass after it, which is what is invoiced:
 * 12,000 kg at 72.4036 % is 8,688 kg, and 8,688.4 kg only without the rounding. Source: CERTIFICATE.
 */
export function cleanMass(net: number, cleanYield: number, rounding: CleanMassRounding): number {
  if (rounding === "certificate") expectKilograms("net", net, 'write rounding "none"');
  return decimalCleanMass(net, cleanYield, rounding).toNumber();
}

/** Rounding to 1 kg is for kilograms: on tonnes it makes another yield. */
const LEAST_LOT = 50;

function expectKilograms(subject: Subject, net: number, advice: string): void {
  if (net > 0 && net < LEAST_LOT) refuse(subject, String(net), `too little to round to 1 kg; for tonnes ${advice}`);
}

function decimalCleanMass(net: number, cleanYield: number, rounding: CleanMassRounding): Decimal {
  if (rounding === "none") return new Decimal(net).times(cleanYield);
  return roundHalfAway(roundHalfAway(cleanYield, DECIMALS_OF_YIELD).times(net), DECIMALS_OF_MASS);
}

/** Yield of several lots together: their clean masses, each rounded as its certificate has it, on their net masses. */
export function combinedYield(nets: readonly number[], yields: readonly number[]): number {
  nets.forEach((mass, lot) => expectKilograms(at("nets", lot), mass, "write it in kg"));
  const net = sum(nets);
  if (net.isZero()) dividedByZero("nets", "0 in all", "must not sum to 0");
  const clean = sum(nets.map((mass, lot) => decimalCleanMass(mass, yields[lot] as number, "certificate").plain()));
  return quotient(clean, net);
}
