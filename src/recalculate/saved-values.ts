import type { Book } from "./book";
import type { Implementations } from "./bundle";
import { calculated, workedOut, type FormulaCell, type Result } from "./calculation";
import { columnsOf, ownersIn } from "./circles";
import type { Area } from "./grid";
import { readingsOf } from "./references";
import type { SheetPart } from "./sheet-part";
import { valueIn } from "./stored-text";
import { CellError } from "./values";

/**
 * The values in a file are the work of the program that saved it, which is a better calculator than any other engine.
 * So a formula is judged on the saved values of what it reads: an error then shows at the very cell and travels no
 * further, and what this engine cannot reproduce spoils nothing else.
 */

/** Works out each formula on the saved values of all others. */
export function onSavedValues(book: Book, formulas: readonly FormulaCell[], functions: Implementations): Result[] {
  const unsaved = formulas.filter((formula) => !hasSavedValue(formula));
  // A book that was never calculated has nothing to be judged by.
  if (unsaved.length === formulas.length) return calculated(book, formulas, functions);
  const found = new Map<FormulaCell, Result>();
  for (const group of [unsaved, ...independentGroups(book, formulas.filter(hasSavedValue))]) {
    if (group.length === 0) continue;
    const wanted = group === unsaved ? group : [...group, ...unsaved];
    const results = workedOut(book, formulas, wanted, functions);
    for (const result of results.slice(0, group.length)) found.set(result.formula, result);
  }
  return formulas.map((formula) => found.get(formula) as Result);
}

/**
 * Works out the calls of ours, one from the other, on the saved values of all other formulas. Formulas that have no
 * value yet, or only #NAME? because a call they read was dead, are worked out along with them.
 */
export function oursOnSavedValues(book: Book, formulas: readonly FormulaCell[], functions: Implementations): Result[] {
  const wanted = formulas.filter(
    (formula) => formula.calls || !hasSavedValue(formula) || savedValue(formula, book) === "#NAME?",
  );
  return workedOut(book, formulas, wanted, functions);
}

export function hasSavedValue({ cell }: FormulaCell): boolean {
  return cell.hasValue;
}

function savedValue({ cell }: FormulaCell, book: Book): string | undefined {
  const value = valueIn(cell.value, book.shared);
  return value instanceof CellError ? value.code : undefined;
}

/** Beyond this many readings the formulas that read most are judged together. */
const MOST_READINGS = 3_000_000;

/** What a formula reads that its text does not tell. */
const READS_ANYTHING = /\b(INDIRECT|OFFSET)\s*\(/i;

/** The formulas in few groups, of which none reads a cell that another of its group fills. */
function independentGroups(book: Book, formulas: readonly FormulaCell[]): FormulaCell[][] {
  const filled = areasFilled(formulas);
  const columns = columnsOf(formulas, filled);
  const beside = formulas.map((): number[] => []);
  const apart: FormulaCell[] = [];
  const followed = new Set<number>();
  let readings = 0;
  formulas.forEach((formula, index) => {
    if (readings > MOST_READINGS || READS_ANYTHING.test(formula.typed)) {
      apart.push(formula);
      return;
    }
    followed.add(index);
    for (const { sheet, area } of readingsOf(formula, book)) {
      for (const owner of ownersIn(columns, sheet, area)) {
        readings++;
        if (owner === index) continue;
        (beside[index] as number[]).push(owner);
        (beside[owner] as number[]).push(index);
      }
    }
  });
  const groups: FormulaCell[][] = [];
  const groupOf = new Map<number, number>();
  formulas.forEach((formula, index) => {
    if (!followed.has(index)) return;
    const taken = new Set((beside[index] as number[]).map((other) => groupOf.get(other)));
    let group = 0;
    while (taken.has(group)) group++;
    groupOf.set(index, group);
    (groups[group] ??= []).push(formula);
  });
  return [...groups, apart];
}

/** The cells that each formula filled; a file may claim an area of a whole sheet, of which few cells are there. */
function areasFilled(formulas: readonly FormulaCell[]): Area[] {
  const ends = new Map<SheetPart, { bottom: number; right: number }>();
  const endOf = (part: SheetPart) => {
    let end = ends.get(part);
    if (end === undefined) {
      end = { bottom: 1, right: 1 };
      for (const { row, column } of part.cells()) {
        end.bottom = Math.max(end.bottom, row);
        end.right = Math.max(end.right, column);
      }
      ends.set(part, end);
    }
    return end;
  };
  return formulas.map(({ sheet, saved }) => {
    const { bottom, right } = endOf(sheet.part);
    return { ...saved, bottom: Math.min(saved.bottom, bottom), right: Math.min(saved.right, right) };
  });
}
