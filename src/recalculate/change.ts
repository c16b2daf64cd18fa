import type { Book } from "./book";
import type { Implementations } from "./bundle";
import { secondVoice, workedOut, type FormulaCell, type Result } from "./calculation";
import { isReproduced, sameOutcome } from "./compare";
import type { Place } from "./places";
import { inCircles, independentGroups, readersOf, type Readers } from "./readers";
import { readingsOf } from "./references";
import { showsAValue } from "./saved-values";
import type { Outcome } from "./values";

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
  two: boolean,
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

  const results = workOut();
  drop(unsettledAmong(results), "what it reads depends on itself");
  if (two) drop(disagreedOn(results), "the two engines no longer agree");
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

  /** Takes out what turned out not to be sure, and all that reads it. */
  function drop(indexes: readonly number[], why: string): void {
    for (const index of indexes) kept.set(index, why);
    keepWhatReads(new Set(indexes));
    for (const index of kept.keys()) results.delete(index);
  }

  /** Turn by turn what the first engine reproduces, all at once, and what the second alone does, one by one. */
  function workOut(): Map<number, Result> {
    const found = new Map<number, Result>();
    const waiting = new Set([...wanted].filter((index) => !kept.has(index)));
    const bySecond = new Set([...waiting].filter((index) => verdicts.get(at(index))?.bySecond === true));
    const voice = bySecond.size === 0 ? undefined : secondVoice(changed.book, changed.formulas, functions);
    const settle = (result: Result) => {
      found.set(places.get(result.formula) as number, result);
      voice?.settle(result.formula, result.outcome);
    };
    while (waiting.size > 0) {
      const left = [...bySecond].filter((index) => waiting.has(index));
      const behind = left.length === 0 ? new Set() : readersOf({ ...readers, unknown: new Set() }, new Set(left));
      const ready = [...waiting].filter((index) => !bySecond.has(index) && !behind.has(index));
      workedOut(changed.book, changed.formulas, ready.map(inChanged), functions, outcomesOf(found)).forEach(settle);
      for (const index of ready) waiting.delete(index);
      const alone = left.filter(
        (index) => !(readers.reads[index] as readonly number[]).some((one) => waiting.has(one)),
      );
      for (const index of alone) {
        waiting.delete(index);
        const formula = inChanged(index);
        const outcome = voice?.opinionOn(formula);
        if (outcome !== undefined) settle({ formula, outcome, bySecond: true });
        else {
          kept.set(index, "it cannot be worked out here");
          keepWhatReads(new Set([index]));
        }
      }
      for (const index of kept.keys()) waiting.delete(index);
      if (ready.length + alone.length === 0) break;
    }
    voice?.forget();
    return found;
  }

  /** The native formulas that both engines reproduced before and on which they now differ. */
  function disagreedOn(results: ReadonlyMap<number, Result>): number[] {
    const native = [...results].filter(([index, { bySecond }]) => affected.has(index) && !at(index).calls && !bySecond);
    if (native.length === 0) return [];
    const now = secondVoice(changed.book, changed.formulas, functions, outcomesOf(results));
    const differing = native.filter(([, { formula, outcome }]) => {
      const other = now?.opinionOn(formula);
      return other !== undefined && !sameOutcome(outcome, other);
    });
    now?.forget();
    // One that the second engine could not reproduce before has no say now.
    const was = differing.length === 0 ? undefined : secondVoice(book, formulas, functions);
    const disagreed = differing.filter(([index]) => {
      const outcome = was?.opinionOn(at(index));
      return outcome !== undefined && isReproduced(book, { formula: at(index), outcome }, tolerance);
    });
    was?.forget();
    return disagreed.map(([index]) => index);
  }

  function outcomesOf(results: ReadonlyMap<number, Result>): Map<FormulaCell, Outcome> {
    return new Map([...results.values()].map(({ formula, outcome }) => [formula, outcome]));
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
    const groups = independentGroups(readers, checked);
    // Those of which it is not known what they read may read each other: any two are parted in one of the divisions.
    const unknown = groups.pop() ?? [];
    const byFirst = [...groups, ...halves(unknown)].flatMap((group) => {
      const together = new Set(group);
      const others = [...results].filter(([index]) => !together.has(index));
      const known = new Map(others.map(([, { formula, outcome }]) => [formula, outcome]));
      const first = group.filter((index) => results.get(index)?.bySecond !== true);
      const again = workedOut(changed.book, changed.formulas, first.map(inChanged), functions, known);
      return again.flatMap(({ formula, outcome }) => {
        const index = places.get(formula) as number;
        return JSON.stringify(outcome) === JSON.stringify(results.get(index)?.outcome) ? [] : [index];
      });
    });
    const rest = checked.filter((index) => results.get(index)?.bySecond === true);
    if (rest.length === 0) return byFirst;
    const voice = secondVoice(changed.book, changed.formulas, functions, outcomesOf(results));
    const bySecond = rest.filter((index) => {
      const { formula, outcome } = results.get(index) as Result;
      const again = voice?.opinionOn(formula);
      return again === undefined || !sameOutcome(outcome, again);
    });
    voice?.forget();
    return [...byFirst, ...bySecond];
  }

  function inChanged(index: number): FormulaCell {
    return changed.formulas[index] as FormulaCell;
  }
}

/** A list divided in two by each digit of its places in base two, so that no two of it are always together. */
function halves<One>(list: readonly One[]): One[][] {
  if (list.length < 2) return [[...list]];
  const digits = Math.ceil(Math.log2(list.length));
  return Array.from({ length: digits }, (_, digit) =>
    [0, 1].map((side) => list.filter((_, place) => ((place >> digit) & 1) === side)),
  ).flat();
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
