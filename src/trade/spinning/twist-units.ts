import { quotient, type Ratio } from "../../tables/exact";
import { TWIST_UNITS, TURNS_PER_METRE, type TwistUnit } from "../../tables/twist-units";

/** One exact ratio for every pair of units, worked out when first asked for. */
const RATIOS: (Ratio | undefined)[][] = TWIST_UNITS.map(() => []);

/** How many of the unit `to` one of the unit `from` is, exactly: a turn per inch is 5000/127 turns per metre. */
export function twistRatio(from: TwistUnit, to: TwistUnit): Ratio {
  const ratios = RATIOS[from.index] as (Ratio | undefined)[];
  return (ratios[to.index] ??= quotient(from.size, to.size));
}

export function convertTwist(value: number, from: TwistUnit, to: TwistUnit): number {
  const { numerator, denominator } = twistRatio(from, to);
  return (value * numerator) / denominator;
}

export function turnsPerMetre(twist: number, unit: TwistUnit): number {
  return convertTwist(twist, unit, TURNS_PER_METRE);
}

export function fromTurnsPerMetre(turns: number, unit: TwistUnit): number {
  return convertTwist(turns, TURNS_PER_METRE, unit);
}
