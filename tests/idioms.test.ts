import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { formulasOf, secondVoice } from "../src/recalculate/calculation";
import { isReproduced } from "../src/recalculate/compare";
import { recalculate, type Job } from "../src/recalculate/recalculation";
import { bundledFunctions } from "./support/functions";
import { idioms, idiomsBook, placeOf } from "./support/idioms";
import { written } from "./support/workbooks";

/**
 * What office workbooks are full of. The values in the data are those of LibreOffice 7.4.7.2, which recalculated this very
 * workbook; where Microsoft documents another value for Excel, that stands as the value, the page as the source, and
 * LibreOffice's beside it.
 */
const ALL = idioms();
const FILE = written("idioms.xlsx", idiomsBook(ALL));
const formulaAt = new Map(ALL.map((idiom, index) => [placeOf(idiom, index).join("!"), idiom.formula]));

/** The formulas that recalc does not reproduce. */
function missed(job: Partial<Job> = {}): string[] {
  const { unreproduced, taken, faults, cells, error } = recalculate({ file: FILE, called: "idioms.xlsx", ...job });
  expect(error).toBeUndefined();
  expect(cells + taken.length).toBeGreaterThanOrEqual(ALL.length);
  return [...unreproduced, ...taken, ...faults].map(({ sheet, cell }) => formulaAt.get(`${sheet}!${cell}`) as string);
}

/** The formulas that the second engine alone does not reproduce. */
function missedBySecond(): string[] {
  const book = openBook(readFileSync(FILE), "idioms.xlsx");
  const formulas = formulasOf(book);
  const voice = secondVoice(book, formulas, bundledFunctions());
  const bad = formulas.filter((formula) => {
    const outcome = voice?.opinionOn(formula);
    return outcome === undefined || !isReproduced(book, { formula, outcome });
  });
  voice?.forget();
  return bad.map(({ sheet, cell }) => formulaAt.get(`${sheet.name}!${cell.address}`) as string);
}

describe("office idioms", () => {
  test("are many, each once, and what differs from LibreOffice has a source", () => {
    expect(ALL.length).toBeGreaterThan(200);
    expect(new Set(formulaAt.values()).size).toBe(ALL.length);
    expect(ALL.filter(({ soffice, source }) => soffice !== undefined && source === undefined)).toEqual([]);
  });

  test("are reproduced by one engine or the other, but for those marked", () => {
    expect(missed().sort()).toEqual(
      ALL.filter(({ neither }) => neither)
        .map(({ formula }) => formula)
        .sort(),
    );
  });

  test("with another number saved are not", () => {
    const otherwise = ALL.map((idiom) =>
      typeof idiom.value === "number" && idiom.at === undefined ? { ...idiom, value: idiom.value + 1 } : idiom,
    );
    const file = written("otherwise.xlsx", idiomsBook(otherwise));
    const changed = otherwise.filter(({ value }, index) => value !== ALL[index]?.value);
    const told = missed({ file });
    expect(changed.filter(({ formula }) => !told.includes(formula))).toEqual([]);
  });

  test("are reproduced as often as before by each engine alone", () => {
    const [first, second] = [missed({ oneEngine: true }), missedBySecond()];
    expect(ALL.length - first.length).toBeGreaterThanOrEqual(FIRST);
    expect(ALL.length - second.length).toBeGreaterThanOrEqual(SECOND);
  });
});

/** How many each reproduced when the idioms were collected. */
const [FIRST, SECOND] = [202, 210];
