import { createHash, randomUUID } from "node:crypto";
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { openBook, type Book } from "./book";
import { loadBundle } from "./bundle";
import { formulasOf, type FormulaCell, type Result } from "./calculation";
import type { EndCode } from "./children";
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
  /** The relative difference up to which numbers count as the same. */
  readonly tolerance?: number;
  /** Do native formulas count as differences and faults, where they are surely wrong? */
  readonly strict?: boolean;
}

/** A cell and what is to be said of it. */
export interface Remark {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
}

/** What is told of a workbook, also to programs: one object a workbook, whose names stay. */
export interface Recalculated {
  readonly workbook: string;
  /** SHA-256 of the file as it was read; nothing where it could not be read. */
  readonly digest: string;
  /** The version of this library. */
  readonly version: string;
  readonly formulas: number;
  readonly cells: number;
  /** Calls of ours that give another value; with strict also native formulas whose saved value is surely stale. */
  readonly differences: readonly Difference[];
  /** Native formulas that are not reproduced here: stale, or beyond this engine. */
  readonly unreproduced: readonly Difference[];
  /** Native formulas that keep their saved values although what they read has come out otherwise. */
  readonly notRecalculated: readonly { readonly sheet: string; readonly cell: string; readonly formula: string }[];
  /** Calls of ours that cannot be right whatever they show; with strict also native formulas. */
  readonly faults: readonly Remark[];
  /** Cells whose saved value was taken as it is, because it cannot be worked out here. */
  readonly taken: readonly Remark[];
  readonly passedOver: number;
  /** Formulas without a saved value, worked out from nothing. */
  readonly neverCalculated: number;
  readonly seconds: number;
  /** Why no native formula with a saved value was worked out again. */
  readonly nativeUnjudged?: string;
  /** Why there is no result at all. */
  readonly error?: string;
  readonly code?: EndCode;
}

const VERSION = (
  JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { readonly version: string }
).version;

export function failed({ file, called }: Job, error: string, code: EndCode): Recalculated {
  return {
    workbook: called,
    digest: digestOf(file),
    version: VERSION,
    formulas: 0,
    cells: 0,
    differences: [],
    unreproduced: [],
    notRecalculated: [],
    faults: [],
    taken: [],
    passedOver: 0,
    neverCalculated: 0,
    seconds: 0,
    error,
    code,
  };
}

/** Recalculates a workbook with the built bundle and compares; the file itself is only read. */
export function recalculate(job: Job): Recalculated {
  const { called } = job;
  try {
    return judged(job);
  } catch (fault) {
    if (fault instanceof Complaint) return failed(job, fault.message, "unreadable");
    return failed(job, `${called} could not be recalculated: ${(fault as Error).message}`, "internal");
  }
}

function judged({ file, called, out, oursOnly, tolerance, strict = false }: Job): Recalculated {
  const started = performance.now();
  const book = openBook(bytesOf(file, called), called);
  const formulas = formulasOf(book);
  const readers = readersAmong(book, formulas);
  const isJudged = ({ calls }: FormulaCell) => calls || oursOnly === undefined;
  const results = onSavedValues(book, formulas, loadBundle(), readers, isJudged);
  const { cells, passedOver, differences, unreproduced, neverCalculated } = compared(book, results, tolerance);
  if (out !== undefined) {
    const changed = changedOnly(book, oursOnSavedValues(book, formulas, loadBundle()), tolerance);
    storeResults(book, formulas, changed);
    writeWhole(out, packed(book.parts));
  }
  const counts = ({ formula: { calls }, fault }: Result) => fault !== undefined && (calls || strict);
  return {
    workbook: called,
    digest: digestOf(file),
    version: VERSION,
    formulas: formulas.length,
    cells,
    differences,
    unreproduced,
    notRecalculated: leftAsTheyWere(book, formulas, results, readers, tolerance),
    faults: results.filter(counts).map((result) => remarkOn(result, result.fault ?? "")),
    taken: results.flatMap((result) =>
      result.taken === undefined || counts(result)
        ? []
        : [remarkOn(result, `${result.taken}; the saved value was taken`)],
    ),
    passedOver: passedOver + formulas.length - results.length,
    neverCalculated,
    seconds: Math.round(performance.now() - started) / 1000,
    ...(oursOnly === undefined ? {} : { nativeUnjudged: oursOnly }),
  };
}

function remarkOn({ formula: { sheet, cell } }: Result, message: string): Remark {
  return { sheet: sheet.name, cell: cell.address, message };
}

function digestOf(file: string): string {
  try {
    return createHash("sha256").update(readFileSync(file)).digest("hex");
  } catch {
    return "";
  }
}

/** The native formulas with a saved value that read, at whatever distance, a call of ours that gives another value. */
function leftAsTheyWere(
  book: Book,
  formulas: readonly FormulaCell[],
  results: readonly Result[],
  readers: Readers,
  tolerance: number | undefined,
): Recalculated["notRecalculated"] {
  const differing = results.filter((result) => result.formula.calls && !isReproduced(book, result, tolerance));
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
function changedOnly(book: Book, results: readonly Result[], tolerance: number | undefined): Result[] {
  return results.filter((result) => {
    const formula: FormulaCell = result.formula;
    if (result.fault !== undefined || result.taken !== undefined) return false;
    if (!formula.cell.hasValue) return true;
    return formula.calls && (formula.dead || !isReproduced(book, result, tolerance));
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
