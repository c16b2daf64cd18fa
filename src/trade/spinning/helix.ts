import type { CountSystem } from "../../tables/count-systems";
import type { TwistUnit } from "../../tables/twist-units";
import { diameter } from "../counts/diameter";
import { expectCount } from "../counts/plausible-count";
import { expectTwisted } from "./plausible-twist";
import { turnsPerMetre } from "./twist-units";

/** Tangent of the angle of a helix to its axis: circumference over the length of one turn. */
export function helixTangent(diameterMm: number, turns: number): number {
  return (Math.PI * diameterMm * turns) / 1000;
}

/** Tangent of the angle that the outside fibres make with the yarn axis. */
export function surfaceTangent(
  twist: number,
  unit: TwistUnit,
  count: number,
  system: CountSystem,
  specificVolume: number,
): number {
  const thickness = diameter(expectCount("count", count, system), system, specificVolume);
  const tangent = helixTangent(thickness, turnsPerMetre(twist, unit));
  return expectTwisted("twist", () => `${twist} ${unit.word}`, tangent);
}

export function degreesOf(tangent: number): number {
  return (Math.atan(tangent) * 180) / Math.PI;
}

/** Secant of an angle from its tangent. Beyond 1e8 the two agree to the last digit, and the square might overflow. */
export function secantOf(tangent: number): number {
  return tangent > 1e8 ? tangent : Math.sqrt(1 + tangent * tangent);
}
