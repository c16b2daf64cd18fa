import type { Worksheet } from "@cj-tech-master/excelts";
import type { Value } from "../../src/recalculate/values";
import { addressOf, columnLetter } from "./addresses";
import { lengthShown, type Format } from "./formats";

export type Orientation = "portrait" | "landscape";

/** Title, sentence and master check: the rows that every printed page repeats. */
export const TITLE_ROWS = 3;

/** Points of height that one line of text takes. */
export const LINE = 15;

const POINTS_PER_INCH = 72;
/** Inches of an A4 sheet, long and short side. */
const A4 = { long: 11.69, short: 8.27 } as const;
const MARGINS = { left: 0.5, right: 0.5, top: 0.5, bottom: 0.7, header: 0.3, footer: 0.3 } as const;

/** The page of a sheet: A4 with the title rows on every page and the page's number below. */
export function setPage(sheet: Worksheet, orientation: Orientation, repeatsTitle: boolean): void {
  sheet.pageSetup = {
    ...sheet.pageSetup,
    paperSize: 9,
    orientation,
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
  /** The lowest row and last column that a chart reaches. */
  readonly reach: { readonly row: number; readonly column: number };
}

/** Columns as wide as what they hold, rows as high as their headings, and pages that part where the sheet does. */
export function fit(sheet: Worksheet, contents: Contents): void {
  const last = lastCell(sheet, contents);
  fitColumns(sheet, contents, last.column);
  fitRows(sheet, contents, last.column);
  sheet.pageSetup.printArea = `A1:${addressOf(last.column, last.row)}`;
  partPages(sheet, contents, last);
}

function lastCell(sheet: Worksheet, { shown, reach }: Contents): { row: number; column: number } {
  let { row, column } = reach;
  for (const [address, { value }] of shown) {
    if (isEmpty(value)) continue;
    const cell = sheet.getCell(address);
    row = Math.max(row, Number(cell.row));
    column = Math.max(column, Number(cell.col));
  }
  return { row, column };
}

const NARROWEST = 9;
const WIDEST = 70;

function fitColumns(sheet: Worksheet, { shown, running, broken, widths }: Contents, lastColumn: number): void {
  const widest = new Map<number, number>();
  for (const [address, { value, format }] of shown) {
    if (isEmpty(value) || running.has(address)) continue;
    const column = Number(sheet.getCell(address).col);
    const needed = broken.has(address) ? widthOfHeading(String(value)) : lengthShown(value, format);
    widest.set(column, Math.max(widest.get(column) ?? 0, needed));
  }
  for (let column = 1; column <= lastColumn; column++) {
    const own = Math.min(WIDEST, Math.max(NARROWEST, (widest.get(column) ?? 0) + 2));
    sheet.getColumn(column).width = widths.get(column) ?? own;
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

function fitRows(sheet: Worksheet, { shown, broken }: Contents, lastColumn: number): void {
  const lines = new Map<number, number>();
  for (const address of broken) {
    const cell = sheet.getCell(address);
    const value = shown.get(address)?.value;
    if (value === undefined || isEmpty(value)) continue;
    const letters = cell.font?.bold ? 1 : LETTERS_PER_DIGIT;
    const width = (sheet.getColumn(Number(cell.col)).width ?? NARROWEST) * letters - 1;
    lines.set(Number(cell.row), Math.max(lines.get(Number(cell.row)) ?? 1, linesOf(String(value), width)));
  }
  for (const [row, count] of lines) sheet.getRow(row).height = LINE * count;
  wrapSentence(sheet, String(shown.get("A2")?.value ?? ""), lastColumn);
}

/** The sentence below the title breaks into lines where the sheet is narrower than it. */
function wrapSentence(sheet: Worksheet, sentence: string, lastColumn: number): void {
  const lines = linesOf(sentence, widthOf(sheet, lastColumn) * LETTERS_PER_DIGIT);
  if (lines === 1 || lastColumn === 1) return;
  sheet.mergeCells(`A2:${columnLetter(lastColumn)}2`);
  sheet.getCell("A2").alignment = { wrapText: true, vertical: "top" };
  sheet.getRow(2).height = LINE * lines;
}

function widthOf(sheet: Worksheet, columns: number): number {
  let width = 0;
  for (let column = 1; column <= columns; column++) width += sheet.getColumn(column).width ?? NARROWEST;
  return width;
}

/** A sheet that a little shrinking brings onto one page is shrunk, but never to less than this share. */
const LEAST_SHRINKING = 0.75;

/** The scale at which the sheet is as wide as the page, and a new page before each part that would not fit. */
function partPages(sheet: Worksheet, { parts }: Contents, last: { row: number; column: number }): void {
  const upright = sheet.pageSetup.orientation === "portrait";
  const inchesWide = (upright ? A4.short : A4.long) - MARGINS.left - MARGINS.right;
  const inchesHigh = (upright ? A4.long : A4.short) - MARGINS.top - MARGINS.bottom;
  // A column of so many digits is 7 pixels a digit and 5 more, 96 of them to the inch.
  const pixels = widthOf(sheet, last.column) * 7 + 5 * last.column;
  let scale = Math.min(1, (inchesWide * 96) / pixels);
  const height = (from: number, to: number): number => {
    let sum = 0;
    for (let row = from; row <= to; row++) sum += sheet.getRow(row).height ?? LINE;
    return sum;
  };
  const mustPart = [...parts.values()].some(Boolean);
  const whole = (inchesHigh * POINTS_PER_INCH) / height(1, last.row);
  if (!mustPart && whole < scale && whole >= scale * LEAST_SHRINKING) scale = whole;
  // Printers and typefaces differ a little.
  scale = Math.floor(scale * 94) / 100;
  sheet.pageSetup.scale = Math.round(scale * 100);
  const page = (inchesHigh * POINTS_PER_INCH) / scale;
  const title = height(1, TITLE_ROWS);
  const starts = [...parts.keys()].sort((a, b) => a - b);
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
