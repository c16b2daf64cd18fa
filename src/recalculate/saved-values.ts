import type { Book } from "./book";
import type { Implementations } from "./bundle";
import { savedOf, secondVoice, workedOut, type FormulaCell, type Result } from "./calculation";
import { isReproduced, sameOutcome } from "./compare";
import { widthOf } from "./addresses";
import { inCircles, independentGroups, readersAmong, type Readers } from "./readers";
import { readingsOf } from "./references";
import type { SheetPart } from "./sheet-part";
import { valueIn } from "./stored-text";
import { CellError, rowsOf, type Outcome } from "./values";

/**
 * The values in a file are the work of the program that saved it, which is a better calculator than any other engine.
 * So a formula is judged on the saved values of what it reads: an error then shows at the very cell and travels no
 * further, and what this engine cannot reproduce spoils nothing else.
 */

/**
 * Works out each formula on the saved values of all others; one without a saved value on nothing but the rest. The
 * results are in the order of the formulas, of those that are judged.
 */
export function onSavedValues(
  book: Book,
  formulas: readonly FormulaCell[],
  functions: Implementations,
  readers: Readers = readersAmong(book, formulas),
  judged: (formula: FormulaCell) => boolean = () => true,
): Result[] {
  const results = new Map<FormulaCell, Result>();
  const at = (index: number) => formulas[index] as FormulaCell;
  const open = new Set(formulas.keys());
  for (const [index, formula] of formulas.entries()) if (showsAValue(formula, book)) open.delete(index);
  const known = new Map<FormulaCell, Outcome>();
  for (const result of together(book, formulas, open, functions, readers)) {
    results.set(result.formula, result);
    known.set(result.formula, result.outcome);
  }
  const circular = inCircles(readers, (index) => !open.has(index));
  const shown = [...formulas.keys()].filter((index) => !open.has(index) && judged(at(index)));
  for (const group of independentGroups(readers, shown)) {
    for (const result of workedOut(book, formulas, group.map(at), functions, known))
      results.set(result.formula, result);
  }
  for (const index of circular) {
    const result = results.get(at(index));
    if (result === undefined) continue;
    // Where each works with the other's value, only the program that went round and round knows when it stopped.
    const settled = book.iterates || (readers.reads[index] as readonly number[]).includes(index);
    if (isReproduced(book, result)) continue;
    results.set(result.formula, settled ? circle(result.formula, book) : { ...result, circular: true });
  }
  return formulas.flatMap((formula) => results.get(formula) ?? []);
}

/**
 * Works out each formula on the saved values of all others, with a second engine heard on native formulas: what it gives
 * counts where it is the saved value, and where both give the same other value, that is noted. It is slow to load and
 * quick with long ranges, so it is asked first where there is much to be read and last where there is little.
 */
export function withTwoEngines(
  book: Book,
  formulas: readonly FormulaCell[],
  functions: Implementations,
  readers: Readers,
  judged: (formula: FormulaCell) => boolean,
): Result[] {
  const native = (formula: FormulaCell) => !formula.calls && judged(formula) && showsAValue(formula, book);
  const all = formulas.filter(native);
  const early = readsMuch(book, all) ? heardOn(book, formulas, functions, all) : new Map<FormulaCell, Outcome>();
  const settled = new Map<FormulaCell, Result>();
  for (const [formula, outcome] of early) {
    const result: Result = { formula, outcome, bySecond: true };
    if (!formula.volatile && isReproduced(book, result)) settled.set(formula, result);
  }
  const circular = inCircles(readers, () => true);
  const first = new Map<FormulaCell, Result>();
  for (const result of onSavedValues(book, formulas, functions, readers, (one) => judged(one) && !settled.has(one))) {
    first.set(result.formula, result);
  }
  const open = [...first.values()].filter(
    ({ formula, taken, ...result }) =>
      native(formula) && !formula.volatile && (taken !== undefined || !isReproduced(book, { formula, ...result })),
  );
  const late = heardOn(
    book,
    formulas,
    functions,
    open.map(({ formula }) => formula).filter((formula) => !early.has(formula)),
  );
  return formulas.flatMap((formula, index) => {
    const verdict = first.get(formula);
    // Where formulas read each other, only the program that went round and round knows when it stopped.
    if (settled.has(formula) && !(circular.has(index) && book.iterates)) return settled.get(formula) as Result;
    if (verdict === undefined || !open.includes(verdict) || verdict.taken === CIRCULAR) return verdict ?? [];
    return withOpinion(book, verdict, early.get(formula) ?? late.get(formula));
  });
}

/** Beyond so many cells to be read the second engine is the quicker one, its loading included. */
const MUCH = 1_000_000;

function readsMuch(book: Book, formulas: readonly FormulaCell[]): boolean {
  const heights = new Map(book.sheets.map(({ name, part }) => [name.toLowerCase(), bottomOf(part)]));
  let cells = 0;
  return formulas.some((formula) => {
    for (const { sheet, area } of readingsOf(formula, book)) {
      const height = Math.min(area.bottom, heights.get(sheet) ?? 0) - area.top + 1;
      cells += Math.max(0, height) * Math.min(widthOf(area), MOST_COLUMNS);
    }
    return cells > MUCH;
  });
}

const MOST_COLUMNS = 100;

function bottomOf(part: SheetPart): number {
  let bottom = 0;
  for (const { row } of part.cells()) bottom = Math.max(bottom, row);
  return bottom;
}

function heardOn(
  book: Book,
  formulas: readonly FormulaCell[],
  functions: Implementations,
  asked: readonly FormulaCell[],
): Map<FormulaCell, Outcome> {
  const voice = asked.length === 0 ? undefined : secondVoice(book, formulas, functions);
  const heard = new Map<FormulaCell, Outcome>();
  for (const formula of asked) {
    const outcome = voice?.opinionOn(formula);
    if (outcome !== undefined) heard.set(formula, outcome);
  }
  voice?.forget();
  return heard;
}

/** Functions between numbers and texts: what they give depends on the language of the program that saved the book. */
const LANGUAGE = /\b(TEXT|FIXED|DOLLAR|VALUE|DATEVALUE|TIMEVALUE)\s*\(/i;

function withOpinion(book: Book, verdict: Result, outcome: Outcome | undefined): Result {
  if (outcome === undefined) return verdict;
  const second: Result = { formula: verdict.formula, outcome, bySecond: true };
  if (isReproduced(book, second)) return second;
  const agreed = verdict.taken === undefined && !holdsError(outcome) && sameOutcome(verdict.outcome, outcome);
  return agreed && !LANGUAGE.test(verdict.formula.typed) ? { ...verdict, agreed } : verdict;
}

/**
 * Works out the calls of ours, one from the other, on the saved values of all other formulas. Formulas that have no
 * value yet, or only #NAME? because a call they read was dead, are worked out along with them.
 */
export function oursOnSavedValues(book: Book, formulas: readonly FormulaCell[], functions: Implementations): Result[] {
  const wanted = new Set(formulas.keys());
  for (const [index, formula] of formulas.entries()) {
    if (!formula.calls && showsAValue(formula, book)) wanted.delete(index);
  }
  return together(book, formulas, wanted, functions, readersAmong(book, formulas));
}

/** Works out formulas one from the other; those that read each other in a circle keep what the file has. */
function together(
  book: Book,
  formulas: readonly FormulaCell[],
  wanted: ReadonlySet<number>,
  functions: Implementations,
  readers: Readers,
): Result[] {
  const circular = inCircles(readers, (index) => wanted.has(index));
  const straight = [...wanted].filter((index) => !circular.has(index));
  return [
    ...workedOut(
      book,
      formulas,
      straight.map((index) => formulas[index] as FormulaCell),
      functions,
    ),
    ...[...circular].map((index) => circle(formulas[index] as FormulaCell, book)),
  ];
}

const CIRCULAR = "it reads itself in a circle";

function circle(formula: FormulaCell, book: Book): Result {
  return { formula, outcome: savedOf(formula, book), taken: CIRCULAR };
}

/** #NAME? is what a cell shows without the add-in, or after such a cell: no value that anyone worked out. */
export function showsAValue({ cell }: FormulaCell, book: Book): boolean {
  if (!cell.hasValue) return false;
  const value = valueIn(cell.value, book.shared);
  return !(value instanceof CellError && value.code === "#NAME?");
}

/** Two engines can fail alike. */
function holdsError(outcome: Outcome): boolean {
  return rowsOf(outcome).some((row) => row.some((value) => value instanceof CellError));
}
