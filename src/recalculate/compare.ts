import { addressOf } from "./addresses";
import type { Book } from "./book";
import { cellsIn, type Result } from "./calculation";
import type { Described } from "./described";
import { withAllDigitsShown } from "./numbers-in-text";
import { errorInFile, valueIn } from "./stored-text";
import type { StoredCell } from "./sheet-part";
import { CellError, rowsOf, type Outcome, type Value } from "./values";

/** A cell whose saved value is not what its formula gives. */
export interface Difference {
  readonly sheet: string;
  readonly cell: string;
  readonly formula: string;
  readonly saved: string | number | boolean | null;
  readonly now: string | number | boolean | null;
  readonly message: string;
  /** Native: both engines give this same other value, so the saved one is stale. */
  readonly sure?: true;
  /** It reads itself by way of others and the book does not iterate, so no value of it is the right one. */
  readonly circular?: true;
  /** For a report. */
  readonly described?: Described;
}

export interface Comparison {
  /** How many cells were compared. */
  readonly cells: number;
  /** Formulas that depend on the clock or on chance, or on a function that cannot be worked out here. */
  readonly passedOver: number;
  /** Calls of ours that give another value. */
  readonly differences: readonly Difference[];
  /** Native formulas that this engine does not reproduce: stale, or beyond it. No verdict on them. */
  readonly unreproduced: readonly Difference[];
  /** Formulas without a saved value; native ones among them have nothing to be compared with. */
  readonly neverCalculated: number;
}

/** Numbers are the same when they agree to this part of the larger one: far below what any cell shows. */
const TOLERANCE = 1e-12;

/** Programs add and raise in their own order, so native formulas may differ by a little more; and Calc saves 15 digits. */
const NATIVE_TOLERANCE = 1e-9;

/** Compares what a book's cells hold with what their formulas give now, to one tolerance for all if one is given. */
export function compared(book: Book, results: readonly Result[], tolerance?: number): Comparison {
  const differences: Difference[] = [];
  const unreproduced: Difference[] = [];
  let cells = 0;
  let passedOver = 0;
  let neverCalculated = 0;
  for (const { formula, outcome, taken, agreed, circular } of results) {
    const { sheet, cell, typed, saved, volatile, dead, calls } = formula;
    const rows = rowsOf(outcome);
    if (volatile || taken !== undefined) {
      passedOver += 1;
      continue;
    }
    if (!cell.hasValue) {
      neverCalculated++;
      if (!calls) continue;
    }
    const seen = new Set<StoredCell>();
    const check = (stored: StoredCell | undefined, address: string, now: Value) => {
      cells++;
      const before = stored === undefined ? null : valueIn(stored.value, book.shared);
      const expected = book.forCalc && typeof before === "number" ? asInCalc(now) : now;
      if (sameValue(before, expected, tolerance ?? (calls && !book.forCalc ? TOLERANCE : NATIVE_TOLERANCE))) return;
      const message = [
        now instanceof CellError ? now.message : "",
        dead && !book.forCalc ? DEAD : "",
        circular ? CIRCULAR : "",
      ]
        .filter(Boolean)
        .join("; ");
      (calls ? differences : unreproduced).push({
        sheet: sheet.name,
        cell: address,
        formula: `=${typed}`,
        saved: plain(before),
        now: plain(now),
        message,
        ...(agreed ? { sure: true } : {}),
        ...(circular ? { circular } : {}),
      });
    };
    rows.forEach((row, down) =>
      row.forEach((value, along) => {
        const stored = sheet.part.find(cell.row + down, cell.column + along);
        if (stored) seen.add(stored);
        check(stored, stored?.address ?? addressBeside(cell, down, along), value ?? 0);
      }),
    );
    // What an earlier, larger result left behind is no longer covered by the formula.
    for (const stored of cellsIn(sheet.part, saved)) {
      if (!seen.has(stored) && !stored.isEmpty && stored.formula === undefined) check(stored, stored.address, null);
    }
  }
  return { cells, passedOver, differences, unreproduced, neverCalculated };
}

/** Does a formula give what the file holds? */
export function isReproduced(book: Book, result: Result, tolerance?: number): boolean {
  const { differences, unreproduced } = compared(book, [result], tolerance);
  return differences.length + unreproduced.length === 0;
}

const CIRCULAR = "it reads itself in a circle and iteration is off, so it has no result";

const DEAD = "not in the form Excel binds, so it shows #NAME?: run mend";

/** Calc's cells have no truth, only numbers that are shown as such. */
function asInCalc(value: Value): Value {
  return typeof value === "boolean" ? Number(value) : value;
}

function sameValue(saved: Value, now: Value, tolerance: number): boolean {
  if (saved instanceof CellError) return now instanceof CellError && saved.code === errorInFile(now.code);
  if (typeof saved === "number" && typeof now === "number") {
    // Sums that cancel leave a trace of rounding where the other calculation has an exact zero.
    if (saved === 0 || now === 0) return Math.abs(saved - now) <= tolerance;
    return Math.abs(saved - now) <= tolerance * Math.max(Math.abs(saved), Math.abs(now));
  }
  if (typeof saved === "string" && typeof now === "string") {
    return saved === now || withAllDigitsShown(saved) === withAllDigitsShown(now);
  }
  return saved === now;
}

/** Is a native cell's value as saved, to the tolerance for native formulas? */
export function sameAsSaved(saved: Value, now: Value): boolean {
  return sameValue(saved, now, NATIVE_TOLERANCE);
}

/** Do two engines give the same? */
export function sameOutcome(one: Outcome, other: Outcome): boolean {
  const [first, second] = [rowsOf(one), rowsOf(other)];
  return (
    first.length === second.length &&
    first.every((row, r) => row.length === second[r]?.length && row.every((value, c) => alike(value, second[r]?.[c])))
  );
}

function alike(one: Value, other: Value = null): boolean {
  if (one instanceof CellError) return other instanceof CellError && one.code === other.code;
  return sameAsSaved(one, other);
}

function plain(value: Value): string | number | boolean | null {
  return value instanceof CellError ? value.code : value;
}

function addressBeside(cell: StoredCell, down: number, along: number): string {
  return addressOf(cell.row + down, cell.column + along);
}
