import { referenceTo } from "./addresses";
import { openBook, type Book } from "./book";
import { builtFunctions } from "./bundle";
import { writeForCalc, type Host } from "./calc-form";
import { formulasOf, placeOf, savedOf, type FormulaCell, type Result } from "./calculation";
import { Complaint } from "./command-line";
import { put } from "./dynamic-arrays";
import { addNotes, type Note } from "./notes";
import { packed } from "./packing";
import { bytesOf, writeWhole } from "./recalculation";
import { oursOnSavedValues } from "./saved-values";
import { countSharedStrings } from "./shared-strings";
import { withoutSpillReferences } from "./spill-references";
import { forgetOrder, storeResults } from "./stored-form";
import { storedValue } from "./stored-text";
import { CellError, rowsOf } from "./values";

export interface CopyJob {
  readonly file: string;
  readonly called: string;
  readonly out: string;
  /** The program that the copy is for; Excel unless said otherwise. */
  readonly host?: Host;
}

/** What became of a copy: how many formulas were changed, or why there is none. */
export interface Copied {
  readonly changed: number;
  /** Calls of ours that could not be worked out and keep their saved values, and why. */
  readonly kept?: readonly string[];
  readonly error?: string;
}

/** Writes a copy for someone without the add-in: values where our formulas were, each with a note of its formula. */
export function makePlain({ file, called, out, host }: CopyJob): Copied {
  return copied(() => {
    const book = openBook(bytesOf(file, called), called);
    const formulas = formulasOf(book);
    const ours = oursOrSaved(book, formulas);
    storeResults(book, formulas, ours);
    if (ours.length > 0) forgetOrder(book);
    const areas = new Map(ours.map((result) => [placeOfResult(result), areaFilled(result)]));
    for (const { formula, outcome } of ours) formula.cell.writeOnly(storedValue(rowsOf(outcome)[0]?.[0] ?? null));
    for (const formula of formulas) if (!formula.calls) withoutSpillReferences(formula, areas);
    if (host === "calc") writeForCalc(book);
    sayOnAbout(book, ours.length);
    for (const sheet of book.sheets) {
      const notes = ours
        .filter(({ formula }) => formula.sheet === sheet)
        .map(({ formula }): Note => ({ cell: formula.cell, text: `Value of =${formula.typed}` }));
      if (sheet.part.isChanged) put(book.parts, sheet.partName, addNotes(book, sheet, notes, sheet.part.xml));
    }
    if (book.sheets.some(({ part }) => part.isChanged)) countSharedStrings(book);
    writeWhole(out, packed(book.parts));
    return { changed: ours.length, kept: keptAmong(ours, called) };
  });
}

export function copied(work: () => Copied): Copied {
  try {
    return work();
  } catch (fault) {
    return { changed: 0, error: fault instanceof Complaint ? fault.message : `no copy: ${(fault as Error).message}` };
  }
}

/** The calls of ours with their values; one that cannot be worked out has the value that the file holds. */
export function oursOrSaved(book: Book, formulas: readonly FormulaCell[]): Result[] {
  return oursOnSavedValues(book, formulas, builtFunctions())
    .filter(({ formula }) => formula.calls)
    .map(({ formula, outcome, fault, taken }) => {
      const why = fault ?? taken;
      if (why === undefined) return { formula, outcome };
      return { formula, outcome: formula.cell.hasValue ? savedOf(formula, book) : new CellError("#N/A"), taken: why };
    });
}

export function keptAmong(ours: readonly Result[], called: string): string[] {
  return ours.flatMap(({ formula: { sheet, cell }, taken }) =>
    taken === undefined ? [] : [`${called}: ${sheet.name}!${cell.address}: ${taken}; the saved value was kept`],
  );
}

function placeOfResult({ formula: { sheet, cell } }: Result): string {
  return placeOf(sheet.name, cell.row, cell.column);
}

function areaFilled({ formula: { cell }, outcome }: Result): string {
  const rows = rowsOf(outcome);
  const right = cell.column + (rows[0]?.length ?? 1) - 1;
  return referenceTo({ top: cell.row, left: cell.column, bottom: cell.row + rows.length - 1, right });
}

function sayOnAbout(book: Book, count: number): void {
  const about = book.sheets.find(({ name }) => name.toLowerCase() === "about");
  if (about === undefined) return;
  const last = Math.max(0, ...[...about.part.cells()].filter((cell) => !cell.isEmpty).map(({ row }) => row));
  about.part
    .cell(last + 2, 1)
    .writeOnly(
      storedValue(
        `This copy needs no add-in: ${count} formulas of the YARN functions hold the values they gave, each with a note of its formula.`,
      ),
    );
}
