import type { Light } from "../../tables/lights";
import { difference2000 } from "./shade-difference";
import { labOfTristimulus, tristimulusOf, type Tristimulus } from "./tristimulus";

/**
 * How far two shades that match in one light part in another, in CIEDE2000 units. What they already differ by in the
 * first light is taken out by scaling the second's X, Y, Z, so it measures metamerism and not a poor match.
 * Source: CIE-15, special index of metamerism for a change of light.
 */
export function metamerism(
  first: readonly number[],
  second: readonly number[],
  lightMatched: Light,
  lightChanged: Light,
): number {
  const wanted = tristimulusOf(first, lightMatched);
  const present = tristimulusOf(second, lightMatched);
  const changed = tristimulusOf(second, lightChanged);
  const corrected = changed.map((value, axis) =>
    present[axis]! > 0 ? (value * wanted[axis]!) / present[axis]! : value,
  ) as unknown as Tristimulus;
  return difference2000(
    labOfTristimulus(tristimulusOf(first, lightChanged), lightChanged.white),
    labOfTristimulus(corrected, lightChanged.white),
  );
}
