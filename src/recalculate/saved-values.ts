import type { Book } from "./book";
import type { Implementations } from "./bundle";
import { savedOf, workedOut, type FormulaCell, type Result } from "./calculation";
import { isReproduced } from "./compare";
import { inCircles, independentGroups, readersAmong, type Readers } from "./readers";
import { valueIn } from "./stored-text";
import { CellError, type Outcome } from "./values";

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
    if (settled && !isReproduced(book, result)) results.set(result.formula, circle(result.formula, book));
  }
  return formulas.flatMap((formula) => results.get(formula) ?? []);
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

function circle(formula: FormulaCell, book: Book): Result {
  return { formula, outcome: savedOf(formula, book), taken: "it reads itself in a circle" };
}

/** #NAME? is what a cell shows without the add-in, or after such a cell: no value that anyone worked out. */
export function showsAValue({ cell }: FormulaCell, book: Book): boolean {
  if (!cell.hasValue) return false;
  const value = valueIn(cell.value, book.shared);
  return !(value instanceof CellError && value.code === "#NAME?");
}
