import type { Worksheet } from "@cj-tech-master/excelts";
import type { Value } from "../../src/recalculate/values";
import { ABOUT } from "./about";
import { addressOf, place, type Place } from "./addresses";
import { lengthShown, type Format } from "./formats";

export type Orientation = "portrait" | "landscape";

/** Title, sentence and master check: the rows that every printed page repeats. */
export const TITLE_ROWS = 3;

/** Points of height that one line of text takes. */
export const LINE = 15;

const POINTS_PER_INCH = 72;
const PIXELS_PER_INCH = 96;
/** A book is printed on either; inches, long and short side. */
const PAPERS = [
  { long: 11.69, short: 8.27 },
  { long: 11, short: 8.5 },
] as const;
const A4 = 9;
const MARGINS = { left: 0.5, right: 0.5, top: 0.5, bottom: 0.7, header: 0.3, footer: 0.3 } as const;
/** Digits of a typeface that takes the place of a missing one are wider by up to this factor. */
const WIDER = 1.45;

/** The page of a sheet: as wide as the paper, with the title rows on every page and the page's number below. */
export function setPage(sheet: Worksheet, repeatsTitle: boolean): void {
  sheet.pageSetup = {
    ...sheet.pageSetup,
    paperSize: A4,
    fitToPage: true,
    fitToWidth: 1,
    fitToHeight: 0,
    margins: MARGINS,
    ...(repeatsTitle ? { printTitlesRow: `1:${TITLE_ROWS}` } : {}),
  };
  sheet.headerFooter = { ...sheet.headerFooter, oddFooter: "&L&F&C&A&RPage &P of &N" };
}

/** What stands in the cells of a sheet once it is calculated, and how the kit treats it. */
export interface Contents {
  /** By address; a cell without a value is empty. */
  readonly shown: ReadonlyMap<string, { readonly value: Value | Date; readonly format?: Format | undefined }>;
  /** Titles and notes may run over their neighbours; headings of columns break into lines. */
  readonly running: ReadonlySet<string>;
  readonly broken: ReadonlySet<string>;
  /** Widths that a script asks for, by the number of the column. */
  readonly widths: ReadonlyMap<number, number>;
  /** Rows at which a part starts that is best kept on one page; true where it must start a page. */
  readonly parts: ReadonlyMap<number, boolean>;
  /** Remarks that take the width of the sheet. */
  readonly notes: ReadonlySet<string>;
  /** Rows that hold the headings of columns. */
  readonly headed: ReadonlySet<number>;
  /** Where the days of a calendar begin: from there on columns are as narrow as a day. */
  readonly calendar: Place | undefined;
  /** The lowest row and last column that a chart reaches. */
  readonly reach: { readonly row: number; readonly column: number };
}

/** Columns as wide as what they hold, rows as high as their headings, and pages that part where the sheet does. */
export function fit(sheet: Worksheet, contents: Contents, asked?: Orientation): void {
  const last = lastCell(sheet, contents);
  fitColumns(sheet, contents, last.column);
  fitRows(sheet, contents);
  if (sheet.name !== ABOUT) breakIntoLines(sheet, "A2", contents, last.column, LETTERS_PER_DIGIT);
  for (const note of contents.notes) breakIntoLines(sheet, note, contents, last.column, LETTERS_PER_DIGIT_IN_NOTES);
  sheet.pageSetup.orientation = asked ?? orientationFor(pixelsOf(sheet, last.column));
  keepHeadings(sheet, contents, last.column);
  partPages(sheet, contents, last);
}

/** A sheet stands where it is read well that way, and lies where it is wider. */
function orientationFor(pixels: number): Orientation {
  return (roomIn("portrait").wide * PIXELS_PER_INCH) / pixels >= LEAST_SHRINKING ? "portrait" : "landscape";
}

/** The inches that both papers have between their margins. */
function roomIn(orientation: Orientation): { wide: number; high: number } {
  const [across, down] = orientation === "portrait" ? (["short", "long"] as const) : (["long", "short"] as const);
  return {
    wide: Math.min(...PAPERS.map((paper) => paper[across])) - MARGINS.left - MARGINS.right,
    high: Math.min(...PAPERS.map((paper) => paper[down])) - MARGINS.top - MARGINS.bottom,
  };
}

/** Lowest row that may stay in view: below it too little is left of a small screen. */
const LOWEST_KEPT = 10;
/** Names stay in view beside a sheet that is wider than this, in pixels, where they take no more than this. */
const WIDE_SHEET = 1000;
const WIDEST_KEPT = 32;

/** The headings of a sheet with one block stay in view and are printed on every page; elsewhere the title does. */
function keepHeadings(sheet: Worksheet, { headed }: Contents, lastColumn: number): void {
  if (sheet.name === ABOUT) return;
  const [only] = headed;
  const kept = headed.size === 1 && only !== undefined && only <= LOWEST_KEPT ? only : TITLE_ROWS;
  const wide = pixelsOf(sheet, lastColumn) > WIDE_SHEET && (sheet.getColumn(1).width ?? 0) <= WIDEST_KEPT;
  sheet.views = [{ state: "frozen", xSplit: wide ? 1 : 0, ySplit: kept, showGridLines: false }];
  sheet.pageSetup.printTitlesRow = `1:${kept}`;
}

/** A column of so many digits is 7 pixels a digit and 5 more. */
function pixelsOf(sheet: Worksheet, columns: number): number {
  return widthOf(sheet, columns) * 7 + 5 * columns;
}

function lastCell(sheet: Worksheet, { shown, reach }: Contents): { row: number; column: number } {
  let { row, column } = reach;
  for (const [address, { value }] of shown) {
    if (isEmpty(value)) continue;
    const cell = sheet.getCell(address);
    row = Math.max(row, Number(cell.row));
    column = Math.max(column, Number(cell.col));
  }
  // What is printed is as wide as its area, also where nothing stands yet.
  const corner = sheet.pageSetup.printArea?.split(":")[1];
  return { row, column: corner ? Math.max(column, place(corner).column) : column };
}

const NARROWEST = 9;
/** The writer takes 9 for the usual width and leaves it out; beside a calendar that is the width of a day. */
const BESIDE_DAYS = 9.5;
const WIDEST = 70;
/** Room for the number of a day. */
export const DAY_WIDTH = 1.8;

function fitColumns(
  sheet: Worksheet,
  { shown, running, broken, widths, calendar }: Contents,
  lastColumn: number,
): void {
  const widest = new Map<number, number>();
  for (const [address, { value, format }] of shown) {
    if (isEmpty(value) || running.has(address)) continue;
    const cell = sheet.getCell(address);
    const column = Number(cell.col);
    const needed = broken.has(address)
      ? widthOfHeading(String(value)) + (cell.alignment?.indent ?? 0)
      : lengthShown(value, format);
    widest.set(column, Math.max(widest.get(column) ?? 0, needed));
  }
  for (let column = 1; column <= lastColumn; column++) {
    const own = Math.min(WIDEST, Math.max(calendar ? BESIDE_DAYS : NARROWEST, (widest.get(column) ?? 0) + 2));
    const day = calendar !== undefined && column >= calendar.column ? DAY_WIDTH : undefined;
    sheet.getColumn(column).width = widths.get(column) ?? day ?? own;
  }
}

const HEADING_LINES = 3;

/** The least width in which a heading takes no more than three lines and breaks no word. */
function widthOfHeading(text: string): number {
  let width = Math.max(...text.split(" ").map((word) => word.length));
  while (linesOf(text, width) > HEADING_LINES) width++;
  return width + 1;
}

/** More letters than the width of a column counts fit into it: that is counted in digits, which are wider. */
const LETTERS_PER_DIGIT = 1.1;
const LETTERS_PER_DIGIT_IN_NOTES = 1.25;

function fitRows(sheet: Worksheet, { shown, broken }: Contents): void {
  const lines = new Map<number, number>();
  for (const address of broken) {
    const cell = sheet.getCell(address);
    const value = shown.get(address)?.value;
    if (value === undefined || isEmpty(value)) continue;
    const letters = cell.font?.bold ? 1 : LETTERS_PER_DIGIT;
    const width = (sheet.getColumn(Number(cell.col)).width ?? NARROWEST) * letters - 1 - (cell.alignment?.indent ?? 0);
    lines.set(Number(cell.row), Math.max(lines.get(Number(cell.row)) ?? 1, linesOf(String(value), width)));
  }
  for (const [row, count] of lines) {
    sheet.getRow(row).height = LINE * count;
    // A program with wider letters may take more lines.
    sheet.getRow(row).customHeight = false;
  }
}

/** A text that is longer than its sheet is wide takes the width and breaks into lines. */
function breakIntoLines(
  sheet: Worksheet,
  address: string,
  { shown }: Contents,
  lastColumn: number,
  letters: number,
): void {
  const { column, row } = place(address);
  const text = shown.get(address)?.value;
  if (text === undefined || text instanceof Date || lastColumn === 1) return;
  const beside = [...shown].some(([other, { value }]) => {
    const at = place(other);
    return at.row === row && at.column > column && !isEmpty(value);
  });
  if (beside) throw new Error(`${sheet.name}!${address}: a remark has something beside it`);
  const width = widthOf(sheet, lastColumn) - widthOf(sheet, column - 1);
  const lines = linesOf(String(text), width * letters);
  if (lines === 1) return;
  if (lastColumn > column) sheet.mergeCells(`${address}:${addressOf(lastColumn, row)}`);
  sheet.getCell(address).alignment = { wrapText: true, vertical: "top" };
  sheet.getRow(row).height = LINE * lines;
}

function widthOf(sheet: Worksheet, columns: number): number {
  let width = 0;
  for (let column = 1; column <= columns; column++) width += sheet.getColumn(column).width ?? NARROWEST;
  return width;
}

/** A sheet that a little shrinking brings onto one page is shrunk, but never to less than this share. */
const LEAST_SHRINKING = 0.75;

/**
 * A new page before each part that would not fit on one. Parts that must have a page of their own (cards, an order) get
 * a fixed scale, small enough for wide letters: a program may pass over breaks where it fits the width itself.
 */
function partPages(sheet: Worksheet, { parts }: Contents, last: { row: number; column: number }): void {
  const room = roomIn(sheet.pageSetup.orientation as Orientation);
  const pixels = pixelsOf(sheet, last.column);
  const height = (from: number, to: number): number => {
    let sum = 0;
    for (let row = from; row <= to; row++) sum += sheet.getRow(row).height ?? LINE;
    return sum;
  };
  const starts = [...parts.keys()].sort((a, b) => a - b);
  const own = starts.filter((start) => parts.get(start));
  const wide = (room.wide * PIXELS_PER_INCH) / pixels;
  let scale = Math.min(1, wide);
  if (own.length > 0) {
    scale = Math.min(1, wide / WIDER);
    sheet.pageSetup.fitToPage = false;
    sheet.pageSetup.scale = Math.floor(scale * 100);
  }
  const page = (room.high * POINTS_PER_INCH) / scale;
  const whole = page / height(1, last.row);
  // The first sheet is one page, however much it has to say.
  if (sheet.name === ABOUT || (own.length === 0 && whole < 1 && whole >= LEAST_SHRINKING)) {
    sheet.pageSetup.fitToHeight = 1;
    return;
  }
  const title = height(1, TITLE_ROWS);
  let used = height(1, (starts[0] ?? last.row + 1) - 1);
  starts.forEach((start, index) => {
    const part = height(start, (starts[index + 1] ?? last.row + 1) - 1);
    const fits = used + part <= page;
    if (index > 0 && (parts.get(start) || (!fits && title + part <= page))) {
      sheet.getRow(start - 1).addPageBreak();
      used = title;
    }
    used += part;
    while (used > page) used = used - page + title;
  });
}

/** Lines that a text takes when it is broken between words. */
export function linesOf(text: string, width: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(" ")) {
    if (used > 0 && used + 1 + word.length > width) {
      lines++;
      used = word.length;
    } else used += (used > 0 ? 1 : 0) + word.length;
  }
  return lines;
}

function isEmpty(value: Value | Date): boolean {
  return value === null || value === "";
}
