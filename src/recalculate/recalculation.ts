import { randomUUID } from "node:crypto";
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { openBook, type Book } from "./book";
import { builtFunctions } from "./bundle";
import { writeForCalc, type Host } from "./calc-form";
import { formulasOf, type FormulaCell, type Result } from "./calculation";
import { afterChange, type Before, type Change } from "./change";
import type { EndCode } from "./children";
import { Complaint } from "./command-line";
import { compared, isReproduced, type Difference } from "./compare";
import { describing, type Described } from "./described";
import { digestOf, failed, VERSION } from "./failed";
import { fileTrouble } from "./file-trouble";
import { packed } from "./packing";
import { readersAmong } from "./readers";
import { onSavedValues, withTwoEngines } from "./saved-values";
import { hasSecondEngine } from "./second-engine";
import { putInto, type Setting } from "./set-values";
import { storeResults } from "./stored-form";

/** One workbook to recalculate. */
export interface Job {
  readonly file: string;
  /** How messages call it: as the person typed it. */
  readonly called: string;
  readonly out?: string;
  /** The program that the workbook is for; Excel unless said otherwise. */
  readonly host?: Host;
  /** Why native formulas with a saved value are not worked out again, if so. */
  readonly oursOnly?: string;
  /** The relative difference up to which numbers count as the same. */
  readonly tolerance?: number;
  /** Values put into cells before anything is worked out anew. */
  readonly set?: readonly Setting[];
  /** Is the second engine left out? */
  readonly oneEngine?: boolean;
  /** Do native formulas count as differences and faults, where they are surely wrong? */
  readonly strict?: boolean;
  /** Is each cell told with its headings and its number format, for a report? */
  readonly described?: boolean;
}

/** A cell and what is to be said of it. */
export interface Remark {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
  readonly described?: Described;
}

export interface NotRecalculated extends Remark {
  readonly formula: string;
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
  /** Cells worked out anew, because what they read has changed, that came out otherwise. */
  readonly recalculated: readonly Difference[];
  /** Formulas that keep their saved values although what they read has changed, and why. */
  readonly notRecalculated: readonly NotRecalculated[];
  /** Calls of ours that cannot be right whatever they show; with strict also native formulas. */
  readonly faults: readonly Remark[];
  /** Cells whose saved value was taken as it is, because it cannot be worked out here. */
  readonly taken: readonly Remark[];
  readonly passedOver: number;
  /** How many engines there were to be asked. */
  readonly engines: 1 | 2;
  /** Formulas without a saved value, worked out from nothing. */
  readonly neverCalculated: number;
  readonly seconds: number;
  /** For a report: formulas that depend on the clock or on chance. */
  readonly moving?: readonly Remark[];
  /** Why no native formula with a saved value was worked out again. */
  readonly nativeUnjudged?: string;
  /** Why there is no result at all. */
  readonly error?: string;
  readonly code?: EndCode;
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

function judged(job: Job): Recalculated {
  const { file, called, out, host, oursOnly, tolerance, set = [], oneEngine = false, strict = false } = job;
  const started = performance.now();
  const bytes = bytesOf(file, called);
  const book = openBook(bytes, called, host === "calc");
  const formulas = formulasOf(book);
  const readers = readersAmong(book, formulas);
  const functions = builtFunctions();
  const isJudged = ({ calls }: FormulaCell) => calls || oursOnly === undefined;
  const two = !oneEngine && hasSecondEngine();
  const verdicts = (two ? withTwoEngines : onSavedValues)(book, formulas, functions, readers, isJudged);
  const { cells, passedOver, neverCalculated, ...found } = compared(book, verdicts, tolerance);
  const isStale = ({ sure }: Difference) => strict && sure === true;
  const differences = [...found.differences, ...found.unreproduced.filter(isStale)];
  const unreproduced = found.unreproduced.filter((one) => !isStale(one));

  const before = { book, formulas, readers, verdicts, ...(tolerance === undefined ? {} : { tolerance }) };
  const changed = withPuts(before, bytes, set);
  const changes = set.length > 0 || out !== undefined || found.differences.length > 0;
  const { results, affected, kept } = changes ? afterChange(before, changed, functions, two) : NO_CHANGE;
  // Without a value put in, calls of ours are differences already.
  const anew = results.filter(({ formula }) => affected.has(formula) && (set.length > 0 || !formula.calls));
  const recalculated = anew.flatMap((result) => {
    const otherwise = compared(changed.book, [result], tolerance);
    return [...otherwise.differences, ...otherwise.unreproduced];
  });
  if (out !== undefined) {
    const right = new Set(results.flatMap(({ formula, taken }) => (taken === undefined ? [formula] : [])));
    const written = changedOnly(changed.book, results, affected, tolerance);
    storeResults(changed.book, changed.formulas, written, { right, stale: kept.length > 0 });
    if (host === "calc") writeForCalc(changed.book);
    writeWhole(out, packed(changed.book.parts));
  }

  const counts = ({ formula: { calls }, fault }: Result) => fault !== undefined && (calls || strict);
  const told = new Set(verdicts.flatMap(({ formula, taken }) => (taken === undefined ? [] : [formula])));
  const described = job.described === true ? describing(book, formulas) : <One>(found: readonly One[]) => [...found];
  return {
    workbook: called,
    digest: digestOf(bytes),
    version: VERSION,
    formulas: formulas.length,
    cells,
    differences: described(differences),
    unreproduced: described(unreproduced),
    recalculated: described(recalculated),
    notRecalculated: described(
      kept.map(({ formula, why }) => ({ ...remarkOn(formula, why), formula: `=${formula.typed}` })),
    ),
    faults: described(verdicts.filter(counts).map(({ formula, fault }) => remarkOn(formula, fault ?? ""))),
    taken: described(
      verdicts.flatMap((verdict) =>
        verdict.taken === undefined || counts(verdict)
          ? []
          : [remarkOn(verdict.formula, `${verdict.taken}; the saved value was taken`)],
      ),
    ),
    passedOver: passedOver + formulas.length - verdicts.length,
    engines: two ? 2 : 1,
    neverCalculated,
    seconds: Math.round(performance.now() - started) / 1000,
    ...(job.described === true
      ? {
          moving: described(
            formulas.filter((one) => one.volatile && !told.has(one)).map((one) => remarkOn(one, MOVING)),
          ),
        }
      : {}),
    ...(oursOnly === undefined ? {} : { nativeUnjudged: oursOnly }),
  };
}

const MOVING = "it depends on the clock or on chance";

const NO_CHANGE: Change = { results: [], affected: new Set(), kept: [] };

/** The book with values put into some cells: opened once more, so that the verdicts keep what the file has. */
function withPuts({ book, formulas }: Before, bytes: Uint8Array, set: readonly Setting[]) {
  if (set.length === 0) return { book, formulas, puts: [] };
  const other = openBook(bytes, book.called, book.forCalc);
  const own = formulasOf(other);
  return { book: other, formulas: own, puts: putInto(other, own, set) };
}

function remarkOn({ sheet, cell }: FormulaCell, message: string): Remark {
  return { sheet: sheet.name, cell: cell.address, message };
}

/** What a copy gets: all that gives another value than the file has, or had none. All else stays as it was saved. */
function changedOnly(
  book: Book,
  results: readonly Result[],
  affected: ReadonlySet<FormulaCell>,
  tolerance: number | undefined,
): Result[] {
  return results.filter((result) => {
    const { formula, fault, taken } = result;
    if (fault !== undefined || taken !== undefined) return false;
    if (!formula.cell.hasValue) return true;
    if (!formula.calls && !affected.has(formula)) return false;
    return formula.dead || !isReproduced(book, result, tolerance);
  });
}

export function bytesOf(file: string, called = basename(file)): Uint8Array {
  try {
    return readFileSync(file);
  } catch (fault) {
    throw new Complaint(`${called} cannot be read: ${fileTrouble(fault)}`);
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
    throw new Complaint(`${basename(file)} cannot be written: ${fileTrouble(fault)}`);
  }
}
