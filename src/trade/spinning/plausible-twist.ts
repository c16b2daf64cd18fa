import { TWIST_CONVENTIONS, type TwistConvention } from "../../tables/twist-conventions";
import type { CountSystem } from "../../tables/count-systems";
import type { TwistUnit } from "../../tables/twist-units";
import { expectCount } from "../counts/plausible-count";
import { expectWithin, told, type Came } from "../plausible";
import { refuse } from "../refusal";
import { convertFactor, twistFactor } from "./twist-factor";
import { turnsPerMetre } from "./twist-units";

/*
 * Limits that no yarn passes, common practice without a source: from a roving to crepe, and far beyond both. They judge
 * no twist, they catch turns in another unit, a factor of another convention, or twist and count in each other's place.
 */

const METRIC = TWIST_CONVENTIONS.find(({ word }) => word === "metric") as TwistConvention;

const LEAST_METRIC_FACTOR = 3;
const MOST_METRIC_FACTOR = 1000;

/** The factor itself, where a yarn can have it. */
export function expectFactor(argument: string, came: Came, factor: number, convention: TwistConvention): number {
  const metric = convertFactor(factor, convention, METRIC);
  if (metric >= LEAST_METRIC_FACTOR && metric <= MOST_METRIC_FACTOR) return factor;
  const limit = metric < LEAST_METRIC_FACTOR ? `below ${LEAST_METRIC_FACTOR}` : `above ${MOST_METRIC_FACTOR}`;
  return refuse(argument, told(came), `a metric twist factor ${limit}, which no yarn has; check unit and count`);
}

/** Turns per metre of a yarn that can have so many at its count. */
export function expectTwist(twist: number, unit: TwistUnit, count: number, system: CountSystem): number {
  const came = (): string => `${twist} ${unit.word}`;
  expectFactor("twist", came, twistFactor(twist, unit, expectCount("count", count, system), system, METRIC), METRIC);
  return turnsPerMetre(twist, unit);
}

/** A factor to convert; a small one is a rate of conversion, such as that of 1. */
export function expectFactorAtMost(came: Came, factor: number, convention: TwistConvention): number {
  if (convertFactor(factor, convention, METRIC) <= MOST_METRIC_FACTOR) return factor;
  return expectFactor("value", came, factor, convention);
}

const LEAST_TURNS = 2;
const MOST_TURNS = 6000;

/** Turns per metre that a yarn or a roving can have. */
export function expectTurns(argument: string, came: Came, turns: number, least = LEAST_TURNS): number {
  const allowed = (shown: number): string => `${shown} turns a metre, which no yarn has; check units and order`;
  return expectWithin(turns, least, MOST_TURNS, argument, came, allowed);
}

/** Turns per metre in any unit's conversion, 0 and those of a residual twist the other way among them. */
export function expectTurnsAtMost(argument: string, came: Came, turns: number): number {
  return expectTurns(argument, came, turns, -MOST_TURNS);
}

/** Ply twist over the twist of the singles; turns per inch beside turns per metre make 39 of 1. */
const LEAST_PLY_RATIO = 0.05;
const MOST_PLY_RATIO = 20;

/** A ply twist beside that of its singles: none at all, or one in the same unit. */
export function expectPlyTwist(single: number, ply: number): number {
  const allowed = (): string => `beside a single_twist of ${single}; are both in one unit?`;
  if (ply > 0) expectWithin(ply / single, LEAST_PLY_RATIO, MOST_PLY_RATIO, "ply_twist", ply, allowed);
  return ply;
}

/** The outside fibres of a yarn cross its axis at 60 degrees at most. */
const GREATEST_TANGENT = Math.sqrt(3);

const LEAST_TANGENT = 0.01;

/** The twist of a yarn or a roving: less would not hold it. */
export function expectTwisted(argument: string, came: Came, tangent: number): number {
  if (tangent >= LEAST_TANGENT) return expectAngle(argument, came, tangent);
  return refuse(argument, told(came), "an angle below 0.6°, which holds no roving; check unit, count and volume");
}

export function expectAngle(argument: string, came: Came, tangent: number): number {
  if (tangent <= GREATEST_TANGENT) return tangent;
  return refuse(argument, told(came), "an angle above 60°, which no yarn has; check unit, count and volume");
}
