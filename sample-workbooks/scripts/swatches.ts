import { channelsOfHex, hexOfLab, labOfRgb } from "../../src/trade/shade";

/**
 * A file colours a cell only from a list of colours that it holds, so a swatch shows the nearest of a lattice over L*,
 * a*, b*, as far as dyed wool and screens go.
 */
const STEPS = [8, 12, 12] as const;
const GREATEST_CHROMA = 72;
const DARKEST = 8;
const LIGHTEST = 96;
/** What a screen shows further than this from the shade is no picture of it. */
const FURTHEST = 6;

/** The formula of swatches for rows of L*, a*, b*: the text of a cell names the colour that it has. */
export function swatchOf(lab: string): string {
  const steps = `{${STEPS.join(",")}}`;
  return `=YARN.LABTORGB(ROUND(${lab}/${steps},0)*${steps})`;
}

/** The colours of the lattice, as #RRGGBB. */
export function swatchColours(): string[] {
  const [lightness, redness, yellowness] = STEPS;
  const colours = new Set<string>();
  for (let l = DARKEST; l <= LIGHTEST; l += lightness)
    for (let a = -GREATEST_CHROMA; a <= GREATEST_CHROMA; a += redness)
      for (let b = -GREATEST_CHROMA; b <= GREATEST_CHROMA; b += yellowness) {
        const colour = hexOfLab([l, a, b]);
        const [ofScreenL, ofScreenA, ofScreenB] = labOfRgb(...(channelsOfHex(colour) as [number, number, number]));
        if (Math.hypot(ofScreenL - l, ofScreenA - a, ofScreenB - b) <= FURTHEST) colours.add(colour);
      }
  return [...colours];
}
