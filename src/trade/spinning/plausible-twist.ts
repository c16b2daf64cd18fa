import { TWIST_CONVENTIONS, type TwistConvention } from "../../tables/twist-conventions";
import { refuse } from "../refusal";
import { convertFactor } from "./twist-factor";

/*
 * Limits that no yarn passes, common practice without a source: from a roving to crepe, and far beyond both. They judge
 * no twist, they catch turns in another unit, a factor of another convention, or twist and count in each other's place.
 */

const METRIC = TWIST_CONVENTIONS.find(({ word }) => word === "metric") as TwistConvention;

const LEAST_METRIC_FACTOR = 3;
const MOST_METRIC_FACTOR = 1000;

/** The factor itself, where a yarn can have it. */
export function expectFactor(argument: string, came: string, factor: number, convention: TwistConvention): number {
  const metric = convertFactor(factor, convention, METRIC);
  if (metric >= LEAST_METRIC_FACTOR && metric <= MOST_METRIC_FACTOR) return factor;
  const limit = metric < LEAST_METRIC_FACTOR ? `below ${LEAST_METRIC_FACTOR}` : `above ${MOST_METRIC_FACTOR}`;
  return refuse(argument, came, `a metric twist factor ${limit}, which no yarn has; check unit and count`);
}

const LEAST_TURNS = 2;
const MOST_TURNS = 6000;

/** Turns per metre that a yarn or a roving can have. */
export function expectTurns(argument: string, came: string, turns: number): number {
  if ((turns >= LEAST_TURNS && turns <= MOST_TURNS) || !Number.isFinite(turns)) return turns;
  const shown = Number(turns.toPrecision(4));
  return refuse(argument, came, `${shown} turns a metre, which no yarn has; check units and order`);
}

/** The outside fibres of a yarn cross its axis at 60 degrees at most. */
const GREATEST_TANGENT = Math.sqrt(3);

export function expectAngle(argument: string, came: string, tangent: number): number {
  if (tangent <= GREATEST_TANGENT) return tangent;
  return refuse(argument, came, "an angle above 60°, which no yarn has; check unit, count and volume");
}
