import { openBook } from "./book";
import { inOrder, packed } from "./packing";
import { DAYS_TO_1904, isDateFormat } from "./number-format";
import { isOfNumbers, type InFormat, type ReportTable, type Shows } from "./report-page";
import { writeWhole } from "./recalculation";
import { countSharedStrings } from "./shared-strings";
import { isCalculated, settleWorkbook } from "./stored-form";
import type { Workbook } from "./workbook";

export type Sheet = ReturnType<Workbook["addWorksheet"]>;

/** A4, one page wide, as many pages long as it takes. */
const PRINTED = {
  paperSize: 9,
  orientation: "portrait",
  fitToPage: true,
  fitToWidth: 1,
  fitToHeight: 0,
  margins: { left: 0.55, right: 0.55, top: 0.63, bottom: 0.63, header: 0.3, footer: 0.3 },
} as const;

export async function newWorkbook(): Promise<Workbook> {
  const { Workbook: Book } = await import("./workbook");
  return new Book();
}

/** What is printed stands in so many columns. */
export const WIDTH_IN_COLUMNS = 7;
const WIDTHS = [30, 13, 13, 13, 13, 13, 13];
const TYPEFACE = "Calibri";
const ROW_HEIGHT = 15;

/** A sheet that prints as the page does. */
export function reportSheet(workbook: Workbook, name: string, frozen = 0): Sheet {
  const sheet = workbook.addWorksheet(name, {
    views: [
      { state: frozen > 0 ? "frozen" : "normal", ...(frozen > 0 ? { ySplit: frozen } : {}), showGridLines: false },
    ],
    pageSetup: PRINTED,
  } as never);
  sheet.headerFooter.oddFooter = "&L&A&R&P / &N";
  WIDTHS.forEach((width, index) => {
    sheet.getColumn(index + 1).width = width;
  });
  return sheet;
}

/** Writes a table from a cell on and gives the row below it. The columns have their widths by then. */
export function tableOnSheet(sheet: Sheet, from: number, table: ReportTable, left = 1): number {
  const { title, columns, rows, note } = table;
  let row = from;
  if (title !== undefined) {
    const cell = sheet.getCell(row++, left);
    cell.value = title;
    cell.style = { font: typed({ bold: true, size: 12 }) };
  }
  columns.forEach((column, index) => {
    const cell = sheet.getCell(row, left + index);
    cell.value = column.heading;
    cell.style = {
      font: typed({ bold: true }),
      border: { bottom: { style: "medium" } },
      alignment: {
        wrapText: true,
        vertical: "bottom",
        horizontal: isOfNumbers(column) ? "right" : "left",
        ...apart(columns, index),
      },
    };
  });
  const widthOf = (index: number) => sheet.getColumn(left + index).width ?? WIDTHS[0] ?? 0;
  const heading = Math.max(...columns.map((column, index) => linesOf(column.heading, widthOf(index))));
  if (heading > 1) sheet.getRow(row).height = ROW_HEIGHT * heading;
  for (const values of rows) {
    row++;
    values.forEach((value, index) => {
      const cell = sheet.getCell(row, left + index);
      cell.value = typeof value === "object" ? dayNumber(value) : value;
      const isText = typeof value === "string" || typeof value === "boolean";
      cell.style = {
        font: typed({}),
        border: { bottom: { style: "hair" } },
        alignment: {
          vertical: "top",
          wrapText: typeof value === "string",
          ...(isText && columns[index]?.figures ? { horizontal: "right" } : {}),
          ...apart(columns, index),
        },
        ...(typeof value === "number" ? { numFmt: formatOf(columns[index]?.shows) } : {}),
        ...(typeof value === "object" ? { numFmt: value.format } : {}),
      };
    });
    const lines = Math.max(
      ...values.map((value, index) => (typeof value === "string" ? linesOf(value, widthOf(index)) : 1)),
    );
    if (lines > 1) sheet.getRow(row).height = ROW_HEIGHT * Math.min(lines, MOST_LINES);
  }
  if (note === undefined) return row + 2;
  return sentenceOnSheet(sheet, row + 1, note, { italic: true, size: 9 }) + 1;
}

/** Words keep away from figures to their left. */
function apart(columns: ReportTable["columns"], index: number): { horizontal?: "left"; indent?: number } {
  const [before, own] = [columns[index - 1], columns[index]];
  return before && own && isOfNumbers(before) && !isOfNumbers(own) ? { horizontal: "left", indent: 1 } : {};
}

/** So many lines of a cell are shown on paper; the cell itself holds all. */
const MOST_LINES = 6;

/** How many lines a text takes, broken at its words where there are any. */
function linesOf(text: string, width: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(" ")) {
    if (used > 0 && used + 1 + word.length > width) [lines, used] = [lines + 1, 0];
    used += word.length + (used > 0 ? 1 : 0);
    while (used > width) [lines, used] = [lines + 1, used - width];
  }
  return lines;
}

/** This workbook counts its days from 1900. */
function dayNumber({ value, format, date1904 = false }: InFormat): number {
  return date1904 && isDateFormat(format) ? value + DAYS_TO_1904 : value;
}

interface Font {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly size?: number;
}

function typed(font: Font) {
  return { name: TYPEFACE, size: 11, ...font };
}

/** About so many characters of this size stand in a line of a sheet's width. */
const CHARACTERS = 112;

/** A sentence over the width of the sheet, broken where it must be; gives the row below it. */
export function sentenceOnSheet(sheet: Sheet, row: number, words: string, font: Font = {}): number {
  const { size = 11 } = font;
  const cell = sheet.getCell(row, 1);
  cell.value = words;
  cell.style = { font: typed(font), alignment: { wrapText: true, vertical: "top" } };
  sheet.mergeCells(row, 1, row, WIDTH_IN_COLUMNS);
  const lines = Math.ceil((words.length * size) / 11 / CHARACTERS);
  sheet.getRow(row).height = Math.ceil((ROW_HEIGHT * size) / 11) * lines;
  return row + 1;
}

function formatOf(shows: Shows | undefined): string {
  if (shows === undefined) return "General";
  const { decimals, percent = false } = shows;
  return `#,##0${decimals > 0 ? `.${"0".repeat(decimals)}` : ""}${percent ? "%" : ""}`;
}

/** The workbook's bytes, in the state in which a program shows its values as they are. */
export async function bytesOfReport(workbook: Workbook, called: string): Promise<Uint8Array> {
  const book = openBook(new Uint8Array(await workbook.xlsx.writeBuffer()), called);
  settleWorkbook(book, isCalculated);
  countSharedStrings(book);
  return packed(inOrder(book.parts));
}

export async function writeReportBook(file: string, workbook: Workbook): Promise<void> {
  writeWhole(file, await bytesOfReport(workbook, file));
}
