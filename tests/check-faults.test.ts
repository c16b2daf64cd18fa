import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { remembering, SAMPLE_WORKBOOKS } from "../sample-workbooks/build";
import { openBook, type Book } from "../src/recalculate/book";
import {
  formulasOf,
  placeOf,
  savedOf,
  secondVoice,
  workedOut,
  type FormulaCell,
  type Result,
} from "../src/recalculate/calculation";
import { referenceTo } from "../src/recalculate/addresses";
import { affected } from "../src/recalculate/model";
import { placeOfOne, type Place } from "../src/recalculate/places";
import { readersAmong } from "../src/recalculate/readers";
import { readingsOf } from "../src/recalculate/references";
import { putInto, settingIn } from "../src/recalculate/set-values";
import { withoutSpillReferences } from "../src/recalculate/spill-references";
import { storedValue, valueIn } from "../src/recalculate/stored-text";
import { rowsOf, shownAs } from "../src/recalculate/values";
import { CHECK_FAULTS } from "./support/check-faults";
import { bundledFunctions } from "./support/functions";
import { lookedAt } from "./support/random-cases";

const functions = remembering(bundledFunctions());

function opened(name: string): Book {
  const file = `sample-workbooks/${name}.xlsx`;
  return openBook(readFileSync(file), file);
}

/** The lines of the Checks sheet, by what they say. */
function checksOf(book: Book, formulas: readonly FormulaCell[]): Map<string, FormulaCell> {
  const sheet = book.sheets.find(({ name }) => name === "Checks");
  return new Map(
    formulas
      .filter((one) => one.sheet === sheet && one.cell.column === 2 && one.cell.row > 6)
      .map((one) => {
        const label = sheet?.part.find(one.cell.row, 1);
        return [shownAs(label ? valueIn(label.value, book.shared) : null), one];
      }),
  );
}

/**
 * Types a value into a cell; where a formula filled it, the formula goes and its other cells keep their values: what
 * read all that it filled reads those cells.
 */
function typeInto(book: Book, typed: string): Spoilt {
  const setting = settingIn(typed);
  const { sheet: on, row, column } = placeOfOne(book, setting.place, "a fault");
  const formulas = formulasOf(book);
  const filled = new Map<string, string>();
  for (const { sheet, cell, saved } of formulas) {
    const { top, left, bottom, right } = saved;
    if (sheet.name !== on || row < top || row > bottom || column < left || column > right) continue;
    filled.set(placeOf(sheet.name, cell.row, cell.column), referenceTo(saved));
    cell.writeOnly(storedValue(valueIn(cell.value, book.shared)));
  }
  for (const formula of formulas) withoutSpillReferences(formula, filled);
  const left = filled.size === 0 ? formulas : formulasOf(book);
  const [place] = putInto(book, left, [setting]) as [Place];
  return { formulas: left, place, as: filled.size === 0 };
}

/** What the second engine gives for one formula where all others hold what the first gave, or what was saved. */
function heardOn(book: Book, formulas: readonly FormulaCell[], results: readonly Result[], asked: FormulaCell) {
  const others = results.filter(({ formula }) => formula !== asked);
  const known = new Map(others.map(({ formula, outcome }) => [formula, outcome]));
  const voice = secondVoice(book, formulas, functions, known);
  const outcome = voice?.opinionOn(asked);
  voice?.forget();
  return outcome;
}

interface Spoilt {
  readonly formulas: readonly FormulaCell[];
  readonly place: Place;
  /** Are the formulas as they were? */
  readonly as: boolean;
}

function reading(book: Book, formulas: readonly FormulaCell[]) {
  const readings = formulas.map((formula) => readingsOf(formula, book));
  return { readers: readersAmong(book, formulas), readings };
}

const every = Object.entries(CHECK_FAULTS).flatMap(([name, faults]) =>
  Object.keys(faults).map((check) => ({ name, check })),
);
const tried = lookedAt(every, ({ name }) => name);

describe.each(Object.keys(SAMPLE_WORKBOOKS))(`%s.xlsx (${tried.length} faults of ${every.length})`, (name) => {
  const faults = CHECK_FAULTS[name] ?? {};
  const book = opened(name);
  const all = formulasOf(book);
  const checks = [...checksOf(book, all).keys()];
  const read = reading(book, all);

  test("every line of Checks has a fault that it must notice", () => {
    expect(Object.keys(faults).sort()).toEqual(checks.sort());
  });

  // Of every formula of the book both engines think the same (own-workbooks-two-engines).
  const own = tried.filter((one) => one.name === name);
  const inBoth = lookedAt(own, () => name);
  const each = own.map((one) => ({
    ...{ check: one.check, fault: faults[one.check] as string, both: inBoth.includes(one) },
    engines: inBoth.includes(one) ? "both engines" : "the first engine",
  }));

  test.each(each)("$check: fails in $engines after $fault", ({ check, fault, both }) => {
    const spoilt = opened(name);
    const { formulas, place, as } = typeInto(spoilt, fault);
    const { readers, readings } = as ? read : reading(spoilt, formulas);
    const changed = affected(readers, readings, place);
    const wanted = formulas.filter((_, index) => changed.has(index));
    const results = workedOut(spoilt, formulas, wanted, functions);
    const line = checksOf(spoilt, formulas).get(check) as FormulaCell;
    const given = new Map(results.map(({ formula, outcome }) => [formula, outcome]));
    expect(savedOf(line, spoilt)).toBe(true);
    expect(given.get(line)).toBe(false);
    if (both) expect(heardOn(spoilt, formulas, results, line)).toBe(false);
    // The copies of the master cell at the top of the other sheets say so, also where a check has become an error.
    const shown = results
      .filter(({ formula }) => /Checks!\$B\$4/.test(formula.typed))
      .flatMap(({ outcome }) => rowsOf(outcome).flat());
    expect(shown.length).toBeGreaterThan(1);
    expect(shown.filter((text) => !/FAIL$/.test(shownAs(text)))).toEqual([]);
  });
});
