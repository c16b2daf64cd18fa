import type { CountSystem } from "../../tables/count-systems";
import { quotient } from "../../tables/exact";
import type { TwistConvention } from "../../tables/twist-conventions";
import type { TwistUnit } from "../../tables/twist-units";
import { convertCount } from "../counts/counts";
import { convertTwist, twistRatio } from "./twist-units";

/** The twist factor of a yarn under a named convention. */
export function twistFactor(
  twist: number,
  unit: TwistUnit,
  count: number,
  system: CountSystem,
  convention: TwistConvention,
): number {
  const turns = convertTwist(twist, unit, convention.unit);
  const root = Math.sqrt(convertCount(count, system, convention.system));
  return convention.system.direct ? turns * root : turns / root;
}

/** The twist that has this factor under a named convention. */
export function twistForFactor(
  factor: number,
  convention: TwistConvention,
  count: number,
  system: CountSystem,
  unit: TwistUnit,
): number {
  const root = Math.sqrt(convertCount(count, system, convention.system));
  return convertTwist(convention.system.direct ? factor / root : factor * root, convention.unit, unit);
}

/**
 * The same factor under another convention. Whatever the convention, factor × unit × √(size of the count system) is
 * turns per metre × √tex, so the count of the yarn is not needed.
 */
export function convertFactor(value: number, from: TwistConvention, to: TwistConvention): number {
  const turns = twistRatio(from.unit, to.unit);
  const size = quotient(from.system.size, to.system.size);
  return ((value * turns.numerator) / turns.denominator) * Math.sqrt(size.numerator / size.denominator);
}
