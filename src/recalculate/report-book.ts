import { openBook } from "./book";
import { inOrder, packed } from "./packing";
import type { ReportTable, Shows } from "./report-page";
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

/** Writes a table from a cell on and gives the row below it. */
export function tableOnSheet(sheet: Sheet, from: number, table: ReportTable, left = 1): number {
  const { title, columns, rows, note } = table;
  let row = from;
  if (title !== undefined) {
    const cell = sheet.getCell(row++, left);
    cell.value = title;
    cell.style = { font: typed({ bold: true, size: 12 }) };
  }
  columns.forEach(({ heading, shows }, index) => {
    const cell = sheet.getCell(row, left + index);
    cell.value = heading;
    cell.style = {
      font: typed({ bold: true }),
      border: { bottom: { style: "medium" } },
      alignment: { wrapText: true, vertical: "bottom", horizontal: shows === undefined ? "left" : "right" },
    };
  });
  for (const values of rows) {
    row++;
    values.forEach((value, index) => {
      const cell = sheet.getCell(row, left + index);
      cell.value = value;
      cell.style = {
        font: typed({}),
        border: { bottom: { style: "hair" } },
        alignment: { vertical: "top", wrapText: typeof value === "string" },
        ...(typeof value === "number" ? { numFmt: formatOf(columns[index]?.shows) } : {}),
      };
    });
  }
  if (note === undefined) return row + 2;
  return sentenceOnSheet(sheet, row + 1, note, { italic: true, size: 9 }) + 1;
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

/** Wide enough for what is in a column, within reason. */
export function widen(sheet: Sheet, tables: readonly ReportTable[], most = 60): void {
  const widths: number[] = [];
  for (const { columns, rows } of tables) {
    columns.forEach(({ heading, shows }, index) => {
      const longest =
        shows === undefined ? Math.max(...rows.slice(0, 500).map((row) => String(row[index]).length), 0) : 11;
      // A heading may break at its words.
      const words = Math.max(...heading.split(" ").map(({ length }) => length));
      widths[index] = Math.max(widths[index] ?? 8, Math.min(most, Math.max(longest, words) + 2));
    });
  }
  widths.forEach((width, index) => {
    sheet.getColumn(index + 1).width = width;
  });
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
