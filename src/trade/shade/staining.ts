import { difference1976 } from "./shade-difference";
import type { Lab } from "./tristimulus";

/**
 * The difference that the grey scale for staining rates: what is no lightness counts less than on the scale's greys.
 * Source: ISO-105-A04.
 */
export function stainingDifference(standard: Lab, sample: Lab): number {
  const all = difference1976(standard, sample);
  const lightness = sample[0] - standard[0];
  return all - 0.4 * Math.sqrt(Math.max(0, all * all - lightness * lightness));
}

/** The rating, 5 (no staining) to 1, not rounded to steps. Source: ISO-105-A04. */
export function stainingRating(difference: number): number {
  if (difference === 0) return 5;
  const rating = 6.1 - 1.45 * Math.log(difference);
  return Math.max(1, rating > 4 ? 5 - 0.23 * difference : rating);
}

/** The nearest of the nine steps: a rating from 4.75 on is a 5, one below it a 4-5, and so on. Source: ISO-105-A04. */
export function stainingStep(rating: number): string {
  const halves = Math.floor(2 * rating + 0.5);
  return halves % 2 === 0 ? String(halves / 2) : `${(halves - 1) / 2}-${(halves + 1) / 2}`;
}
