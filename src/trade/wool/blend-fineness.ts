import { dividedByZero, refuse } from "../refusal";

/** What a component weighs in the blend: its mass (certificates) or the length of its fibres (an instrument). */
export type FinenessWeighting = "mass" | "length";

export type FinenessResult = "mean" | "sd" | "cv";

/**
 * Fibre diameter of a blend, micron, by pooled mean square: the mean of d and of d²(1 + cv²) over the components. A
 * component of mass m has fibre length in proportion to m/(d²(1 + cv²)), fibres being round and of one density.
 */
export function blendFineness(
  masses: readonly number[],
  microns: readonly number[],
  variations: readonly number[] | undefined,
  weighting: FinenessWeighting,
  result: FinenessResult,
): number {
  if (variations === undefined && result !== "mean") {
    refuse("cvs", "left out", `give one for every component; the ${result} of the blend rests on them`);
  }
  let weights = 0;
  let diameters = 0;
  let squares = 0;
  for (let index = 0; index < masses.length; index++) {
    const diameter = microns[index] as number;
    const variation = variations ? (variations[index] as number) : 0;
    const square = diameter * diameter * (1 + variation * variation);
    const weight = (masses[index] as number) / (weighting === "length" ? square : 1);
    weights += weight;
    diameters += weight * diameter;
    squares += weight * square;
  }
  if (weights === 0) dividedByZero("masses", "0 in all", "must not sum to 0");
  const mean = diameters / weights;
  if (result === "mean") return mean;
  // Rounding can leave a trace below 0 when all components are alike and without variation.
  const deviation = Math.sqrt(Math.max(0, squares / weights - mean * mean));
  return result === "sd" ? deviation : deviation / mean;
}
