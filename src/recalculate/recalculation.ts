import { randomUUID } from "node:crypto";
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { openBook, type Book } from "./book";
import { loadBundle } from "./bundle";
import { formulasOf, type FormulaCell, type Result } from "./calculation";
import { Complaint } from "./command-line";
import { compared, isReproduced, type Difference } from "./compare";
import { packed } from "./packing";
import { readersAmong, readersOf, type Readers } from "./readers";
import { onSavedValues, oursOnSavedValues } from "./saved-values";
import { storeResults } from "./stored-form";

/** One workbook to recalculate. */
export interface Job {
  readonly file: string;
  /** How messages call it: as the person typed it. */
  readonly called: string;
  readonly out?: string;
  /** Why native formulas with a saved value are not worked out again, if so. */
  readonly oursOnly?: string;
}

export interface Recalculated {
  readonly workbook: string;
  readonly formulas: number;
  readonly cells: number;
  readonly passedOver: number;
  readonly differences: readonly Difference[];
  /** Native formulas that are not reproduced here: stale, or beyond this engine. */
  readonly unreproduced: readonly Difference[];
  /** Native formulas that keep their saved values although what they read has come out otherwise. */
  readonly notRecalculated: readonly { readonly sheet: string; readonly cell: string; readonly formula: string }[];
  /** Why no native formula with a saved value was worked out again. */
  readonly nativeUnjudged?: string;
  /** Formulas without a saved value, worked out from nothing. */
  readonly neverCalculated: number;
  /** Calls of ours that cannot be right whatever they show. */
  readonly faults: readonly { readonly sheet: string; readonly cell: string; readonly message: string }[];
  /** Cells whose saved value was taken as it is, because it cannot be worked out here. */
  readonly taken: readonly { readonly sheet: string; readonly cell: string; readonly message: string }[];
  /** Why there is no result at all. */
  readonly error?: string;
}

export function failed(called: string, error: string): Recalculated {
  return {
    workbook: called,
    formulas: 0,
    cells: 0,
    passedOver: 0,
    differences: [],
    unreproduced: [],
    notRecalculated: [],
    neverCalculated: 0,
    faults: [],
    taken: [],
    error,
  };
}

/** Recalculates a workbook with the built bundle and compares; the file itself is only read. */
export function recalculate({ file, called, out, oursOnly }: Job): Recalculated {
  try {
    const book = openBook(bytesOf(file, called), called);
    const formulas = formulasOf(book);
    const readers = readersAmong(book, formulas);
    const judged = ({ calls }: FormulaCell) => calls || oursOnly === undefined;
    const results = onSavedValues(book, formulas, loadBundle(), readers, judged);
    const { cells, passedOver, differences, unreproduced, neverCalculated } = compared(book, results);
    const notRecalculated = leftAsTheyWere(book, formulas, results, readers);
    const faults = results.flatMap(({ formula: { sheet, cell, calls }, fault }) =>
      fault === undefined || !calls ? [] : [{ sheet: sheet.name, cell: cell.address, message: fault }],
    );
    const taken = results.flatMap(({ formula: { sheet, cell }, taken: why }) =>
      why === undefined
        ? []
        : [{ sheet: sheet.name, cell: cell.address, message: `${why}; the saved value was taken` }],
    );
    if (out !== undefined) {
      storeResults(book, formulas, changedOnly(book, oursOnSavedValues(book, formulas, loadBundle())));
      writeWhole(out, packed(book.parts));
    }
    return {
      workbook: called,
      formulas: formulas.length,
      cells,
      passedOver: passedOver + formulas.length - results.length,
      differences,
      unreproduced,
      notRecalculated,
      ...(oursOnly === undefined ? {} : { nativeUnjudged: oursOnly }),
      neverCalculated,
      faults,
      taken,
    };
  } catch (fault) {
    if (fault instanceof Complaint) return failed(called, fault.message);
    return failed(called, `${called} could not be recalculated: ${(fault as Error).message}`);
  }
}

/** The native formulas with a saved value that read, at whatever distance, a call of ours that gives another value. */
function leftAsTheyWere(
  book: Book,
  formulas: readonly FormulaCell[],
  results: readonly Result[],
  readers: Readers,
): Recalculated["notRecalculated"] {
  const differing = results.filter((result) => result.formula.calls && !isReproduced(book, result));
  const changed = new Set(differing.map(({ formula }) => formula));
  const indexes = [...formulas.keys()].filter((index) => changed.has(formulas[index] as FormulaCell));
  return [...readersOf(readers, new Set(indexes))]
    .sort((a, b) => a - b)
    .flatMap((index) => {
      const { sheet, cell, typed, calls } = formulas[index] as FormulaCell;
      return calls || !cell.hasValue ? [] : [{ sheet: sheet.name, cell: cell.address, formula: `=${typed}` }];
    });
}

/** What a copy gets: calls of ours that give another value, and formulas that had none. All else stays as it was saved. */
function changedOnly(book: Book, results: readonly Result[]): Result[] {
  return results.filter((result) => {
    const formula: FormulaCell = result.formula;
    if (result.fault !== undefined || result.taken !== undefined) return false;
    if (!formula.cell.hasValue) return true;
    return formula.calls && (formula.dead || !isReproduced(book, result));
  });
}

export function bytesOf(file: string, called = basename(file)): Uint8Array {
  try {
    return readFileSync(file);
  } catch (fault) {
    throw new Complaint(`${called} cannot be read: ${(fault as Error).message}`);
  }
}

/** All of a file or nothing of it, by way of a name beside it that no other file has. */
export function writeWhole(file: string, bytes: Uint8Array | string): void {
  const beside = join(dirname(file), `.${randomUUID()}.part`);
  try {
    writeFileSync(beside, bytes, { flag: "wx" });
    renameSync(beside, file);
  } catch (fault) {
    rmSync(beside, { force: true });
    throw new Complaint(`${basename(file)} cannot be written: ${(fault as Error).message}`);
  }
}
