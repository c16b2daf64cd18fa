import { CellError, type Rows, type Value } from "../guide/page/values";
import { readReference, type Columns, type Reference } from "./references";

/**
 * Everything that is asked of Excel for reading. Only requirement sets that the functions themselves need are taken for
 * granted; whatever is younger is asked for first.
 */

/** Excel itself hands a function no more than 5 MB. */
const MOST_CELLS = 200_000;

export function supports(version: string): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", version);
}

/** A cell with a formula, and what the sheet shows there. */
export interface FormulaCell {
  readonly sheet: string;
  /** From 0. */
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  readonly shown: Value;
}

/** What is selected: the cells with formulas among it. */
export interface Selection {
  /** With its sheet, as Excel writes it. */
  readonly address: string;
  readonly formulas: readonly FormulaCell[];
  /** Of a cell into which a formula above or beside it spills: the place of that formula. */
  readonly spilledFrom?: string;
  /** Larger than is looked through. */
  readonly tooLarge: boolean;
}

const MOST_SELECTED = 5_000;

export async function readSelection(context: Excel.RequestContext): Promise<Selection> {
  const range = context.workbook.getSelectedRange();
  range.load("address,rowIndex,columnIndex,rowCount,columnCount");
  range.worksheet.load("name");
  await context.sync();
  const { address, rowCount, columnCount } = range;
  if (rowCount * columnCount > MOST_SELECTED) return { address, formulas: [], tooLarge: true };
  range.load("formulas,values,valueTypes");
  await context.sync();
  const formulas = formulasIn(range, range.worksheet.name);
  if (formulas.length > 0 || rowCount * columnCount > 1 || !supports("1.12"))
    return { address, formulas, tooLarge: false };
  const anchor = range.getSpillParentOrNullObject();
  anchor.load("address,rowIndex,columnIndex,formulas,values,valueTypes");
  await context.sync();
  if (anchor.isNullObject) return { address, formulas, tooLarge: false };
  return {
    address,
    formulas: formulasIn(anchor, range.worksheet.name),
    spilledFrom: anchor.address,
    tooLarge: false,
  };
}

function formulasIn(range: Excel.Range, sheet: string): FormulaCell[] {
  const found: FormulaCell[] = [];
  const rows = valuesOf(range);
  (range.formulas as unknown[][]).forEach((row, down) =>
    row.forEach((formula, along) => {
      if (typeof formula !== "string" || !formula.startsWith("=")) return;
      const shown = rows[down]?.[along] ?? null;
      found.push({ sheet, row: range.rowIndex + down, column: range.columnIndex + along, formula, shown });
    }),
  );
  return found;
}

/** The cells of a range as the functions get them: nothing for a blank, an error as an error. */
function valuesOf({ values, valueTypes }: Pick<Excel.Range, "values" | "valueTypes">): Rows {
  return (values as unknown[][]).map((row, down) =>
    row.map((value, along): Value => {
      const type = valueTypes[down]?.[along];
      if (type === "Empty") return null;
      if (type === "Error") return new CellError(String(value));
      return typeof value === "number" || typeof value === "boolean" ? value : String(value);
    }),
  );
}

/** What stands in the cells of references, by their text; an error where they cannot be looked up. */
export type Cells = ReadonlyMap<string, Rows | CellError>;

/** A reference, and the cell with the formula that holds it. */
export interface Asked {
  readonly text: string;
  readonly from: Pick<FormulaCell, "sheet" | "row" | "column">;
}

/** Looks references up: all in one exchange with Excel, or one by one where one of them is refused. */
export async function readReferences(
  context: Excel.RequestContext,
  asked: readonly Asked[],
): Promise<(Rows | CellError)[]> {
  if (asked.length === 0) return [];
  try {
    return await lookedUp(context, asked, (one) => Promise.resolve(directRange(context, one)));
  } catch {
    const found: (Rows | CellError)[] = [];
    for (const one of asked) found.push(await lookedUpAlone(context, one));
    return found;
  }
}

async function lookedUpAlone(context: Excel.RequestContext, one: Asked): Promise<Rows | CellError> {
  try {
    return (await lookedUp(context, [one], (asked) => carefulRange(context, asked)))[0] as Rows;
  } catch (fault) {
    if (fault instanceof CellError) return fault;
    return new CellError("#REF!", `${one.text} cannot be read: ${told(fault)}`);
  }
}

async function lookedUp(
  context: Excel.RequestContext,
  asked: readonly Asked[],
  rangeFor: (one: Asked) => Promise<Excel.Range>,
): Promise<Rows[]> {
  const ranges: Excel.Range[] = [];
  for (const one of asked) ranges.push(await rangeFor(one));
  for (const range of ranges) range.load("rowIndex,rowCount,columnCount");
  await context.sync();
  const there = ranges.filter(({ isNullObject }) => !isNullObject);
  const size = there.reduce((sum, { rowCount, columnCount }) => sum + rowCount * columnCount, 0);
  if (size > MOST_CELLS) {
    const named = asked.map(({ text }) => text).join(", ");
    throw new CellError("#VALUE!", `${named.slice(0, 60)}: ${size} cells; the pane reads up to ${MOST_CELLS} at once`);
  }
  for (const range of there) range.load("values,valueTypes");
  await context.sync();
  return ranges.map((range, place) => {
    if (range.isNullObject) return [[null]];
    const rows = valuesOf(range);
    const above = isWholeColumns((asked[place] as Asked).text) ? range.rowIndex : 0;
    // What was left out above the used area of whole columns are blanks.
    return [...Array.from({ length: above }, () => (rows[0] ?? []).map(() => null)), ...rows];
  });
}

/** In the words of Excel, where it has some. */
export function told(fault: unknown): string {
  const { code, message } = fault as { code?: string; message?: string };
  return message !== undefined && message !== "" ? message : (code ?? String(fault));
}

function isWholeColumns(text: string): boolean {
  const reference = readReference(text);
  return reference?.kind === "area" && !/\d/.test(reference.address);
}

/** The range as far as it can be named without asking Excel anything first. */
function directRange(context: Excel.RequestContext, { text, from }: Asked): Excel.Range {
  const reference = readReference(text);
  if (reference === undefined) throw new CellError("#REF!", `${text} is a reference that the pane cannot look up`);
  const sheet = context.workbook.worksheets.getItem(("sheet" in reference && reference.sheet) || from.sheet);
  switch (reference.kind) {
    case "spill":
      if (!supports("1.12")) throw new CellError("#REF!", `this Excel does not tell the pane how far ${text} reaches`);
      return sheet.getRange(reference.address).getSpillingToRange();
    case "area": {
      const area = sheet.getRange(reference.address);
      return isWholeColumns(text) ? area.getIntersectionOrNullObject(sheet.getUsedRange()) : area;
    }
    case "name":
      return context.workbook.names.getItem(reference.name).getRange();
    case "columns": {
      const cell = sheet.getCell(from.row, from.column);
      if (reference.table === undefined && !supports("1.9"))
        throw new CellError("#REF!", `this Excel does not tell the pane which table ${text} is in`);
      // The table in which the formula itself stands.
      const table =
        reference.table === undefined
          ? cell.getTables(false).getFirst()
          : context.workbook.tables.getItem(reference.table);
      return columnsOf(table, cell, reference.columns);
    }
  }
}

function columnsOf(table: Excel.Table, cell: Excel.Range, { part, from, to }: Columns): Excel.Range {
  const partOf = (of: Excel.Table | Excel.TableColumn): Excel.Range => {
    if (part === "all") return of.getRange();
    if (part === "headers") return of.getHeaderRowRange();
    return part === "totals" ? of.getTotalRowRange() : of.getDataBodyRange();
  };
  const whole =
    from === undefined || to === undefined
      ? partOf(table)
      : partOf(table.columns.getItem(from)).getBoundingRect(partOf(table.columns.getItem(to)));
  return part === "this row" ? whole.getIntersection(cell.getEntireRow()) : whole;
}

/** The same, with a question first where a name may be of the sheet, of the workbook, or a table's. */
async function carefulRange(context: Excel.RequestContext, asked: Asked): Promise<Excel.Range> {
  const reference: Reference | undefined = readReference(asked.text);
  if (reference?.kind !== "name") return directRange(context, asked);
  const { text, from } = asked;
  const sheet = context.workbook.worksheets.getItem(reference.sheet ?? from.sheet);
  const names = [context.workbook.names.getItemOrNullObject(reference.name)];
  if (supports("1.4")) names.unshift(sheet.names.getItemOrNullObject(reference.name));
  const table = context.workbook.tables.getItemOrNullObject(reference.name);
  for (const one of [...names, table]) one.load("name");
  await context.sync();
  const name = names.find(({ isNullObject }) => !isNullObject);
  if (name !== undefined) return name.getRange();
  if (table.isNullObject) throw new CellError("#NAME?", `${text} is neither a name nor a table of this workbook`);
  return table.getDataBodyRange();
}
