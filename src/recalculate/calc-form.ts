import { heightOf, referenceTo, widthOf } from "./addresses";
import type { Book } from "./book";
import { formulasOf, placeOf, type FormulaCell } from "./calculation";
import { Complaint } from "./command-line";
import { changeNames } from "./defined-names";
import { put } from "./dynamic-arrays";
import { withOursPlain } from "./formula-text";
import { needsArray } from "./future-functions";
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
    if (spills && !confined) {
      delete cell.attributes.cm;
      const text = withOursPlain(stored.text);
      cell.rewrite({ attributes: isArray(formula, book) ? stored.attributes : {}, text });
    } else if (calls) cell.reword(withOursPlain(stored.text));
  }
  for (const { partName, part } of book.sheets) if (part.isChanged) put(book.parts, partName, part.xml);
  changeNames(book, withOursPlain);
  forgetOrder(book);
  return formulas.filter(({ calls }) => calls).length;
}

function isArray({ saved, typed }: FormulaCell, { names }: Book): boolean {
  return heightOf(saved) > 1 || widthOf(saved) > 1 || needsArray(typed, names);
}
