import type { CountSystem } from "../../tables/count-systems";
import { weightRatio } from "./draft";

/**
 * Draft-change wheel for another count from the same roving. The wheel drives the back rollers: more teeth feed more,
 * so it goes with the weight per length, and in an indirect system against the count.
 */
export function draftChangeWheel(wheel: number, countNow: number, countWanted: number, system: CountSystem): number {
  return wheel * weightRatio(countWanted, system, countNow, system);
}

/** What a change wheel changes. */
export type WheelKind = "draft" | "twist";

/**
 * Twist-change wheel for another count at the same twist factor. The wheel drives the front rollers: more teeth deliver
 * faster and put in less twist, and twist goes with 1/√tex.
 */
export function twistChangeWheel(wheel: number, countNow: number, countWanted: number, system: CountSystem): number {
  return wheel * Math.sqrt(weightRatio(countWanted, system, countNow, system));
}
