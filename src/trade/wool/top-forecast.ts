import { impossible } from "../refusal";

export type TopProperty = "hauteur" | "cv hauteur" | "romaine";

/** Middle breaks below 45 % count as 45 %. */
const LEAST_MID_BREAKS = 45;

/**
 * What an average mill combs from a lot of greasy wool. Source: TEAM-2, whose published page lost the minus sign of
 * the staple length in romaine: longer staples leave less noil. Vegetable matter and middle breaks enter in percent.
 */
export function topForecast(
  stapleLength: number,
  strength: number,
  micron: number,
  vegetableMatter: number,
  midBreaks: number,
  property: TopProperty,
): number {
  const matter = vegetableMatter * 100;
  const breaks = Math.max(midBreaks * 100, LEAST_MID_BREAKS);
  let found: number;
  if (property === "hauteur") {
    found = 0.52 * stapleLength + 0.47 * strength + 0.95 * micron - 0.45 * matter - 0.19 * breaks - 3.5;
  } else if (property === "cv hauteur") {
    found = (0.12 * stapleLength - 0.41 * strength - 0.35 * micron + 0.2 * breaks + 49.9) / 100;
  } else {
    found = (-0.11 * stapleLength - 0.14 * strength - 0.35 * micron + 0.94 * matter + 27.7) / 100;
  }
  if (found <= 0) impossible(`the ${property}`, "forecast at or below 0", "these wools lie outside the equations");
  return found;
}
