import { asShown } from "../money";
import { absent } from "../refusal";
import { shadeParts, type ShadeParts } from "./shade-parts";
import type { Lab } from "./tristimulus";

/** The three differences by which lots are sorted, in the order of the digits. */
export type BlockAxes = readonly [keyof ShadeParts, keyof ShadeParts, keyof ShadeParts];

/** Lightness, chroma and hue. */
export const CYLINDER: BlockAxes = ["lightness", "chroma", "hue"];

const SIGNS: Readonly<Record<keyof ShadeParts, string>> = {
  ...{ lightness: "dL*", a: "da*", b: "db*", chroma: "dC*", hue: "dH*" },
};
const MIDDLE = 5;
const FURTHEST = 4;

/**
 * The shade block of a lot, three digits: 555 is the block with the standard in its middle, each digit counts whole
 * blocks from it, more to 9 and less to 1. Common practice, no source.
 */
export function shadeBlock(sample: Lab, standard: Lab, widths: readonly number[], axes: BlockAxes): number {
  const parts = shadeParts(standard, sample);
  return axes.reduce((code, axis, place) => {
    // A difference that lies on the edge of a block but for the last digits of a subtraction lies on it.
    const blocks = asShown(parts[axis])
      .toDecimalPlaces(9)
      .div(asShown(widths[place] as number));
    const away = blocks.abs().plus(0.5).floor().toNumber() * (blocks.isNegative() ? -1 : 1);
    if (Math.abs(away) > FURTHEST) {
      const off = Math.abs(away) <= 1000 ? String(Math.abs(away)) : "over 1000";
      absent("labs", `${off} blocks off in ${SIGNS[axis]}`, `at most ${FURTHEST} either way: wider blocks`);
    }
    return 10 * code + MIDDLE + away;
  }, 0);
}
