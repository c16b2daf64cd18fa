import { heightOf, widthOf } from "./addresses";
import type { Book } from "./book";
import type { Implementation, Implementations } from "./bundle";
import { preparedFor, type FormulaCell, type Prepared } from "./calculation";
import { isReproduced } from "./compare";
import { columnsOf, ownersIn } from "./circles";
import type { Area } from "./grid";
import type { Place } from "./places";
import { inCircles, readersAmong, readersOf, type Readers } from "./readers";
import { readingsOf, type Reading } from "./references";
import { onSavedValues, showsAValue } from "./saved-values";
import { CellError, rowsOf, type Outcome, type Value } from "./values";

/** A formula that stands between an input and an outcome and is not sure here. */
export interface Doubt {
  readonly outcome: string;
  readonly cell: string;
  readonly why: string;
}

/** What an outcome's cell shows with given inputs: a number, or why there is none. */
export type Shown = number | { readonly error: string };

/**
 * A workbook as a function from some of its cells to some others: loaded once, and only the formulas between the two
 * are worked out again. What does not depend on the inputs keeps the value that the file holds.
 */
export class Model {
  /** The formulas that are in doubt, for each outcome that rests on them; such an outcome has no figures. */
  readonly doubts: readonly Doubt[];
  /** For each outcome the inputs, by their places in the list, that it depends on. */
  readonly reached: readonly (readonly number[])[];
  /** How many formulas each run works out. */
  readonly worked: number;
  /** How many of them had no saved value to be held against. */
  readonly unsaved: number;

  private readonly owners: readonly (FormulaCell | undefined)[];
  private readonly wanted: readonly FormulaCell[];
  private readonly resting: readonly { readonly formula: FormulaCell; readonly readings: readonly Reading[] }[];
  private prepared: Prepared | undefined;
  private readonly functions: Implementations;
  private readonly answers = new Map<string, unknown>();

  constructor(
    private readonly book: Book,
    private readonly formulas: readonly FormulaCell[],
    functions: Implementations,
    private readonly inputs: readonly Place[],
    private readonly outcomes: readonly Place[],
  ) {
    this.functions = remembering(functions, this.answers);
    const readers = readersAmong(book, formulas);
    const readings = formulas.map((formula) => readingsOf(formula, book));
    const affectedBy = inputs.map((input) => affected(readers, readings, input));
    const changed = new Set(affectedBy.flatMap((indexes) => [...indexes]));
    const owners = ownersOf(formulas, outcomes);
    const ways = owners.map((owner) => (owner === undefined ? new Set<number>() : restsOn(readers, owner)));
    const upstream = new Set(ways.flatMap((way) => [...way]));
    const needed = (index: number) => changed.has(index) || !showsAValue(formulas[index] as FormulaCell, book);
    const wanted = new Set([...upstream].filter(needed).sort((a, b) => a - b));
    const at = (index: number) => formulas[index] as FormulaCell;

    this.owners = owners.map((owner) => (owner === undefined ? undefined : at(owner)));
    this.wanted = [...wanted].map(at);
    this.worked = wanted.size;
    this.unsaved = this.wanted.filter((formula) => !showsAValue(formula, book)).length;
    this.resting = [...upstream]
      .filter((index) => !wanted.has(index))
      .map((index) => ({ formula: at(index), readings: readings[index] as Reading[] }));
    this.reached = ways.map((way) =>
      affectedBy.flatMap((indexes, input) => ([...indexes].some((index) => way.has(index)) ? [input] : [])),
    );
    const uncertain = this.uncertainAmong(wanted, readers);
    this.doubts = outcomes.flatMap(({ called }, place) =>
      [...uncertain].flatMap(([index, why]) => {
        if (!ways[place]?.has(index)) return [];
        const { sheet, cell } = at(index);
        return [{ outcome: called, cell: `${sheet.name}!${cell.address}`, why }];
      }),
    );
  }

  /** What the outcomes show with these values in the inputs. */
  at(values: readonly number[]): Shown[] {
    this.answers.clear();
    try {
      this.prepared ??= preparedFor(this.book, this.formulas, this.wanted, this.functions);
      const results = this.prepared(
        this.inputs.map(({ sheet, row, column }, index) => ({ sheet, row, column, value: values[index] as number })),
      );
      const grown = this.grownOver(results);
      if (grown !== undefined) return this.outcomes.map(() => ({ error: grown }));
      return this.outcomes.map(({ row, column }, index) => {
        const owner = this.owners[index] as FormulaCell;
        const outcome = results.get(owner);
        if (outcome === undefined) return { error: "is not worked out" };
        return shownIn(rowsOf(outcome)[row - owner.cell.row]?.[column - owner.cell.column]);
      });
    } catch (fault) {
      // The sheets may be left half written.
      this.prepared = undefined;
      const error = `could not be worked out (${(fault as Error).message})`;
      return this.outcomes.map(() => ({ error }));
    }
  }

  /** The formulas that are worked out and cannot be relied on, and why. */
  private uncertainAmong(wanted: ReadonlySet<number>, readers: Readers): Map<number, string> {
    const { book, formulas } = this;
    const found = new Map<number, string>();
    const place = new Map(formulas.map((formula, index) => [formula, index]));
    const judged = new Set(this.wanted);
    const results = onSavedValues(book, formulas, this.functions, readers, (formula) => judged.has(formula));
    for (const result of results) {
      const { formula, fault, taken } = result;
      if (!judged.has(formula)) continue;
      const why =
        fault ??
        taken ??
        (formula.volatile ? "it depends on the clock or on chance" : undefined) ??
        (isReproduced(book, result) || !showsAValue(formula, book)
          ? undefined
          : "its saved value is not reproduced here");
      if (why !== undefined) found.set(place.get(formula) as number, why);
    }
    for (const index of inCircles(readers, (one) => wanted.has(one))) found.set(index, "it reads itself in a circle");
    return found;
  }

  /** Why a result that fills more cells than when the file was saved spoils a formula that is not worked out again. */
  private grownOver(results: ReadonlyMap<FormulaCell, Outcome>): string | undefined {
    for (const [{ sheet, cell, saved }, outcome] of results) {
      const rows = rowsOf(outcome);
      const width = rows[0]?.length ?? 1;
      if (rows.length <= heightOf(saved) && width <= widthOf(saved)) continue;
      const area = {
        top: cell.row,
        left: cell.column,
        bottom: cell.row + rows.length - 1,
        right: cell.column + width - 1,
      };
      const on = sheet.name.toLowerCase();
      const reader = this.resting.find(({ readings }) =>
        readings.some((reading) => reading.sheet === on && meet(reading.area, area)),
      );
      if (reader) {
        const { sheet: where, cell: which } = reader.formula;
        return `${sheet.name}!${cell.address} fills more cells and ${where.name}!${which.address}, which reads them, is not worked out again`;
      }
    }
    return undefined;
  }
}

/** The same functions, that answer the same question once: they are pure, and a run goes over its cells several times. */
function remembering(functions: Implementations, answers: Map<string, unknown>): Implementations {
  const once = ([id, implementation]: readonly [string, Implementation]): [string, Implementation] => [
    id,
    (...cells) => {
      const question = id + JSON.stringify(cells);
      if (!answers.has(question)) answers.set(question, implementation(...cells));
      return answers.get(question);
    },
  ];
  return new Map([...functions].map(once));
}

function shownIn(value: Value | undefined): Shown {
  if (typeof value === "number") return value;
  // The mean of a check is then how often it holds.
  if (typeof value === "boolean") return Number(value);
  if (value instanceof CellError) return { error: `${value.code} ${value.message}`.trim() };
  return { error: value === undefined || value === null || value === "" ? "is empty" : `shows "${value}"` };
}

/** The formulas that read a cell, directly or by way of others, or may do so. */
export function affected(
  readers: Readers,
  readings: readonly (readonly Reading[])[],
  { sheet, row, column }: Place,
): Set<number> {
  const own: Area = { top: row, left: column, bottom: row, right: column };
  const direct = new Set(readers.unknown);
  readings.forEach((ranges, index) => {
    if (ranges.some((range) => range.sheet === sheet.toLowerCase() && meet(range.area, own))) direct.add(index);
  });
  return new Set([...direct, ...readersOf(readers, direct)]);
}

/** A formula and all that it reads, directly or by way of others; one of unknown readings may read everything. */
function restsOn({ reads, unknown }: Readers, start: number): Set<number> {
  const found = new Set([start]);
  for (const index of found) {
    if (unknown.has(index)) return new Set(reads.keys());
    for (const read of reads[index] as readonly number[]) found.add(read);
  }
  return found;
}

/** The formula that fills each cell, if one does. */
function ownersOf(formulas: readonly FormulaCell[], outcomes: readonly Place[]): (number | undefined)[] {
  const columns = columnsOf(
    formulas,
    formulas.map(({ saved }) => saved),
  );
  return outcomes.map(({ sheet, row, column }) => {
    const own = formulas.findIndex(
      (one) => one.sheet.name === sheet && one.cell.row === row && one.cell.column === column,
    );
    if (own >= 0) return own;
    const [owner] = ownersIn(columns, sheet.toLowerCase(), { top: row, left: column, bottom: row, right: column });
    return owner;
  });
}

function meet(one: Area, other: Area): boolean {
  return one.top <= other.bottom && other.top <= one.bottom && one.left <= other.right && other.left <= one.right;
}
