import { writeFileSync } from "node:fs";
import { positionOf, referenceTo } from "./addresses";
import { openBook, type Book } from "./book";
import type { Implementations } from "./bundle";
import { calculated, formulasOf, spilledCells, type FormulaCell, type Result } from "./calculation";
import { compared } from "./compare";
import { dynamicMark, put } from "./dynamic-arrays";
import { asExcelStores, needsArray } from "./future-functions";
import type { Area } from "./grid";
import { noteMadeWith } from "./made-with";
import { textOf } from "./package-safety";
import { inOrder, packed } from "./packing";
import { readingsOf, readsAnything } from "./references";
import { relationsPartOf, without, withChanged } from "./relations";
import { countSharedStrings, dropUnusedStrings } from "./shared-strings";
import { storedValue } from "./stored-text";
import { firstElement, type Attributes } from "./xml";
import { rowsOf, type Outcome, type Value } from "./values";

/**
 * Workbooks as Excel itself stores them: calls of ours as _xldudf_YARN_X in a dynamic array (cm, t="array", ref over
 * the whole spill, the metadata part) and a true value in every cell, so that the figures stand without the add-in.
 */

/**
 * Writes results into a book: formulas in stored form, values in their cells and in all they spill into. Nothing else
 * of the book changes; where a formula that keeps its saved value reads what changed, and is not known to be right with
 * it, the book asks to be calculated.
 */
export function storeResults(
  book: Book,
  formulas: readonly FormulaCell[],
  all: readonly Result[],
  { right = new Set(), stale: known = false }: { right?: ReadonlySet<FormulaCell>; stale?: boolean } = {},
): void {
  const stale = known || leavesStale(book, formulas, all, right);
  const reformed = all.some(
    ({ formula: { cell, spills, confined }, taken }) =>
      taken === undefined && spills && !confined && cell.formula?.attributes.t !== "array",
  );
  writeResults(book, all);
  settleWorkbook(book, stale ? asksToCalculate : keepsSavedValues);
  if (reformed) forgetOrder(book);
}

function writeResults(book: Book, all: readonly Result[]): void {
  const results = all.filter(({ taken }) => taken === undefined);
  const spilledBefore = spilledCells(results.map(({ formula }) => formula));
  const formulaCells = new Set(all.map(({ formula }) => formula.cell));
  const mark = results.some(({ formula }) => formula.spills && !formula.confined) ? dynamicMark(book) : "";
  for (const cell of spilledBefore) cell.writeOnly(undefined);
  for (const { formula, outcome } of results) {
    const rows = rowsOf(outcome);
    writeAnchor(formula, rows, mark);
    rows.forEach((row, down) =>
      row.forEach((value, along) => {
        if (down === 0 && along === 0) return;
        const cell = formula.sheet.part.cell(formula.cell.row + down, formula.cell.column + along);
        if (!formulaCells.has(cell)) cell.writeOnly(storedValue(value));
      }),
    );
  }
  const changed = book.sheets.filter(({ part }) => part.isChanged);
  for (const { partName, part } of changed) put(book.parts, partName, part.xml);
  if (changed.length > 0) countSharedStrings(book);
}

/** Does a formula without a result among these have no value, or read a cell whose value they change? */
function leavesStale(
  book: Book,
  formulas: readonly FormulaCell[],
  results: readonly Result[],
  right: ReadonlySet<FormulaCell>,
): boolean {
  const written = new Set(results.map(({ formula }) => formula));
  const kept = formulas.filter((formula) => !written.has(formula) && !right.has(formula));
  if (kept.some(({ cell }) => !cell.hasValue)) return true;
  const { differences, unreproduced } = compared(book, results);
  const changed = [
    ...[...differences, ...unreproduced].map(({ sheet, cell }) => ({
      sheet: sheet.toLowerCase(),
      ...(positionOf(cell) as { row: number; column: number }),
    })),
    ...results.flatMap(({ formula: { sheet, cell } }) =>
      cell.hasValue ? [] : [{ sheet: sheet.name.toLowerCase(), row: cell.row, column: cell.column }],
    ),
  ];
  if (changed.length === 0) return false;
  return kept.some(
    (formula) =>
      readsAnything(formula) ||
      readingsOf(formula, book).some(({ sheet, area: { top, left, bottom, right } }) =>
        changed.some(
          (cell) =>
            cell.sheet === sheet &&
            cell.row >= top &&
            cell.row <= bottom &&
            cell.column >= left &&
            cell.column <= right,
        ),
      ),
  );
}

function writeAnchor(formula: FormulaCell, rows: Value[][], mark: string): void {
  const { cell, stored, spills, confined, calls } = formula;
  const value = storedValue(rows[0]?.[0] ?? null);
  delete cell.attributes.vm;
  if (!spills || confined) {
    cell.write(value);
    return;
  }
  cell.attributes.cm = mark;
  const ref = referenceTo(areaFrom(formula, rows));
  cell.write(value, { attributes: { t: "array", ref }, text: calls ? asExcelStores(formula) : stored });
}

function areaFrom({ cell }: FormulaCell, rows: Value[][]): Area {
  const width = rows[0]?.length ?? 1;
  return { top: cell.row, left: cell.column, bottom: cell.row + rows.length - 1, right: cell.column + width - 1 };
}

/**
 * What the current program writes. A workbook whose number is older is calculated anew whenever it is opened
 * (ECMA-376 part 1, 18.2.2), and then shows #NAME? to someone without the add-in.
 */
const CURRENT_CALCULATION = 191029;

type Settled = (attributes: Attributes) => Attributes;

/** The saved values stand; a workbook that asks to be calculated on opening goes on asking. */
const keepsSavedValues: Settled = (attributes) => ({
  ...attributes,
  calcId: String(Math.max(Number(attributes.calcId) || 0, CURRENT_CALCULATION)),
});

const asksToCalculate: Settled = (attributes) => ({ ...keepsSavedValues(attributes), fullCalcOnLoad: "1" });

/** A workbook of our own holds true values in every cell. */
export const isCalculated: Settled = (attributes) => {
  const unsettled = ["fullCalcOnLoad", "forceFullCalc", "calcCompleted"];
  return keepsSavedValues(Object.fromEntries(Object.entries(attributes).filter(([name]) => !unsettled.includes(name))));
};

/** How the workbook is to be calculated when it is opened. */
export function settleWorkbook({ parts, workbookPart, called }: Book, settled: Settled): void {
  const workbook = textOf(parts, workbookPart, called) ?? "";
  put(parts, workbookPart, withChanged(withCalculation(workbook), "calcPr", settled));
}

/** The order of calculation names each formula's cell and kind: one that no longer holds must go, and is made anew. */
export function forgetOrder({ parts, workbookPart, called }: Book): void {
  const chain = [...parts.keys()].find((name) => /(^|\/)calcChain\.xml$/i.test(name));
  if (chain === undefined) return;
  parts.delete(chain);
  const relationsPart = relationsPartOf(workbookPart);
  const relations = textOf(parts, relationsPart, called) ?? "";
  put(
    parts,
    relationsPart,
    without(relations, "Relationship", ({ Type }) => /\/calcChain$/.test(Type ?? "")),
  );
  const types = textOf(parts, "[Content_Types].xml", called) ?? "";
  put(
    parts,
    "[Content_Types].xml",
    without(types, "Override", ({ PartName }) => PartName === `/${chain}`),
  );
}

/** The workbook part with a place for what is said of its calculation, where the format has it: after the names. */
function withCalculation(xml: string): string {
  if (firstElement(xml, "calcPr") !== undefined) return xml;
  const before = ["definedNames", "externalReferences", "functionGroups", "sheets"];
  const last = before.map((name) => firstElement(xml, name)).find((found) => found !== undefined);
  if (last === undefined) throw new SyntaxError("there is no <sheets>");
  return `${xml.slice(0, last.end)}<${last.prefix}calcPr/>${xml.slice(last.end)}`;
}

/** What the scripts of the sample workbooks hand over: a workbook of the engine's writer. */
export interface WritableWorkbook {
  readonly xlsx: { writeBuffer(): Promise<ArrayLike<number> | ArrayBuffer> };
}

/** A cell of a written workbook whose formula gives an error, or holds one among its rows. */
export interface ErrorCell {
  readonly sheet: string;
  readonly cell: string;
  readonly formula: string;
  readonly code: string;
  readonly message: string;
}

/** Where a formula stands, how many cells it fills and with what. */
export interface Filled {
  readonly sheet: string;
  readonly cell: string;
  readonly rows: number;
  readonly columns: number;
  readonly values: readonly (readonly Value[])[];
}

export interface Written {
  readonly filled: readonly Filled[];
  readonly errors: readonly ErrorCell[];
}

/**
 * Calculates a workbook whose formulas are written as a person types them ("YARN.COUNT(A1:A3,…)", "FILTER(…)",
 * "Lots[@mass]") and writes it in Excel's own stored form. The same workbook gives the same bytes.
 */
export async function writeWorkbook(
  workbook: WritableWorkbook,
  file: string,
  functions: Implementations,
  date = "2026-01-01T00:00:00Z",
): Promise<Written> {
  const book = openBook(new Uint8Array(await workbook.xlsx.writeBuffer()), file);
  // The writer's own metadata part is not what Excel writes.
  removeMetadata(book);
  const formulas = formulasOf(book).map((formula): FormulaCell => {
    const { row, column } = formula.cell;
    const spills = formula.spills || needsArray(formula.typed, book.names);
    const own = { top: row, left: column, bottom: row, right: column };
    const saved = formula.spills ? formula.saved : own;
    return { ...formula, spills, confined: false, saved, stored: asExcelStores({ ...formula, spills }) };
  });
  const results = calculated({ ...book, dynamicMarks: new Set() }, formulas, functions);
  for (const { formula } of results) {
    if (!formula.spills) formula.cell.write(undefined, { attributes: {}, text: formula.stored });
  }
  writeResults({ ...book, dynamicMarks: new Set() }, results);
  dropUnusedStrings(book);
  for (const { partName, part } of book.sheets) put(book.parts, partName, part.xml);
  settleWorkbook(book, isCalculated);
  forgetOrder(book);
  const version = functions.get("VERSION")?.();
  if (version !== undefined) noteMadeWith(book, String((version as unknown[][])[0]?.[0]));
  const core = textOf(book.parts, "docProps/core.xml", file);
  if (core !== undefined) put(book.parts, "docProps/core.xml", core.replace(/(<dcterms:\w+[^>]*>)[^<]*/g, `$1${date}`));
  writeFileSync(file, packed(inOrder(book.parts)));
  return { filled: results.map(filledBy), errors: results.flatMap(errorsIn) };
}

function removeMetadata(book: Book): void {
  const { parts, workbookPart, called } = book;
  const part = workbookPart.replace(/[^/]*$/, "metadata.xml");
  if (!parts.delete(part)) return;
  const relationsPart = relationsPartOf(workbookPart);
  const relations = textOf(parts, relationsPart, called) ?? "";
  put(
    parts,
    relationsPart,
    without(relations, "Relationship", ({ Type }) => /\/sheetMetadata$/.test(Type ?? "")),
  );
  const types = textOf(parts, "[Content_Types].xml", called) ?? "";
  put(
    parts,
    "[Content_Types].xml",
    without(types, "Override", ({ PartName }) => PartName === `/${part}`),
  );
}

function filledBy({ formula: { sheet, cell }, outcome }: Result): Filled {
  const rows = rowsOf(outcome);
  return { sheet: sheet.name, cell: cell.address, rows: rows.length, columns: rows[0]?.length ?? 1, values: rows };
}

function errorsIn({ formula, outcome, taken }: Result): ErrorCell[] {
  const found = taken === undefined ? firstError(outcome) : { code: "#NAME?", message: taken };
  if (found === undefined) return [];
  const { sheet, cell, typed } = formula;
  return [{ sheet: sheet.name, cell: cell.address, formula: typed, code: found.code, message: found.message }];
}

function firstError(outcome: Outcome): { code: string; message: string } | undefined {
  for (const value of rowsOf(outcome).flat()) if (typeof value === "object" && value !== null) return value;
  return undefined;
}
