import { Workbook, type Cell, type Worksheet } from "@cj-tech-master/excelts";

/**
 * What the sample workbooks have in common: plain sheets that print in black and white, one look for inputs,
 * calculations and results, and a master check repeated on every sheet.
 */

/** How a column or a cell shows its numbers. */
export const FORMATS = {
  whole: "#,##0",
  kg: "#,##0.0",
  kg3: "#,##0.000",
  money: "#,##0.00",
  price: "#,##0.0000",
  percent: "0.00%",
  decimal: "0.00",
  date: "yyyy-mm-dd",
  text: "@",
} as const;

export type Format = keyof typeof FORMATS;

/** A typed-in value, or a formula that starts with "=". */
export type Entry = string | number | boolean | Date;

export interface TableColumn {
  readonly header: string;
  readonly format?: Format;
  /** Words a person may choose from. */
  readonly choices?: readonly string[];
}

/** The facts that every About sheet states. */
export interface About {
  readonly title: string;
  readonly purpose: string;
  readonly scenario: string;
  readonly date: string;
  readonly currency: string;
  readonly massBasis: string;
  readonly how: readonly string[];
}

const INPUT_FILL = { type: "pattern", pattern: "solid", fgColor: { argb: "FFF2F2F2" } } as const;
const THIN = { style: "thin", color: { argb: "FF808080" } } as const;
const HAIR = { style: "hair", color: { argb: "FFA6A6A6" } } as const;

/** A formula that may spill: its place, and how the columns of what it gives are shown. */
interface Spilling {
  readonly sheet: Worksheet;
  readonly anchor: string;
  readonly formats: readonly (Format | undefined)[];
  readonly headed: boolean;
  readonly totalled: boolean;
}

export class SampleBook {
  readonly workbook = new Workbook();
  private readonly spilling: Spilling[] = [];
  private masterCheck = "";

  constructor(about: About) {
    this.workbook.creator = "yarn worksheet functions";
    this.workbook.created = this.workbook.modified = new Date(`${about.date}T00:00:00Z`);
    this.aboutSheet(about);
  }

  private aboutSheet(about: About): void {
    const sheet = this.workbook.addWorksheet("About");
    sheet.getColumn(1).width = 22;
    sheet.getColumn(2).width = 96;
    sheet.getCell("A1").value = about.title;
    sheet.getCell("A1").font = { bold: true, size: 16 };
    const lines: [string, string][] = [
      ["Purpose", about.purpose],
      ["Scenario", about.scenario],
      ["Date", about.date],
      ["Currency", about.currency],
      ["Mass basis", about.massBasis],
      ...about.how.map((line, index): [string, string] => [index === 0 ? "How to use it" : "", line]),
      ["Colours", "Grey cells are inputs. Everything else is calculated. The book prints in black and white."],
      [
        "Caution",
        "Figures of an invented scenario, not advice. Labels, customs and tax are decided by law; dyeing and machinery by the makers' instructions and trained people.",
      ],
    ];
    lines.forEach(([label, text], index) => {
      const row = index + 5;
      sheet.getCell(`A${row}`).value = label;
      sheet.getCell(`A${row}`).font = { bold: true };
      sheet.getCell(`A${row}`).alignment = { vertical: "top" };
      sheet.getCell(`B${row}`).value = text;
      sheet.getCell(`B${row}`).alignment = { wrapText: true, vertical: "top" };
    });
    sheet.getCell("A3").value = "Library version";
    sheet.getCell("A3").font = { bold: true };
    this.put(sheet, "B3", "=YARN.VERSION()");
    this.page(sheet, "portrait");
  }

  /** A sheet with its title in A1, one sentence in A2 and the master check in the cell the heading names. */
  sheet(
    name: string,
    sentence: string,
    widths: readonly number[],
    orientation: "portrait" | "landscape" = "landscape",
  ): Worksheet {
    const sheet = this.workbook.addWorksheet(name, {
      views: [{ state: "frozen", xSplit: 0, ySplit: 3, showGridLines: false }],
    });
    sheet.getCell("A1").value = name;
    sheet.getCell("A1").font = { bold: true, size: 14 };
    sheet.getCell("A2").value = sentence;
    sheet.getCell("A2").font = { italic: true };
    widths.forEach((width, index) => (sheet.getColumn(index + 1).width = width));
    this.page(sheet, orientation);
    return sheet;
  }

  private page(sheet: Worksheet, orientation: "portrait" | "landscape"): void {
    sheet.pageSetup = { ...sheet.pageSetup, paperSize: 9, orientation, fitToPage: true, fitToWidth: 1, fitToHeight: 0 };
    sheet.headerFooter = { ...sheet.headerFooter, oddFooter: "&L&F&C&A&RPage &P of &N" };
  }

  /** A section heading. */
  heading(sheet: Worksheet, address: string, text: string): void {
    sheet.getCell(address).value = text;
    sheet.getCell(address).font = { bold: true, size: 12 };
  }

  /** Writes a value, or a formula that starts with "=". */
  put(sheet: Worksheet, address: string, entry: Entry, format?: Format): Cell {
    const cell = sheet.getCell(address);
    cell.value = valueOf(entry, address);
    if (format) cell.numFmt = FORMATS[format];
    return cell;
  }

  /** A labelled single input with a defined name, in columns A and B. */
  input(
    sheet: Worksheet,
    row: number,
    label: string,
    name: string,
    entry: Entry,
    format: Format,
    choices?: readonly string[],
  ): void {
    this.inputAt(sheet, 1, 2, row, label, name, entry, format, choices);
  }

  /** The same anywhere: label and value in the columns with these numbers. */
  inputAt(
    sheet: Worksheet,
    labelColumn: number,
    valueColumn: number,
    row: number,
    label: string,
    name: string,
    entry: Entry,
    format: Format,
    choices?: readonly string[],
  ): void {
    sheet.getCell(addressOf(labelColumn, row)).value = label;
    const address = addressOf(valueColumn, row);
    this.asInput(this.put(sheet, address, entry, format), choices);
    this.name(name, sheet.name, address);
  }

  /** A defined name for a cell or a range of a sheet. */
  name(name: string, sheet: string, range: string): void {
    this.workbook.definedNames.add(`'${sheet}'!${range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`, name);
  }

  /** A labelled single result; with a name, other sheets can call it. */
  result(sheet: Worksheet, row: number, label: string, formula: string, format: Format, name?: string): void {
    sheet.getCell(`A${row}`).value = label;
    this.put(sheet, `B${row}`, formula, format).border = { bottom: HAIR };
    if (name) this.name(name, sheet.name, `B${row}`);
  }

  /** An Excel Table of inputs. A formula in a row is calculated, the rest are inputs. */
  table(
    sheet: Worksheet,
    topLeft: string,
    name: string,
    columns: readonly TableColumn[],
    rows: readonly (readonly Entry[])[],
  ): void {
    const { column, row } = place(topLeft);
    sheet.addTable({
      name,
      ref: topLeft,
      headerRow: true,
      totalsRow: false,
      style: { theme: "TableStyleLight15", showRowStripes: false },
      columns: columns.map(({ header }) => ({ name: header })),
      rows: rows.map((entries, index) =>
        entries.map((entry, offset) => valueOf(entry, addressOf(column + offset, row + index + 1))),
      ),
    });
    columns.forEach(({ header, format, choices }, offset) => {
      const head = sheet.getCell(addressOf(column + offset, row));
      head.value = header;
      this.asHeader(head);
      rows.forEach((entries, index) => {
        const cell = sheet.getCell(addressOf(column + offset, row + index + 1));
        if (format) cell.numFmt = FORMATS[format];
        const entry = entries[offset];
        if (typeof entry === "string" && entry.startsWith("=")) cell.border = { bottom: HAIR };
        else this.asInput(cell, choices);
      });
    });
  }

  /** A formula that spills a table or a column; its shape is known after the calculation (see `dress`). */
  spill(
    sheet: Worksheet,
    anchor: string,
    formula: string,
    formats: readonly (Format | undefined)[],
    { headed = true, totalled = false }: { headed?: boolean; totalled?: boolean } = {},
  ): void {
    this.put(sheet, anchor, formula);
    this.spilling.push({ sheet, anchor, formats, headed, totalled });
  }

  /** A plain row of column headings. */
  headers(sheet: Worksheet, topLeft: string, headers: readonly string[]): void {
    const { column, row } = place(topLeft);
    headers.forEach((header, offset) => {
      const cell = sheet.getCell(addressOf(column + offset, row));
      cell.value = header;
      this.asHeader(cell);
    });
  }

  /** The Checks sheet: one line a check, each TRUE or FALSE, one master cell shown on every sheet. */
  checks(lines: readonly (readonly [what: string, formula: string])[]): void {
    const sheet = this.sheet(
      "Checks",
      "Every line must say TRUE. The first line is repeated at the top of every sheet.",
      [90, 14],
      "portrait",
    );
    this.headers(sheet, "A6", ["Check", "Holds"]);
    lines.forEach(([what, formula], index) => {
      sheet.getCell(`A${index + 7}`).value = what;
      sheet.getCell(`A${index + 7}`).alignment = { wrapText: true, vertical: "top" };
      this.put(sheet, `B${index + 7}`, formula).alignment = { horizontal: "center" };
    });
    const last = lines.length + 6;
    sheet.getCell("A4").value = "All checks";
    sheet.getCell("A4").font = { bold: true };
    this.put(sheet, "B4", `=IF(AND(B7:B${last}),"hold","FAIL")`).font = { bold: true };
    this.name("AllChecks", "Checks", "B4");
    this.masterCheck = "Checks!$B$4";
    for (const other of this.workbook.worksheets) {
      if (other.name === "Checks" || other.name === "About") continue;
      this.put(other, "A3", `="Checks: "&${this.masterCheck}`).font = { bold: true };
    }
  }

  /** Number formats, headers and rules for the cells that spilled; called once the sizes are known. */
  dress(spillOf: (sheet: string, anchor: string) => { rows: number; columns: number }): void {
    for (const { sheet, anchor, formats, headed, totalled } of this.spilling) {
      const { rows, columns } = spillOf(sheet.name, anchor);
      const { column, row } = place(anchor);
      for (let down = 0; down < rows; down++) {
        for (let along = 0; along < columns; along++) {
          const cell = sheet.getCell(addressOf(column + along, row + down));
          if (headed && down === 0) this.asHeader(cell);
          else {
            const format = formats[Math.min(along, formats.length - 1)];
            if (format) cell.numFmt = FORMATS[format];
            cell.border = totalled && down === rows - 1 ? { top: THIN } : { bottom: HAIR };
            if (totalled && down === rows - 1) cell.font = { bold: true };
          }
        }
      }
    }
  }

  private asHeader(cell: Cell): void {
    cell.font = { bold: true };
    cell.alignment = { wrapText: true, vertical: "bottom" };
    cell.border = { bottom: THIN };
  }

  private asInput(cell: Cell, choices?: readonly string[]): void {
    cell.fill = INPUT_FILL;
    cell.border = { bottom: HAIR };
    if (choices)
      cell.dataValidation = {
        type: "list",
        allowBlank: true,
        formulae: [`"${choices.join(",")}"`],
        showErrorMessage: true,
      };
  }
}

function valueOf(entry: Entry, address: string): never {
  const value =
    typeof entry === "string" && entry.startsWith("=")
      ? {
          formula: entry.slice(1),
          ...(entry.includes("YARN.") ? { shareType: "array", ref: address, isDynamicArray: true } : {}),
        }
      : entry;
  return value as never;
}

function place(address: string): { column: number; row: number } {
  const match = /^([A-Z]+)(\d+)$/.exec(address);
  if (!match) throw new Error(`${address} is not a cell`);
  return {
    column: [...(match[1] as string)].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0),
    row: Number(match[2]),
  };
}

/** The letters of a column by its number, from 1. */
export function columnLetter(column: number): string {
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** The address of a cell by its numbers, from 1. */
export function addressOf(column: number, row: number): string {
  return `${columnLetter(column)}${row}`;
}
