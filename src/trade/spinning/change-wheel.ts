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

/** Where the wheel whose constant is sought stands: a driver of draft or of twist as above, or driven. */
export type ConstantKind = WheelKind | "driven";

/**
 * What a frame's gearing makes with a change wheel of one tooth: draft and twist fall with the teeth of a driver and grow
 * with those of a driven wheel.
 */
export function wheelConstant(value: number, wheel: number, kind: ConstantKind): number {
  return kind === "driven" ? value / wheel : value * wheel;
}
