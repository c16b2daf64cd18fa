import type { Book } from "./book";
import type { Implementations } from "./bundle";
import { workedOut, type FormulaCell, type Result } from "./calculation";
import { isReproduced } from "./compare";
import type { Place } from "./places";
import { inCircles, independentGroups, readersOf, type Readers } from "./readers";
import { readingsOf } from "./references";
import { showsAValue } from "./saved-values";

/**
 * After a change (a value put into a cell, or a call of ours that gives another value than was saved) what depends on
 * it is worked out anew, as far as the way leads through formulas that this engine has just reproduced on the saved
 * values. What lies beyond keeps its saved value, and that is told.
 */

/** A formula that keeps its saved value although what it reads has changed. */
export interface Kept {
  readonly formula: FormulaCell;
  readonly why: string;
}

export interface Change {
  /** Calls of ours, formulas that had no value, and all that could be worked out anew. */
  readonly results: readonly Result[];
  /** All that reads, at whatever distance, what has changed. */
  readonly affected: ReadonlySet<FormulaCell>;
  readonly kept: readonly Kept[];
}

/** What there was before the change: each formula's verdict on the saved values. */
export interface Before {
  readonly book: Book;
  readonly formulas: readonly FormulaCell[];
  readonly readers: Readers;
  readonly verdicts: readonly Result[];
  readonly tolerance?: number;
}

/** Works out what depends on a change; the changed book has the same formulas in the same order. */
export function afterChange(
  before: Before,
  changed: { readonly book: Book; readonly formulas: readonly FormulaCell[]; readonly puts: readonly Place[] },
  functions: Implementations,
): Change {
  const { book, formulas, readers, tolerance } = before;
  const at = (index: number) => formulas[index] as FormulaCell;
  const verdicts = new Map(before.verdicts.map((verdict) => [verdict.formula, verdict]));
  const places = new Map(changed.formulas.map((formula, index) => [formula, index]));
  const indexes = [...formulas.keys()];

  const differing = new Set(
    indexes.filter((index) => {
      const verdict = verdicts.get(at(index));
      if (!at(index).calls || verdict === undefined || verdict.taken !== undefined) return false;
      return verdict.fault === undefined && !isReproduced(book, verdict, tolerance);
    }),
  );
  const reached = indexes.filter((index) => readsAny(before, index, changed.puts));
  const starts = new Set([...differing, ...reached, ...(changed.puts.length > 0 ? readers.unknown : [])]);
  const affected = new Set([...starts, ...readersOf(readers, starts)]);

  const byChance = new Set(indexes.filter((index) => at(index).volatile));
  const afterChance = readersOf({ ...readers, unknown: new Set() }, byChance);
  const wanted = new Set(indexes.filter((index) => affected.has(index) || at(index).calls || isOpen(index)));
  const circular = inCircles(readers, (index) => wanted.has(index));
  const kept = new Map<number, string>();
  for (const index of wanted) {
    const why = reasonToKeep(index);
    if (why !== undefined) kept.set(index, why);
  }
  keepWhatReads(new Set(kept.keys()));

  const first = workOut();
  const unsettled = unsettledAmong(first);
  for (const index of unsettled) kept.set(index, "what it reads depends on itself");
  keepWhatReads(new Set(unsettled));
  const results = unsettled.length === 0 ? first : workOut();
  return {
    results: [...results.values()],
    affected: new Set([...affected].map(inChanged)),
    kept: [...kept]
      .filter(([index]) => affected.has(index) && at(index).cell.hasValue)
      .sort(([one], [other]) => one - other)
      .map(([index, why]) => ({ formula: inChanged(index), why })),
  };

  function isOpen(index: number): boolean {
    return !showsAValue(at(index), book);
  }

  function reasonToKeep(index: number): string | undefined {
    const formula = at(index);
    const verdict = verdicts.get(formula);
    if (circular.has(index)) return "it reads itself in a circle";
    if (verdict === undefined) return "native formulas were not worked out";
    if (verdict.taken !== undefined || verdict.fault !== undefined) return verdict.taken ?? verdict.fault;
    if (!affected.has(index)) return undefined;
    // A call of ours that differs does so on the saved values, of the clock too.
    if (differing.has(index)) return undefined;
    if (formula.volatile) return "it depends on the clock or on chance";
    if (afterChance.has(index)) return "it reads what depends on the clock or on chance";
    if (formula.calls || isOpen(index)) return undefined;
    return isReproduced(book, verdict, tolerance) ? undefined : "its saved value is not reproduced here";
  }

  /** What reads a cell that keeps its value would be worked out on what is no longer true. */
  function keepWhatReads(seeds: ReadonlySet<number>): void {
    const stale = new Set([...seeds].filter((index) => affected.has(index)));
    if (stale.size === 0) return;
    const away = readersOf(readers, stale);
    for (const index of away) {
      if (!wanted.has(index) || kept.has(index)) continue;
      const read = (readers.reads[index] as readonly number[]).find((other) => kept.has(other) && affected.has(other));
      kept.set(index, read === undefined ? "it may read what is not recalculated" : `it reads ${called(at(read))}`);
    }
  }

  function workOut(): Map<number, Result> {
    const working = [...wanted].filter((index) => !kept.has(index)).map(inChanged);
    const results = workedOut(changed.book, changed.formulas, working, functions);
    return new Map(results.map((result) => [places.get(result.formula) as number, result]));
  }

  /**
   * A formula of which it is not known what it reads may stand in a circle. So it and all that reads it are worked out
   * once more, on what came of all others, and must come to the same.
   */
  function unsettledAmong(results: ReadonlyMap<number, Result>): number[] {
    const doubtful = new Set([...readers.unknown].filter((index) => results.has(index)));
    if (doubtful.size === 0) return [];
    const after = readersOf(readers, doubtful);
    const checked = [...results.keys()].filter((index) => doubtful.has(index) || after.has(index));
    return independentGroups(readers, checked).flatMap((group) => {
      const together = new Set(group);
      const others = [...results].filter(([index]) => !together.has(index));
      const known = new Map(others.map(([, { formula, outcome }]) => [formula, outcome]));
      const again = workedOut(changed.book, changed.formulas, group.map(inChanged), functions, known);
      return again.flatMap(({ formula, outcome }) => {
        const index = places.get(formula) as number;
        return JSON.stringify(outcome) === JSON.stringify(results.get(index)?.outcome) ? [] : [index];
      });
    });
  }

  function inChanged(index: number): FormulaCell {
    return changed.formulas[index] as FormulaCell;
  }
}

function called({ sheet, cell }: FormulaCell): string {
  return `${sheet.name}!${cell.address}, which is not recalculated`;
}

function readsAny({ book, formulas }: Before, index: number, puts: readonly Place[]): boolean {
  if (puts.length === 0) return false;
  return readingsOf(formulas[index] as FormulaCell, book).some(({ sheet, area: { top, left, bottom, right } }) =>
    puts.some(
      (put) =>
        put.sheet.toLowerCase() === sheet &&
        put.row >= top &&
        put.row <= bottom &&
        put.column >= left &&
        put.column <= right,
    ),
  );
}
