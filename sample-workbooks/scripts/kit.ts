import { Workbook, type Cell, type Worksheet } from "@cj-tech-master/excelts";
import type { Filled } from "../../src/recalculate/stored-form";
import { CellError, type Value } from "../../src/recalculate/values";
import { absolute, addressOf, columnLetter, place } from "./addresses";
import { drawChart, type ChartPlan } from "./charts";
import { FORMATS, mustNameUnit, validationFor, WORDS, type Format } from "./formats";
import { fit, setPage, TITLE_ROWS, type Orientation } from "./pages";
import { gatherValidations } from "./validations";

export { addressOf, columnLetter, FORMATS, WORDS, type ChartPlan, type Format };

/**
 * What the sample workbooks have in common: plain sheets that print in black and white, one look for inputs,
 * calculations and results, and a master check repeated on every sheet.
 */

/** A typed-in value, or a formula that starts with "=". */
export type Entry = string | number | boolean | Date;

export interface TableColumn {
  readonly header: string;
  readonly format?: Format;
  /** Words a person may choose from. */
  readonly choices?: readonly string[];
}

/** A calculated column: one formula for every row, or one formula that spills down from the first. */
export interface BlockColumn {
  readonly header: string;
  readonly format?: Format;
  readonly entry?: (row: number) => Entry;
  readonly spill?: string;
  /** Text that may run over the cells to its right. */
  readonly runs?: boolean;
  /** Sums the column in a row below, where that makes sense. */
  readonly total?: boolean;
}

/** A line of single inputs: label with unit, defined name, value. */
export type InputLine = readonly [
  label: string,
  name: string,
  entry: Entry,
  format: Format,
  choices?: readonly string[],
];

/** The facts that every About sheet states. */
export interface About {
  readonly title: string;
  readonly purpose: string;
  readonly scenario: string;
  readonly date: string;
  readonly currency: string;
  readonly massBasis: string;
  /** What the main result is known to: a formula. */
  readonly known?: string;
  readonly how: readonly string[];
}

/** Text that follows a column of numbers keeps clear of them. */
const INDENTED = { horizontal: "left", indent: 1 } as const;
const INPUT_FILL = { type: "pattern", pattern: "solid", fgColor: { argb: "FFE6E6E6" } } as const;
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

/** What the kit keeps in mind about the cells of one sheet. */
interface Kept {
  readonly shown: Map<string, { value: Value | Date; format: Format | undefined }>;
  readonly running: Set<string>;
  readonly broken: Set<string>;
  readonly widths: Map<number, number>;
  readonly parts: Map<number, boolean>;
  readonly reach: { row: number; column: number };
}

/** One typeface; a style that names none is shown in whatever a program falls back on. */
const TYPEFACE = { name: "Calibri", size: 11 } as const;
const BOLD = { ...TYPEFACE, bold: true } as const;
/** TRUE and FALSE also where a program counts them as 1 and 0. */
const HOLDS_FORMAT = '"TRUE";"TRUE";"FALSE"';

const ABOUT_WIDTHS = [22, 90] as const;

export class SampleBook {
  readonly workbook = new Workbook();
  private readonly spilling: Spilling[] = [];
  private readonly kept = new Map<string, Kept>();
  private readonly drawings: { readonly sheet: Worksheet; readonly range: string; readonly plan: ChartPlan }[] = [];
  private readonly swatches: { readonly sheet: Worksheet; readonly address: string; readonly from: string }[] = [];

  constructor(about: About) {
    this.workbook.creator = "yarn worksheet functions";
    this.workbook.created = this.workbook.modified = new Date(`${about.date}T00:00:00Z`);
    this.aboutSheet(about);
  }

  private aboutSheet(about: About): void {
    const sheet = this.workbook.addWorksheet("About", { views: [{ showGridLines: false }] });
    ABOUT_WIDTHS.forEach((width, index) => this.keptOf(sheet).widths.set(index + 1, width));
    this.run(sheet, "A1", about.title, { bold: true, size: 16 });
    const lines: [string, Entry][] = [
      [
        "Is the library loaded?",
        '=IF(ISERROR(YARN.VERSION()),"no: saved figures stand until a cell is recalculated; install the add-in","yes, version "&YARN.VERSION())',
      ],
      ["Checks", ""],
      ["Purpose", about.purpose],
      ["Scenario", about.scenario],
      ["Date", about.date],
      ["Currency", about.currency],
      ["Mass basis", about.massBasis],
      ...(about.known === undefined ? [] : [["Known to", about.known] as [string, string]]),
      ...about.how.map((line, index): [string, string] => [index === 0 ? "How to use it" : "", line]),
      ["Look", "Grey cells are inputs. Everything else is calculated. The book prints in black and white."],
      [
        "Caution",
        "Figures of an invented scenario, not advice. Labels, customs and tax are decided by law; dyeing and machinery by the makers' instructions and trained people.",
      ],
    ];
    lines.forEach(([label, text], index) => {
      const row = index + 3;
      this.put(sheet, `A${row}`, label).font = BOLD;
      sheet.getCell(`A${row}`).alignment = { vertical: "top" };
      this.put(sheet, `B${row}`, text).alignment = { wrapText: true, vertical: "top" };
      this.keptOf(sheet).broken.add(`B${row}`);
    });
    setPage(sheet, "portrait", false);
  }

  /** A sheet with its title in A1, one sentence in A2 and the master check in A3. Columns fit themselves unless a width is given. */
  sheet(
    name: string,
    sentence: string,
    widths: readonly (number | undefined)[] = [],
    orientation: Orientation = "landscape",
  ): Worksheet {
    const sheet = this.workbook.addWorksheet(name, {
      views: [{ state: "frozen", xSplit: 0, ySplit: TITLE_ROWS, showGridLines: false }],
    });
    this.run(sheet, "A1", name, { bold: true, size: 14 });
    this.run(sheet, "A2", sentence, { italic: true });
    widths.forEach((width, index) => width !== undefined && this.keptOf(sheet).widths.set(index + 1, width));
    setPage(sheet, orientation, true);
    return sheet;
  }

  private keptOf(sheet: Worksheet): Kept {
    let kept = this.kept.get(sheet.name);
    if (!kept) {
      kept = {
        shown: new Map(),
        running: new Set(),
        broken: new Set(),
        widths: new Map(),
        parts: new Map(),
        reach: { row: 1, column: 1 },
      };
      this.kept.set(sheet.name, kept);
    }
    return kept;
  }

  /** Text that may run over the cells to its right. */
  private run(sheet: Worksheet, address: string, entry: Entry, font: Cell["font"]): void {
    this.put(sheet, address, entry).font = { ...TYPEFACE, ...font };
    this.keptOf(sheet).running.add(address);
  }

  /** A section heading. In the first column it starts a part that is kept on one printed page where it fits. */
  heading(sheet: Worksheet, address: string, text: Entry, { ownPage = false }: { ownPage?: boolean } = {}): void {
    this.run(sheet, address, text, { bold: true, size: 12 });
    const { column, row } = place(address);
    if (column === 1) this.keptOf(sheet).parts.set(row, ownPage);
  }

  /** A remark on what stands above or beside it. */
  note(sheet: Worksheet, address: string, text: string): void {
    this.run(sheet, address, text, { italic: true, size: 9 });
  }

  /** Writes a value, or a formula that starts with "=". */
  put(sheet: Worksheet, address: string, entry: Entry, format?: Format): Cell {
    const cell = sheet.getCell(address);
    cell.value = valueOf(entry, address);
    if (format) cell.numFmt = FORMATS[format];
    this.keptOf(sheet).shown.set(address, { value: isFormula(entry) ? null : entry, format });
    return cell;
  }

  /** A labelled single input with a defined name, in columns A and B. */
  input(sheet: Worksheet, row: number, ...line: InputLine): void {
    this.inputAt(sheet, 1, 2, row, ...line);
  }

  /** Single inputs below each other, from a cell that holds the first label; the values stand to the right. */
  inputs(sheet: Worksheet, topLeft: string, lines: readonly InputLine[]): void {
    const { column, row } = place(topLeft);
    lines.forEach((line, index) => this.inputAt(sheet, column, column + 1, row + index, ...line));
  }

  /** The same anywhere: label and value in the columns with these numbers. */
  inputAt(
    sheet: Worksheet,
    labelColumn: number,
    valueColumn: number,
    row: number,
    ...[label, name, entry, format, choices]: InputLine
  ): void {
    mustNameUnit(label, format);
    this.label(sheet, addressOf(labelColumn, row), label, valueColumn - labelColumn > 1);
    const address = addressOf(valueColumn, row);
    const cell = this.put(sheet, address, entry, format);
    this.asInput(cell, format, choices);
    if (!isNumeric(format)) cell.alignment = { horizontal: "right" };
    this.name(name, sheet.name, address);
  }

  private label(sheet: Worksheet, address: string, text: string, runs = false): void {
    this.put(sheet, address, text);
    if (runs) this.keptOf(sheet).running.add(address);
  }

  /** A defined name for a cell or a range of a sheet. */
  name(name: string, sheet: string, range: string): void {
    this.workbook.definedNames.add(absolute(sheet, range), name);
  }

  /** A labelled single result; with a name, other sheets can call it. */
  result(sheet: Worksheet, row: number, label: string, formula: string, format: Format, name?: string): void {
    mustNameUnit(label, format);
    this.label(sheet, `A${row}`, label);
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
      mustNameUnit(header, format);
      this.header(sheet, addressOf(column + offset, row), header, isNumeric(format));
      rows.forEach((entries, index) => {
        const entry = entries[offset] as Entry;
        const cell = this.put(sheet, addressOf(column + offset, row + index + 1), entry, format);
        if (isFormula(entry)) cell.border = { bottom: HAIR };
        else this.asInput(cell, format, choices);
        if (!isNumeric(format) && offset > 0) cell.alignment = INDENTED;
      });
    });
  }

  /** Calculated columns beside each other, each with one formula; `rows` is how many rows they have now. */
  block(sheet: Worksheet, topLeft: string, rows: number, columns: readonly BlockColumn[]): void {
    const { column, row } = place(topLeft);
    columns.forEach(({ header, format, entry, spill, total, runs }, offset) => {
      mustNameUnit(header, format);
      const at = column + offset;
      this.header(sheet, addressOf(at, row), header, isNumeric(format));
      if (spill !== undefined) this.spill(sheet, addressOf(at, row + 1), spill, [format], { headed: false });
      else
        for (let down = row + 1; down <= row + rows; down++)
          if (entry) {
            const cell = this.put(sheet, addressOf(at, down), entry(down), format);
            cell.border = { bottom: HAIR };
            if (!isNumeric(format) && offset > 0) cell.alignment = INDENTED;
            if (runs) this.keptOf(sheet).running.add(addressOf(at, down));
          }
      if (!total) return;
      const letter = columnLetter(at);
      const sum = this.put(
        sheet,
        addressOf(at, row + rows + 1),
        `=SUM(${letter}${row + 1}:${letter}${row + rows})`,
        format,
      );
      sum.font = BOLD;
      sum.border = { top: THIN };
    });
    if (!columns.some(({ total }) => total)) return;
    const label = this.put(sheet, addressOf(column, row + rows + 1), "In all");
    label.font = BOLD;
    label.border = { top: THIN };
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
    headers.forEach((header, offset) =>
      this.header(sheet, addressOf(column + offset, row), header, column + offset > 1),
    );
  }

  private header(sheet: Worksheet, address: string, text: string, overNumbers: boolean): void {
    this.put(sheet, address, text);
    this.asHeader(sheet, address, overNumbers);
  }

  /** Fills a cell with the screen colour (#RRGGBB) that another cell has when the book is made: "K7" or "Sheet!K7". */
  swatch(sheet: Worksheet, address: string, from: string): void {
    this.swatches.push({ sheet, address, from: from.includes("!") ? from : `${sheet.name}!${from}` });
  }

  private paint(): void {
    for (const { sheet, address, from } of this.swatches) {
      const [name, cell] = from.split("!") as [string, string];
      const colour = /^#([0-9A-F]{6})$/i.exec(String(this.kept.get(name)?.shown.get(cell)?.value))?.[1];
      // A formula that fails is reported with all others, when the book is written.
      if (colour === undefined) continue;
      sheet.getCell(address).fill = { type: "pattern", pattern: "solid", fgColor: { argb: `FF${colour}` } };
    }
  }

  /** A chart over a range of cells of the sheet. */
  chart(sheet: Worksheet, range: string, plan: ChartPlan): void {
    this.drawings.push({ sheet, range, plan });
    const corner = place(range.split(":")[1] as string);
    const { reach } = this.keptOf(sheet);
    reach.row = Math.max(reach.row, corner.row);
    reach.column = Math.max(reach.column, corner.column);
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
    sheet.getCell("B6").alignment = { horizontal: "center" };
    lines.forEach(([what, formula], index) => {
      this.put(sheet, `A${index + 7}`, what).alignment = { wrapText: true, vertical: "top" };
      this.keptOf(sheet).broken.add(`A${index + 7}`);
      const holds = this.put(sheet, `B${index + 7}`, formula);
      holds.alignment = { horizontal: "center" };
      holds.border = { bottom: HAIR };
      holds.numFmt = HOLDS_FORMAT;
    });
    const last = lines.length + 6;
    this.put(sheet, "A4", "All checks").font = BOLD;
    const master = this.put(sheet, "B4", `=IF(AND(B7:B${last}),"hold","FAIL")`);
    master.font = BOLD;
    master.alignment = { horizontal: "center" };
    this.name("AllChecks", "Checks", "B4");
    for (const other of this.workbook.worksheets) {
      if (other.name === "Checks") continue;
      if (other.name === "About") this.put(other, "B4", "=Checks!$B$4").alignment = { wrapText: true, vertical: "top" };
      else this.run(other, `A${TITLE_ROWS}`, '="Checks: "&Checks!$B$4', { bold: true });
    }
  }

  /** Number formats, headings, rules, widths and print areas, once it is known what the formulas give. */
  dress(filled: readonly Filled[]): void {
    const filledAt = new Map(filled.map((entry) => [`${entry.sheet}!${entry.cell}`, entry]));
    const formats = new Map(this.spilling.map((entry) => [`${entry.sheet.name}!${entry.anchor}`, entry]));
    for (const entry of filled) {
      const sheet = this.workbook.getWorksheet(entry.sheet) as Worksheet;
      this.keep(sheet, entry, formats.get(`${entry.sheet}!${entry.cell}`)?.formats);
    }
    this.paint();
    // A chart keeps the values it is first written with, so it is drawn when they are there.
    for (const { sheet, range, plan } of this.drawings) drawChart(sheet, range, plan);
    for (const spilling of this.spilling) {
      const { sheet, anchor } = spilling;
      const { rows = 1, columns = 1 } = filledAt.get(`${sheet.name}!${anchor}`) ?? {};
      this.dressSpill(spilling, rows, columns);
    }
    for (const sheet of this.workbook.worksheets) {
      fit(sheet, this.keptOf(sheet));
      gatherValidations(sheet);
    }
  }

  /** Takes the value of every cell that a formula fills, so that charts hold it and columns fit it. */
  private keep(
    sheet: Worksheet,
    { cell, rows, columns, values }: Filled,
    formats?: readonly (Format | undefined)[],
  ): void {
    const { shown } = this.keptOf(sheet);
    const { column, row } = place(cell);
    const own = shown.get(cell)?.format;
    const last = addressOf(column + columns - 1, row + rows - 1);
    values.forEach((line, down) =>
      line.forEach((value, along) => {
        const address = addressOf(column + along, row + down);
        shown.set(address, { value, format: formats ? formats[Math.min(along, formats.length - 1)] : own });
        const held = value instanceof CellError ? null : value;
        const target = sheet.getCell(address);
        if (down > 0 || along > 0) target.value = held;
        else {
          const { formula } = target.value as unknown as { formula: string };
          const array = rows > 1 || columns > 1 || formula.includes("YARN.");
          target.value = {
            formula,
            result: held,
            ...(array ? { shareType: "array", ref: `${cell}:${last}`, isDynamicArray: true } : {}),
          } as never;
        }
      }),
    );
  }

  private dressSpill({ sheet, anchor, formats, headed, totalled }: Spilling, rows: number, columns: number): void {
    const { column, row } = place(anchor);
    for (let down = 0; down < rows; down++) {
      for (let along = 0; along < columns; along++) {
        const address = addressOf(column + along, row + down);
        const cell = sheet.getCell(address);
        const format = formats[Math.min(along, formats.length - 1)];
        if (headed && down === 0) {
          this.asHeader(sheet, address, isNumeric(format));
          continue;
        }
        if (!isNumeric(format) && along + column > 1) cell.alignment = INDENTED;
        if (format) cell.numFmt = FORMATS[format];
        cell.border = totalled && down === rows - 1 ? { top: THIN } : { bottom: HAIR };
        if (totalled && down === rows - 1) cell.font = BOLD;
      }
    }
  }

  private asHeader(sheet: Worksheet, address: string, overNumbers: boolean): void {
    const cell = sheet.getCell(address);
    cell.font = BOLD;
    const across = overNumbers ? ({ horizontal: "right" } as const) : place(address).column > 1 ? INDENTED : {};
    cell.alignment = { wrapText: true, vertical: "bottom", ...across };
    cell.border = { bottom: THIN };
    this.keptOf(sheet).broken.add(address);
  }

  private asInput(cell: Cell, format?: Format, choices?: readonly string[]): void {
    cell.fill = INPUT_FILL;
    cell.border = { bottom: HAIR };
    const validation = validationFor(format, choices);
    if (validation) cell.dataValidation = validation as never;
  }
}

function isNumeric(format: Format | undefined): boolean {
  return format !== undefined && format !== "text";
}

function isFormula(entry: Entry | undefined): boolean {
  return typeof entry === "string" && entry.startsWith("=");
}

function valueOf(entry: Entry, address: string): never {
  const value = isFormula(entry)
    ? {
        formula: String(entry).slice(1),
        ...(String(entry).includes("YARN.") ? { shareType: "array", ref: address, isDynamicArray: true } : {}),
      }
    : entry;
  return value as never;
}
