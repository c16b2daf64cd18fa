import type { Cell } from "@cj-tech-master/excelts";
import { PALETTE } from "./palette";

/** How cells look: one typeface, one box for what is typed in, one band for headings, hairlines for what is worked out. */

export type Font = Cell["font"];

function argb(colour: string): { argb: string } {
  return { argb: `FF${colour}` };
}

function solid(colour: string) {
  return { type: "pattern", pattern: "solid", fgColor: argb(colour) } as const;
}

/** A style that names no typeface is shown in whatever a program falls back on. */
const TYPEFACE = { name: "Calibri", size: 11, color: argb(PALETTE.ink) } as const;

export const FONTS = {
  plain: TYPEFACE,
  bold: { ...TYPEFACE, bold: true },
  bookTitle: { ...TYPEFACE, bold: true, size: 18, color: argb(PALETTE.accent) },
  title: { ...TYPEFACE, bold: true, size: 16, color: argb(PALETTE.accent) },
  sentence: { ...TYPEFACE, color: argb(PALETTE.soft) },
  heading: { ...TYPEFACE, bold: true, size: 12, color: argb(PALETTE.accent) },
  note: { ...TYPEFACE, italic: true, size: 9, color: argb(PALETTE.soft) },
  small: { ...TYPEFACE, size: 8, color: argb(PALETTE.soft) },
  link: { ...TYPEFACE, underline: true, color: argb(PALETTE.accent) },
} as const satisfies Record<string, Font>;

const HAIR = { style: "hair", color: argb(PALETTE.rule) } as const;
const THIN = { style: "thin", color: argb(PALETTE.accent) } as const;
const EDGE = { style: "thin", color: argb(PALETTE.box) } as const;

export const BORDERS = {
  row: { bottom: HAIR },
  headings: { bottom: THIN },
  total: { top: THIN, bottom: THIN },
  input: { top: EDGE, bottom: EDGE, left: EDGE, right: EDGE },
  signature: { bottom: EDGE },
} as const;

export const FILLS = { band: solid(PALETTE.band), input: solid(PALETTE.input) } as const;

/** In a rule the background of a fill is its colour. */
function behind(colour: string) {
  return { type: "pattern", pattern: "solid", bgColor: argb(colour) } as const;
}

/** The screen colour of a shade, for a rule. */
export function shadeFill(colour: string) {
  return { fill: behind(colour) } as const;
}

/** Text that follows a column of numbers keeps clear of them. */
export const INDENTED = { horizontal: "left", indent: 1 } as const;

/** A heading over numbers keeps clear of the button that a Table has at its right edge. */
export const BESIDE_BUTTON = { wrapText: true, vertical: "bottom", horizontal: "right", indent: 2 } as const;

/** What is seen only when something is in a cell, or not as it should be: it follows a block that grows. */
export const WHEN = {
  row: { border: { bottom: HAIR } },
  total: { font: { bold: true }, border: { top: THIN, bottom: THIN } },
  headings: {
    font: { bold: true },
    border: { bottom: THIN },
    fill: behind(PALETTE.band),
  },
  /** Days of a calendar: worked, closed, the first of a week; the number that a bar counts is not written on it. */
  bar: { fill: behind(PALETTE.accent), numFmt: ";;;", numFmtId: 300 },
  closed: { fill: behind(PALETTE.band), border: { bottom: HAIR } },
  week: { border: { left: HAIR } },
  weekRow: { border: { left: HAIR, bottom: HAIR } },
  weekHeading: { border: { left: HAIR, bottom: THIN } },
  dayHeading: { border: { bottom: THIN } },
  broken: {
    font: { bold: true, color: argb(PALETTE.paper) },
    fill: behind(PALETTE.alarm),
  },
} as const;
