import { Decimal, quotient } from "../money";
import { expectDried } from "./regain";

// In decimal: these masses are invoiced and rounded, and 1182.5 at 18.25 % is 1000 dry, not 999.9999999999999.

export function dryMass(mass: number, regain: number): number {
  return quotient(mass, moist(regain));
}

/** The same dry fibre at the standard regain. */
export function conditionedMass(mass: number, regainNow: number, regainStandard: number): number {
  return quotient(moist(regainStandard).times(mass), moist(regainNow));
}

/**
 * What is invoiced for a delivery of which a sample was dried: its dry mass with the standard regain and the agreed
 * finish (oil, dressing) on dry mass added, net × dry/sample × (1 + R + F). Sources: GB-9994, ASTM-D584 (D2494).
 */
export function invoiceMass(
  net: number,
  sample: number,
  sampleDry: number,
  regainStandard: number,
  finish: number,
): number {
  expectDried("sample", sample, "sample_dry", sampleDry);
  return quotient(moist(regainStandard).plus(finish).times(net).times(sampleDry), sample);
}

const ONE = new Decimal(1);
let last = { regain: 0, moist: ONE };

/** Mass at a regain on 1 of dry mass; kept until another is asked for, because down a column there is one. */
function moist(regain: number): Decimal {
  if (regain !== last.regain) last = { regain, moist: ONE.plus(regain) };
  return last.moist;
}
