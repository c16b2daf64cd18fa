import { heightOf, referenceTo, widthOf } from "./addresses";
import type { Book } from "./book";
import { formulasOf, placeOf, type FormulaCell } from "./calculation";
import { Complaint } from "./command-line";
import { changeNames } from "./defined-names";
import { put } from "./dynamic-arrays";
import { withOursPlain } from "./formula-text";
import { argumentsAt, needsArray } from "./future-functions";
import { withoutSpillReferences } from "./spill-references";
import { forgetOrder } from "./stored-form";

/** The program that a copy is written for. */
export type Host = "excel" | "calc";

export function hostIn(given: string | undefined): Host {
  if (given === undefined || given === "excel" || given === "calc") return given ?? "excel";
  throw new Complaint(`--for is ${given}; must be excel or calc`);
}

/**
 * Rewrites a book's formulas for LibreOffice Calc, which knows our functions by their plain names, has no spills and no
 * references to one: what fills several cells, or works on whole ranges, becomes an array formula of the size it has
 * now. Gives the number of formulas of ours.
 */
export function writeForCalc(book: Book): number {
  const formulas = formulasOf(book);
  const areas = new Map(
    formulas.map(({ sheet, cell, saved }) => [placeOf(sheet.name, cell.row, cell.column), referenceTo(saved)]),
  );
  for (const formula of formulas) {
    withoutSpillReferences(formula, areas);
    const { cell, calls, spills, confined } = formula;
    const stored = cell.formula;
    if (stored === undefined) continue;
    const text = asCalcReads(stored.text);
    if (spills && !confined) {
      delete cell.attributes.cm;
      cell.rewrite({ attributes: isArray(formula, book) ? stored.attributes : {}, text });
    } else if (calls || text !== stored.text) cell.reword(text);
  }
  for (const { partName, part } of book.sheets) if (part.isChanged) put(book.parts, partName, part.xml);
  changeNames(book, asCalcReads);
  forgetOrder(book);
  return formulas.filter(({ calls }) => calls).length;
}

/**
 * Our calls by plain names, and the items of a Table in two brackets: Calc takes Lots[#All] of a file for a name. A
 * column of numbers from 1 is that of rows: Calc knows SEQUENCE from version 24.8 on only.
 */
function asCalcReads(stored: string): string {
  return numberedByRows(withOursPlain(stored)).replace(
    /("(?:[^"]|"")*"|'(?:[^']|'')*')|(?<=[\p{L}\p{N}_.\\?])\[(#(?:All|Data|Headers|Totals))\]/giu,
    (_, quoted: string | undefined, item: string) => quoted ?? `[[${item}]]`,
  );
}

function isArray({ saved, typed }: FormulaCell, { names }: Book): boolean {
  return heightOf(saved) > 1 || widthOf(saved) > 1 || needsArray(typed, names);
}

const NUMBERED = "_xlfn.SEQUENCE(";

/** SEQUENCE(count) as ROW(INDIRECT("A1:A"&(count))); with more arguments it stays. */
function numberedByRows(formula: string): string {
  const from = formula.indexOf(NUMBERED);
  if (from < 0) return formula;
  const inside = from + NUMBERED.length;
  const [count = "", ...others] = argumentsAt(formula, inside - 1);
  const [before, after] = [formula.slice(0, from), numberedByRows(formula.slice(inside + count.length))];
  const written = numberedByRows(count);
  // What follows begins with the bracket that closes the call.
  return others.length > 0
    ? `${before}${NUMBERED}${written}${after}`
    : `${before}ROW(INDIRECT("A1:A"&(${written}))${after}`;
}
