import { chromaOf, hueOf } from "./shade-difference";
import type { Lab } from "./tristimulus";

const DEGREE = Math.PI / 180;

/**
 * The difference that the grey scale for change in colour rates, ΔE_F. Source: ISO-105-A05; the inner lines (D, x and
 * the chroma factors) are from memory. ΔC and ΔH carry their signs, sample less standard: D bends the line of equal
 * hue near blue.
 */
export function greyScaleDifference(standard: Lab, sample: Lab): number {
  const chroma1 = chromaOf(standard);
  const chroma2 = chromaOf(sample);
  const meanChroma = (chroma1 + chroma2) / 2;
  const hue1 = hueOf(standard[1], standard[2]) / DEGREE;
  const hue2 = hueOf(sample[1], sample[2]) / DEGREE;
  let turn = hue2 - hue1;
  let meanHue = (hue1 + hue2) / 2;
  if (chroma1 * chroma2 === 0) {
    turn = 0;
    meanHue = hue1 + hue2;
  } else if (Math.abs(turn) > 180) {
    // The short way round. A full turn more or less is all the same to what follows.
    turn -= 360;
    meanHue += 180;
  }
  const chromaStep = chroma2 - chroma1;
  const hueStep = 2 * Math.sqrt(chroma1 * chroma2) * Math.sin((turn / 2) * DEGREE);
  const fromBlue = Math.abs(meanHue - 280);
  const x = ((fromBlue <= 180 ? fromBlue : 360 - fromBlue) / 30) ** 2;
  const bend = (chromaStep * meanChroma * Math.exp(-x)) / 100;
  const chromaPart = (chromaStep - bend) / (1 + ((20 * meanChroma) / 1000) ** 2);
  const huePart = (hueStep - bend) / (1 + ((10 * meanChroma) / 1000) ** 2);
  return Math.sqrt((sample[0] - standard[0]) ** 2 + chromaPart ** 2 + huePart ** 2);
}

/** The rating, 5 (no change) to 1, not rounded to steps. Source: ISO-105-A05. */
export function greyScaleRating(difference: number): number {
  const rating = difference <= 3.4 ? 5 - difference / 1.7 : 5 - Math.log2(difference / 0.85);
  return Math.max(1, rating);
}

/** The nine steps and the difference below which each applies. Source: ISO-105-A05. */
const STEPS: readonly (readonly [step: string, below: number])[] = [
  ["5", 0.4],
  ["4-5", 1.25],
  ["4", 2.1],
  ["3-4", 2.95],
  ["3", 4.1],
  ["2-3", 5.8],
  ["2", 8.2],
  ["1-2", 11.6],
];

export function greyScaleStep(difference: number): string {
  const step = STEPS.find(([, below]) => difference < below);
  return step ? step[0] : "1";
}
