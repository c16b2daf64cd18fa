import type { CountSystem } from "../../tables/count-systems";
import { fromTex, texOf } from "./counts";

/**
 * Mean count of fibres or slivers mixed by mass. The length of a mixture is the sum of the lengths, so it is the mean of
 * the lengths per mass: harmonic in a direct system, plain in an indirect one.
 */
export function mixtureCount(counts: readonly number[], masses: readonly number[], system: CountSystem): number {
  let mass = 0;
  let length = 0;
  counts.forEach((count, index) => {
    const own = masses[index] as number;
    mass += own;
    length += own / texOf(count, system);
  });
  return fromTex(mass / length, system);
}
