import { Decimal } from "../money";

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
  return new Decimal(length).times(lengthUnit).div(new Decimal(circumference).times(circumferenceUnit)).toNumber();
}
