import { Decimal, quotient } from "../money";
import { expectWithin, figure } from "../plausible";

/** From a bobbin to a warping drum, in metres; common practice, no source. */
const SMALLEST_REEL = 0.05;
const LARGEST_REEL = 10;

/** Circumference of a reel in metres. */
export function expectReel(metres: number): void {
  const allowed = "must be 0.05 to 10 m, as reels are; check its unit";
  expectWithin(metres, SMALLEST_REEL, LARGEST_REEL, "circumference", () => `${figure(metres)} m`, allowed);
}

/**
 * Turns of a reel that wind a length; both units in metres. In decimal, so that 120 yd on a reel of 54 in is 80 turns
 * and not a trace more.
 */
export function reelTurns(
  length: number,
  lengthUnit: number,
  circumference: number,
  circumferenceUnit: number,
): number {
  return quotient(new Decimal(length).times(lengthUnit), new Decimal(circumference).times(circumferenceUnit));
}
