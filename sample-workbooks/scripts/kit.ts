import { Workbook, type Cell, type Worksheet } from "@cj-tech-master/excelts";
import type { Filled } from "../../src/recalculate/stored-form";
import { CellError, type Value } from "../../src/recalculate/values";
import { ABOUT, writeAbout, type About } from "./about";
import { absolute, addressOf, columnLetter, place, type Place } from "./addresses";
import { drawChart, type ChartPlan } from "./charts";
import { FORMATS, mustNameUnit, validationFor, WORDS, type Choices, type Format } from "./formats";
import { DAY_WIDTH, fit, LINE, setPage, TITLE_ROWS, type Orientation } from "./pages";
import { BORDERS, FILLS, FONTS, BESIDE_BUTTON, INDENTED, shadeFill, WHEN, type Font } from "./styles";
import { swatchColours } from "./swatches";
import { gatherValidations } from "./validations";

export { addressOf, columnLetter, FORMATS, WORDS, type ChartPlan, type Format };

/**
 * What the sample workbooks have in common: one look for inputs, calculations and results that holds on a grey print,
 * blocks that grow with their inputs, and a master check repeated on every sheet.
 */

/** A typed-in value, or a formula that starts with "=". */
export type Entry = string | number | boolean | Date;

export interface TableColumn {
  readonly header: string;
  readonly format?: Format;
  readonly choices?: Choices;
}

/** A calculated column of a block that grows with what its formulas read. */
export interface GrowingColumn {
  readonly header: string;
  readonly format?: Format;
  /** The formula that spills down; left out where the one to its left fills this column too. */
  readonly spill?: string;
  /** Writes the sum of the column above it, where that makes sense, or what this formula gives. */
  readonly total?: boolean | string;
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
export type InputLine = readonly [label: string, name: string, entry: Entry, format: Format, choices?: Choices];

/** What bars are drawn from: three columns of a block, one row a bar, and the days on which nobody works. */
export interface Bars {
  readonly names: string;
  readonly starts: string;
  readonly finishes: string;
  readonly closed: string;
}

/** A formula that may spill: its place, and how the columns of what it gives are shown. */
interface Spilling {
  readonly sheet: Worksheet;
  readonly anchor: string;
  readonly formats: readonly (Format | undefined)[];
  readonly headed: boolean;
  readonly totalled: boolean;
  readonly asCard: boolean;
}

/** What the kit keeps in mind about the cells of one sheet. */
interface Kept {
  readonly shown: Map<string, { value: Value | Date; format: Format | undefined }>;
  readonly running: Set<string>;
  readonly broken: Set<string>;
  readonly widths: Map<number, number>;
  readonly parts: Map<number, boolean>;
  /** Remarks that take the width of the sheet. */
  readonly notes: Set<string>;
  /** Rows that hold the headings of columns. */
  readonly headed: Set<number>;
  readonly reach: { row: number; column: number };
  sentence: string;
  hasInputs: boolean;
  orientation: Orientation | undefined;
  /** Where the days of a calendar begin. */
  calendar: Place | undefined;
}

/** TRUE and FALSE also where a program counts them as 1 and 0. */
const HOLDS_FORMAT = '"TRUE";"TRUE";"FALSE"';
/** What is said on every sheet that takes inputs. */
const LEGEND = "Cells with a box and a tint are typed in.";
/** Rows below a block that grows which look like it as soon as something stands in them. */
const GROWTH = 200;
/** Days of a calendar that look like one as soon as something stands in them: a year of Mondays to Fridays. */
const CALENDAR_DAYS = 260;
const CLOSED = "×";

export class SampleBook {
  readonly workbook = new Workbook();
  private readonly spilling: Spilling[] = [];
  private readonly kept = new Map<string, Kept>();
  private readonly drawings: { readonly sheet: Worksheet; readonly range: string; readonly plan: ChartPlan }[] = [];

  constructor(private readonly about: About) {
    this.workbook.creator = "yarn worksheet functions";
    this.workbook.created = this.workbook.modified = new Date(`${about.date}T00:00:00Z`);
    setPage(this.workbook.addWorksheet(ABOUT, { views: [{ showGridLines: false }] }), false);
  }

  /**
   * A sheet with its title in A1, one sentence in A2 and the master check in A3. Columns fit themselves unless a width is
   * given, and the page lies or stands as they need.
   */
  sheet(
    name: string,
    sentence: string,
    widths: readonly (number | undefined)[] = [],
    orientation?: Orientation,
  ): Worksheet {
    const sheet = this.workbook.addWorksheet(name, {
      views: [{ state: "frozen", xSplit: 0, ySplit: TITLE_ROWS, showGridLines: false }],
    });
    this.run(sheet, "A1", name, FONTS.title);
    this.run(sheet, "A2", sentence, FONTS.sentence);
    this.setWidths(sheet, widths);
    this.keptOf(sheet).sentence = sentence;
    this.keptOf(sheet).orientation = orientation;
    setPage(sheet, true);
    return sheet;
  }

  setWidths(sheet: Worksheet, widths: readonly (number | undefined)[]): void {
    widths.forEach((width, index) => width !== undefined && this.keptOf(sheet).widths.set(index + 1, width));
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
        notes: new Set(),
        headed: new Set(),
        reach: { row: 1, column: 1 },
        sentence: "",
        hasInputs: false,
        orientation: undefined,
        calendar: undefined,
      };
      this.kept.set(sheet.name, kept);
    }
    return kept;
  }

  /** Text that may run over the cells to its right. */
  run(sheet: Worksheet, address: string, entry: Entry, font: Font): void {
    this.put(sheet, address, entry).font = font;
    this.keptOf(sheet).running.add(address);
  }

  /** Text that breaks into lines within its column. */
  text(sheet: Worksheet, address: string, entry: Entry): void {
    this.put(sheet, address, entry).alignment = { wrapText: true, vertical: "top" };
    this.keptOf(sheet).broken.add(address);
  }

  /** The name of a sheet, which leads there. */
  link(sheet: Worksheet, address: string, target: string): void {
    const cell = this.put(sheet, address, target);
    cell.value = { text: target, hyperlink: `#'${target}'!A1` };
    cell.font = FONTS.link;
    cell.alignment = { vertical: "top" };
  }

  /** A section heading. In the first column it starts a part that is kept on one printed page where it fits. */
  heading(sheet: Worksheet, address: string, text: Entry, { ownPage = false }: { ownPage?: boolean } = {}): void {
    this.run(sheet, address, text, FONTS.heading);
    const { column, row } = place(address);
    if (column === 1) this.keptOf(sheet).parts.set(row, ownPage);
  }

  /** A remark on what stands above or beside it; it takes the width of the sheet from its cell on. */
  note(sheet: Worksheet, address: string, text: string): void {
    this.run(sheet, address, text, FONTS.note);
    this.keptOf(sheet).notes.add(address);
  }

  /** Writes a value, or a formula that starts with "=". */
  put(sheet: Worksheet, address: string, entry: Entry, format?: Format): Cell {
    const cell = sheet.getCell(address);
    cell.value = valueOf(entry, address);
    cell.font ??= FONTS.plain;
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
    this.keptOf(sheet).hasInputs = true;
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
    const cell = this.put(sheet, `B${row}`, formula, format);
    cell.border = BORDERS.row;
    if (!isNumeric(format)) cell.alignment = { horizontal: "right" };
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
      // Without a style of the program's own: its colours would be nobody's choice.
      style: { theme: null as never, showRowStripes: false },
      columns: columns.map(({ header }) => ({ name: header })),
      rows: rows.map((entries, index) =>
        entries.map((entry, offset) => valueOf(entry, addressOf(column + offset, row + index + 1))),
      ),
    });
    this.keptOf(sheet).hasInputs = true;
    columns.forEach(({ header, format, choices }, offset) => {
      mustNameUnit(header, format);
      const heading = addressOf(column + offset, row);
      this.header(sheet, heading, header, isNumeric(format));
      if (isNumeric(format)) sheet.getCell(heading).alignment = BESIDE_BUTTON;
      rows.forEach((entries, index) => {
        const entry = entries[offset] as Entry;
        const cell = this.put(sheet, addressOf(column + offset, row + index + 1), entry, format);
        if (isFormula(entry)) cell.border = BORDERS.row;
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
            cell.border = BORDERS.row;
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
      sum.font = FONTS.bold;
      sum.border = BORDERS.total;
    });
    if (!columns.some(({ total }) => total)) return;
    const label = this.put(sheet, addressOf(column, row + rows + 1), "In all");
    label.font = FONTS.bold;
    label.border = BORDERS.total;
  }

  /**
   * A block that grows: headings, below them the sums where a column has one, then one formula a column, as many rows
   * as it gives. Nothing may stand below. Gives the row of the formulas.
   */
  growing(sheet: Worksheet, topLeft: string, columns: readonly GrowingColumn[]): number {
    const { column, row } = place(topLeft);
    const totals = columns.some(({ total }) => total);
    const first = row + (totals ? 2 : 1);
    columns.forEach(({ header, format, spill, total }, offset) => {
      mustNameUnit(header, format);
      const at = column + offset;
      this.header(sheet, addressOf(at, row), header, isNumeric(format));
      if (spill !== undefined) {
        const formats = [format, ...columns.slice(offset + 1).map((each) => each.format)];
        this.spill(sheet, addressOf(at, first), spill, formats, { headed: false });
      }
      if (!totals) return;
      const own = total === true ? `=SUM(${addressOf(at, first)}#)` : total;
      const sum = own || (offset === 0 ? "In all" : "");
      const cell = this.put(sheet, addressOf(at, row + 1), sum, format);
      cell.font = FONTS.bold;
      cell.border = BORDERS.total;
      if (sum === "") cell.value = null;
    });
    return first;
  }

  /** A formula that spills a table or a column; its shape is known after the calculation (see `dress`). */
  spill(
    sheet: Worksheet,
    anchor: string,
    formula: string,
    formats: readonly (Format | undefined)[],
    {
      headed = true,
      totalled = false,
      asCard = false,
    }: { headed?: boolean; totalled?: boolean; asCard?: boolean } = {},
  ): void {
    // Said outright: a formula that fills one cell now may fill more when its inputs grow.
    this.put(sheet, anchor, formula).value = valueOf(formula, anchor, true);
    this.spilling.push({ sheet, anchor, formats, headed, totalled, asCard });
  }

  /**
   * Cards below each other, of which each begins with these words of its first column and ends with those of its last
   * row: they look so wherever the words stand, and an empty card has no look. Above each card stands its title, alone.
   */
  cards(sheet: Worksheet, range: string, [first, last]: readonly [first: string, last: string]): void {
    const { column, row } = place(range.split(":")[0] as string);
    const leading = `$${columnLetter(column)}${row}`;
    this.when(sheet, range, `${leading}="${first}"`, WHEN.headings);
    this.when(sheet, range, `${leading}="${last}"`, WHEN.total);
    this.when(sheet, range, `$${columnLetter(column + 1)}${row}<>""`, WHEN.row);
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

  /** Gives the cells from a first row on the colour that their text names (see `swatchOf`), as the block grows. */
  swatches(sheet: Worksheet, columns: string, row: number): void {
    const [first, last = first] = columns.split(":") as [string, string?];
    const priority = nextPriority(sheet);
    sheet.addConditionalFormatting({
      ref: `${first}${row}:${last}${row + GROWTH}`,
      rules: swatchColours().map((colour, index) => ({
        type: "cellIs",
        operator: "equal",
        priority: priority + index,
        formulae: [`"${colour}"`],
        style: shadeFill(colour.slice(1)),
      })),
    });
  }

  /**
   * Bars on a calendar of Mondays to Fridays beside a block whose headings stand in the row of `topLeft`: one row a bar,
   * from its start to its finish. Days on which the same name has several bars are numbered and marked, closed days are
   * crossed out; both are read on a print without colour too. It grows with the block.
   */
  bars(sheet: Worksheet, topLeft: string, { names, starts, finishes, closed }: Bars): void {
    const { column, row } = place(topLeft);
    const [days, first] = [`${topLeft}#`, addressOf(column, row + 1)];
    const monday = `(MIN(${starts})-WEEKDAY(MIN(${starts}),2)+1)`;
    const weeks = `(INT((MAX(${finishes})-${monday})/7)+1)`;
    const day = `(SEQUENCE(5*${weeks})-1)`;
    const worked = `(${days}>=${starts})*(${days}<=${finishes})`;
    const atOnce = `MMULT(--(${names}=TRANSPOSE(${names})),${worked})`;
    const formulas: readonly (readonly [address: string, formula: string])[] = [
      [
        addressOf(column, row - 1),
        `=IF(WEEKDAY(${days},2)=1,TEXT(MONTH(${days}),"00")&"-"&TEXT(DAY(${days}),"00"),"")`,
      ],
      [topLeft, `=TRANSPOSE(${monday}+7*INT(${day}/5)+MOD(${day},5))`],
      [first, `=IF(COUNTIF(${closed},${days})*ISNUMBER(${starts})>0,"${CLOSED}",IF(${worked},${atOnce},""))`],
    ];
    for (const [address, formula] of formulas)
      this.put(sheet, address, formula).value = valueOf(formula, address, true);
    this.keptOf(sheet).calendar = { column, row };
    sheet.properties.defaultColWidth = DAY_WIDTH;
    const [left, right] = [columnLetter(column), columnLetter(column + CALENDAR_DAYS)];
    const heading = `${left}$${row}`;
    const isMonday = `AND(${heading}<>"",WEEKDAY(${heading},2)=1)`;
    this.when(sheet, `${left}${row - 1}:${right}${row - 1}`, isMonday, WHEN.week);
    this.when(sheet, `${left}${row}:${right}${row}`, isMonday, WHEN.weekHeading);
    this.when(sheet, `${left}${row}:${right}${row}`, `${heading}<>""`, WHEN.dayHeading);
    const below = `${first}:${right}${row + GROWTH}`;
    const isThere = `$A${row + 1}<>"",${heading}<>""`;
    this.when(sheet, below, `AND(ISNUMBER(${first}),${first}>1)`, WHEN.broken);
    this.when(sheet, below, `${first}=1`, WHEN.bar);
    this.when(sheet, below, `AND(${isThere},${first}="${CLOSED}")`, WHEN.closed);
    this.when(sheet, below, `AND(${isThere},WEEKDAY(${heading},2)=1)`, WHEN.weekRow);
    this.when(sheet, below, `AND(${isThere})`, WHEN.row);
  }

  /** A chart over a range of cells of the sheet. */
  chart(sheet: Worksheet, range: string, plan: ChartPlan): void {
    this.drawings.push({ sheet, range, plan });
    const corner = place(range.split(":")[1] as string);
    const { reach } = this.keptOf(sheet);
    reach.row = Math.max(reach.row, corner.row);
    reach.column = Math.max(reach.column, corner.column);
  }

  /** The Checks sheet: one line a check, each TRUE or FALSE, one master cell shown on every sheet; then the About sheet. */
  checks(lines: readonly (readonly [what: string, formula: string])[]): void {
    const sheet = this.sheet(
      "Checks",
      "Every line must say TRUE. The first line is repeated at the top of every sheet.",
      [90, 14],
    );
    this.headers(sheet, "A6", ["Check", "Holds"]);
    sheet.getCell("B6").alignment = { horizontal: "center" };
    lines.forEach(([what, formula], index) => {
      const row = index + 7;
      this.text(sheet, `A${row}`, what);
      const holds = this.put(sheet, `B${row}`, formula);
      holds.alignment = { horizontal: "center" };
      holds.numFmt = HOLDS_FORMAT;
      sheet.getCell(`A${row}`).border = holds.border = BORDERS.row;
    });
    const last = lines.length + 6;
    this.put(sheet, "A4", "All checks").font = FONTS.bold;
    const master = this.put(sheet, "B4", `=IF(IFERROR(AND(B7:B${last}),FALSE),"hold","FAIL")`);
    master.font = FONTS.bold;
    master.alignment = { horizontal: "center" };
    this.name("AllChecks", "Checks", "B4");
    this.alarm(sheet, "B4", 'B4="FAIL"');
    this.alarm(sheet, `B7:B${last}`, "NOT(B7)");
    const others = this.workbook.worksheets.filter(({ name }) => name !== "Checks" && name !== ABOUT);
    for (const other of others) {
      this.run(other, `A${TITLE_ROWS}`, '="Checks: "&Checks!$B$4', FONTS.bold);
      // A little air before what begins in the next row.
      other.getRow(TITLE_ROWS).height = 1.4 * LINE;
      other.getCell(`A${TITLE_ROWS}`).alignment = { vertical: "top" };
      this.alarm(other, `A${TITLE_ROWS}:B${TITLE_ROWS}`, 'Checks!$B$4="FAIL"');
      const { hasInputs, sentence } = this.keptOf(other);
      if (hasInputs) this.run(other, "A2", `${sentence} ${LEGEND}`, FONTS.sentence);
    }
    const named = [...others, sheet].map(({ name }) => ({
      name,
      sentence: this.keptOf(this.workbook.getWorksheet(name) as Worksheet).sentence,
    }));
    writeAbout(this, this.about, named, this.drawings.length > 0);
  }

  private alarm(sheet: Worksheet, ref: string, formula: string): void {
    this.when(sheet, ref, formula, WHEN.broken);
  }

  private when(sheet: Worksheet, ref: string, formula: string, style: (typeof WHEN)[keyof typeof WHEN]): void {
    const priority = nextPriority(sheet);
    sheet.addConditionalFormatting({
      ref,
      rules: [{ type: "expression", priority, formulae: [formula], style: style }],
    });
  }

  /** Number formats, headings, rules, widths and print areas, once it is known what the formulas give. */
  dress(filled: readonly Filled[]): void {
    const filledAt = new Map(filled.map((entry) => [`${entry.sheet}!${entry.cell}`, entry]));
    const formats = new Map(this.spilling.map((entry) => [`${entry.sheet.name}!${entry.anchor}`, entry]));
    for (const entry of filled) {
      const sheet = this.workbook.getWorksheet(entry.sheet) as Worksheet;
      this.keep(sheet, entry, formats.get(`${entry.sheet}!${entry.cell}`)?.formats);
    }
    // A chart keeps the values it is first written with, so it is drawn when they are there.
    for (const { sheet, range, plan } of this.drawings) drawChart(sheet, range, plan);
    for (const spilling of this.spilling) {
      const { sheet, anchor } = spilling;
      const { rows = 1, columns = 1 } = filledAt.get(`${sheet.name}!${anchor}`) ?? {};
      this.dressSpill(spilling, rows, columns);
    }
    for (const sheet of this.workbook.worksheets) {
      const { calendar } = this.keptOf(sheet);
      if (calendar) this.dressCalendar(sheet, calendar);
      fit(sheet, this.keptOf(sheet), this.keptOf(sheet).orientation);
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
          const { formula, shareType } = target.value as unknown as { formula: string; shareType?: string };
          const array = rows > 1 || columns > 1 || shareType === "array";
          target.value = {
            formula,
            result: held,
            ...(array ? { shareType: "array", ref: `${cell}:${last}`, isDynamicArray: true } : {}),
          } as never;
        }
      }),
    );
  }

  private dressSpill(spilling: Spilling, rows: number, columns: number): void {
    const { sheet, anchor, formats, headed, totalled, asCard } = spilling;
    const { column, row } = place(anchor);
    if (asCard) return this.dressCard(spilling, rows);
    const first = headed ? row + 1 : row;
    const last = row + rows - 1;
    const grows = this.isFreeBelow(sheet, column, columns, last);
    for (let along = 0; along < columns; along++) {
      const format = formats[Math.min(along, formats.length - 1)];
      const at = column + along;
      if (headed) this.asHeader(sheet, addressOf(at, row), isNumeric(format));
      const alignment = !isNumeric(format) && at > 1 ? INDENTED : undefined;
      for (let down = first; down <= last; down++) {
        const cell = sheet.getCell(addressOf(at, down));
        if (format) cell.numFmt = FORMATS[format];
        if (alignment) cell.alignment = alignment;
        cell.font = totalled && down === last && !grows ? FONTS.bold : FONTS.plain;
        if (!grows) cell.border = totalled && down === last ? BORDERS.total : BORDERS.row;
      }
      // Rows to come look like these.
      if (grows)
        sheet.getColumn(at).style = {
          ...(format ? { numFmt: FORMATS[format] } : {}),
          ...(alignment ? { alignment } : {}),
        };
    }
    if (!grows) return;
    const [from, to] = [addressOf(column, first), addressOf(column + columns - 1, last + GROWTH)];
    const leading = `$${columnLetter(column)}`;
    if (totalled)
      this.when(
        sheet,
        `${from}:${to}`,
        `AND(${leading}${first}<>"",${leading}${first + 1}="",${leading}${first - 1}<>"")`,
        WHEN.total,
      );
    this.when(sheet, `${from}:${to}`, `${leading}${first}<>""`, WHEN.row);
  }

  /** Formats for rows to come too; the rest of its look follows its words. */
  private dressCard({ sheet, anchor, formats }: Spilling, rows: number): void {
    const { column, row } = place(anchor);
    formats.forEach((format, along) => {
      const style = {
        ...(format ? { numFmt: FORMATS[format] } : {}),
        alignment: { horizontal: isNumeric(format) ? "right" : "left" },
        font: FONTS.plain,
      } as const;
      sheet.getColumn(column + along).style = style;
      for (let down = row; down < row + rows; down++)
        Object.assign(sheet.getCell(addressOf(column + along, down)), style);
    });
  }

  /** Weeks are written upwards above the numbers of their days; what comes to stand beside them looks the same. */
  private dressCalendar(sheet: Worksheet, { column, row }: Place): void {
    const middle = { horizontal: "center" } as const;
    const looks = [
      [row - 1, { font: FONTS.small, alignment: { ...middle, textRotation: 90 } }],
      [row, { font: FONTS.small, alignment: middle, numFmt: FORMATS.day }],
    ] as const;
    sheet.getRow(row - 1).height = 2 * LINE;
    for (const [at, look] of looks) {
      sheet.getRow(at).style = look;
      for (const address of this.keptOf(sheet).shown.keys()) {
        const cell = place(address);
        if (cell.row === at && cell.column >= column) Object.assign(sheet.getCell(address), look);
      }
    }
    for (const address of this.keptOf(sheet).shown.keys()) {
      const cell = place(address);
      if (cell.row > row && cell.column >= column)
        Object.assign(sheet.getCell(address), { font: FONTS.plain, alignment: middle });
    }
  }

  private isFreeBelow(sheet: Worksheet, column: number, columns: number, last: number): boolean {
    const { shown, running } = this.keptOf(sheet);
    const charts = this.drawings
      .filter((drawing) => drawing.sheet === sheet)
      .map(({ range }) => range.split(":").map(place));
    return (
      ![...shown.keys()].some((address) => {
        const at = place(address);
        const runsInto = running.has(address) && at.column < column;
        return at.row > last && ((at.column >= column && at.column < column + columns) || runsInto);
      }) &&
      !charts.some(
        ([from, to]) => (to?.row ?? 0) > last && (from?.column ?? 0) < column + columns && (to?.column ?? 0) >= column,
      )
    );
  }

  private asHeader(sheet: Worksheet, address: string, overNumbers: boolean): void {
    const cell = sheet.getCell(address);
    cell.font = FONTS.bold;
    const across = overNumbers ? ({ horizontal: "right" } as const) : place(address).column > 1 ? INDENTED : {};
    cell.alignment = { wrapText: true, vertical: "bottom", ...across };
    cell.border = BORDERS.headings;
    cell.fill = FILLS.band;
    this.keptOf(sheet).broken.add(address);
    this.keptOf(sheet).headed.add(place(address).row);
  }

  /** The look of a cell that is typed in, and what it takes. */
  asInput(cell: Cell, format?: Format, choices?: Choices): void {
    cell.fill = FILLS.input;
    cell.border = BORDERS.input;
    const validation = validationFor(format, choices);
    if (validation) cell.dataValidation = validation as never;
  }
}

/** Rules of a sheet are asked in the order in which they were given. */
function nextPriority(sheet: Worksheet): number {
  return sheet.conditionalFormattings.reduce((sum, { rules }) => sum + rules.length, 1);
}

function isNumeric(format: Format | undefined): boolean {
  return format !== undefined && format !== "text" && format !== "unseen";
}

function isFormula(entry: Entry | undefined): boolean {
  return typeof entry === "string" && entry.startsWith("=");
}

function valueOf(entry: Entry, address: string, fills = String(entry).includes("YARN.")): never {
  const value = isFormula(entry)
    ? {
        formula: String(entry).slice(1),
        ...(fills ? { shareType: "array", ref: address, isDynamicArray: true } : {}),
      }
    : entry;
  return value as never;
}
