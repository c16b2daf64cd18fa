import type { CountSystem } from "../../tables/count-systems";
import { COUNT_SYSTEMS } from "../../tables/count-systems";
import { texOf } from "./counts";

const YARDS_A_POUND = COUNT_SYSTEMS.find(({ word }) => word === "yd/lb") as CountSystem;

const MM_IN_INCH = 25.4;
const MM_IN_CM = 10;
/** tex in g/cm: a gram in 1,000 m is a gram in 100,000 cm. */
const GRAM_A_CM = 1e-5;

/**
 * Volume of a gram of worsted yarn (cm³/g) at which the circle below gives Ashenhurst's rule: the diameters in an
 * inch are 0.9 of the square root of the yards in a pound. About 1.261.
 */
export const WORSTED_SPECIFIC_VOLUME =
  (Math.PI * (MM_IN_INCH / MM_IN_CM / 0.9) ** 2) / (4 * GRAM_A_CM * texOf(1, YARDS_A_POUND));

/** Diameter (mm) of a yarn taken as a round rod: area (cm²) = mass of a centimetre × specific volume (cm³/g). */
export function diameter(count: number, system: CountSystem, specificVolume: number): number {
  return MM_IN_CM * Math.sqrt((4 * texOf(count, system) * GRAM_A_CM * specificVolume) / Math.PI);
}

/** Turns that lie side by side in an inch, touching and uncrushed. */
export function wraps(count: number, system: CountSystem, specificVolume: number): number {
  return MM_IN_INCH / diameter(count, system, specificVolume);
}
