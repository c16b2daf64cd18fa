/**
 * The colours of the sample workbooks and their charts, named by what they are for. Few, dark on light, so that a
 * print without colour and an eye that mixes up red and green lose nothing; a test works the contrasts out of the files.
 */
export const PALETTE = {
  ink: "23282C",
  /** Remarks. */
  soft: "586067",
  /** Titles, links and the rules below headings. */
  accent: "1F5A70",
  /** What does not hold. */
  alarm: "8A3D24",
  paper: "FFFFFF",
  /** Behind the headings of columns. */
  band: "E6EDEF",
  /** A cell that is typed in has a tint and a box round it. */
  input: "F8F1E0",
  box: "8A7A55",
  /** The hairline below a row. */
  rule: "AEB6BA",
  /** The lines behind a chart. */
  grid: "DDE1E3",
} as const;

/** The fills of a chart in their order: a dark one beside a light one, so that neighbours part on a grey print too. */
export const SERIES = [
  "1F5A70",
  "E2A85C",
  "7A3B2E",
  "A8CBD3",
  "5D6B2C",
  "E8DDC4",
  "3B3F46",
  "F7F7F5",
  "8C6A9C",
] as const;

/** How light a colour is, from 0 to 1 (WCAG 2.2, relative luminance). */
export function luminance(colour: string): number {
  const [red, green, blue] = [0, 2, 4].map((from) => {
    const share = parseInt(colour.slice(from, from + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** The contrast of two colours, from 1 to 21 (WCAG 2.2). */
export function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

/** Ink or paper, whichever is read better on a fill. */
export function letterOn(fill: string): string {
  return contrast(PALETTE.ink, fill) >= contrast(PALETTE.paper, fill) ? PALETTE.ink : PALETTE.paper;
}
