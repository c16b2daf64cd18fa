import type { CountSystem } from "../../tables/count-systems";
import { convertCount } from "../counts/counts";

/** Draft between two pairs of rollers: front surface speed over back surface speed. */
export function rollerDraft(
  frontDiameter: number,
  frontRevolutions: number,
  backDiameter: number,
  backRevolutions: number,
): number {
  return (frontDiameter * frontRevolutions) / (backDiameter * backRevolutions);
}

/** How many times as heavy per length the first is as the second, compared in the system of the second. */
export function weightRatio(
  first: number,
  firstSystem: CountSystem,
  second: number,
  secondSystem: CountSystem,
): number {
  const same = convertCount(first, firstSystem, secondSystem);
  return secondSystem.direct ? same / second : second / same;
}

/** What passes a drafting machine: how many ends go in together, what falls out, what the twist takes up. */
export interface Passage {
  readonly doublings: number;
  /** Share of the mass that goes in and is lost. */
  readonly waste: number;
  /** Share of the delivered length that the twist takes up: the yarn is heavier than the strand at the nip. */
  readonly contraction: number;
}

/** The draft of the rollers that makes one count of another: doublings × weight ratio × (1 − waste)/(1 − contraction). */
export function draftBetween(
  countIn: number,
  systemIn: CountSystem,
  countOut: number,
  systemOut: CountSystem,
  { doublings, waste, contraction }: Passage,
): number {
  return (doublings * weightRatio(countIn, systemIn, countOut, systemOut) * (1 - waste)) / (1 - contraction);
}

/** The count that a draft makes: the inverse. */
export function countDrawn(
  countIn: number,
  systemIn: CountSystem,
  draft: number,
  systemOut: CountSystem,
  { doublings, waste, contraction }: Passage,
): number {
  const undrawn = convertCount(countIn, systemIn, systemOut);
  const above = doublings * (1 - waste);
  const below = draft * (1 - contraction);
  return systemOut.direct ? (undrawn * above) / below : (undrawn * below) / above;
}
