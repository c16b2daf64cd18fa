import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openBook, type Book } from "../../src/recalculate/book";
import { cellsIn, formulasOf, spilledCells } from "../../src/recalculate/calculation";
import { put } from "../../src/recalculate/dynamic-arrays";
import { makeMended } from "../../src/recalculate/mended-copy";
import { packed } from "../../src/recalculate/packing";
import { recalculate } from "../../src/recalculate/recalculation";
import { valueIn } from "../../src/recalculate/stored-text";
import { CellError, type Value } from "../../src/recalculate/values";
import { lookedAt, WHOLE } from "../support/random-cases";
import {
  calcMissing,
  inCalc,
  INSTALL,
  type CalcBook,
  type CalcCell,
  type CalcSheet,
  type Printed,
  type Step,
} from "./support";

/**
 * The sample workbooks worked out by LibreOffice Calc, an independent spreadsheet program, with the extension: what
 * stands in the books was worked out by another engine (the one of src/recalculate).
 */

const books = readdirSync("sample-workbooks").filter((file) => file.endsWith(".xlsx") && !file.startsWith("~"));
const folder = mkdtempSync(join(tmpdir(), "calc-books-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Calls that may differ in a book that Calc saved, and why. */
const TIPPED: readonly (readonly [call: string, why: string])[] = [
  [
    "YARN.LAYDOWN(",
    "Calc saves 15 digits of what the call reads, and a tie between two steps of the scale falls the other way",
  ],
];

/** Those that Calc saves, too; one of them in its own form. */
const NATIVE = "starter.xlsx";
const kept = lookedAt(books, (name) => (name === NATIVE ? name : "a book"));

/** A book is for A4; another paper lays every sheet of it out anew, which takes as long again. */
const PAPERS = WHOLE ? ["A4", "Letter"] : ["A4"];
const ORDER = "spinners-order.xlsx";
const CARDS = new Map<string, readonly [sheet: string, cards: number]>([
  ["shade-and-recipe.xlsx", ["Weigh-up", 6]],
  ["order-to-landed-cost.xlsx", ["Cards", 6]],
  ["order-planner.xlsx", ["Cards", 6]],
]);
/** Those that are laid out on paper, which takes longer than working them out. */
const laidOut = lookedAt(books, (name) => (name === ORDER ? name : CARDS.has(name) ? "with cards" : "without"));

/** Calc's numbers of errors (formula/inc/formula/errorcodes.hxx). */
const ERRORS: Readonly<Record<number, string>> = {
  503: "#NUM!",
  519: "#VALUE!",
  521: "#NULL!",
  524: "#REF!",
  525: "#NAME?",
  532: "#DIV/0!",
  32767: "#N/A",
};

/** A copy for Calc in which no formula has a value. */
function emptied(name: string): string {
  const copy = join(folder, name);
  expect(
    makeMended({ file: join("sample-workbooks", name), called: name, out: copy, host: "calc" }),
  ).not.toHaveProperty("error");
  const book = openBook(readFileSync(copy), name);
  const formulas = formulasOf(book);
  for (const cell of spilledCells(formulas)) cell.writeOnly(undefined);
  for (const { cell } of formulas) cell.write(undefined);
  for (const { partName, part } of book.sheets) put(book.parts, partName, part.xml);
  writeFileSync(copy, packed(book.parts));
  return copy;
}

/** Every cell that a formula fills, with the value that the book has saved. */
function savedValues(book: Book): Map<string, Value> {
  const values = new Map<string, Value>();
  for (const { sheet, saved, cell } of formulasOf(book)) {
    for (const { address, value } of [cell, ...cellsIn(sheet.part, saved)])
      values.set(`${sheet.name}!${address}`, valueIn(value, book.shared));
  }
  return values;
}

function cellAt(sheets: Record<string, CalcSheet>, place: string): CalcCell {
  const [, sheet, letters, row] = /^(.*)!([A-Z]+)(\d+)$/.exec(place) as unknown as [string, string, string, string];
  const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return sheets[sheet]?.[Number(row) - 1]?.[column] ?? "";
}

function agrees(saved: Value, calc: CalcCell): boolean {
  if (saved instanceof CellError) return Array.isArray(calc) && ERRORS[calc[0]] === saved.code;
  if (typeof saved === "boolean") return calc === Number(saved);
  if (typeof saved === "number" && typeof calc === "number")
    return Math.abs(saved - calc) <= 1e-9 * Math.max(1, Math.abs(saved), Math.abs(calc));
  return (saved ?? "") === calc;
}

/** What Calc has in the cells that the book's formulas fill, where that is something else. */
function differences(name: string, sheets: Record<string, CalcSheet>): string[] {
  const saved = savedValues(openBook(readFileSync(join("sample-workbooks", name)), name));
  expect(saved.size).toBeGreaterThan(20);
  return [...saved].flatMap(([place, value]) => {
    const calc = cellAt(sheets, place);
    if (agrees(value, calc)) return [];
    return [`${place}: ${JSON.stringify(value)} in the book, ${JSON.stringify(calc)} in Calc`];
  });
}

const CALL = '"Nm";"tex"';
/** What a person meets in cells, and what each cell then shows. */
const MET: readonly (readonly [place: string, formula: string, shown: CalcCell])[] = [
  ["A1", "24", 24],
  ["A2", "-1", -1],
  ["A4", "30", 30],
  // 1000 / 24: tex is grams in 1,000 m, Nm is kilometres in a kilogram (ISO 1144).
  ["B1", `=YARN.COUNT(A1;${CALL})`, 1000 / 24],
  // A function within another, and its result in arithmetic, in a condition and in a text.
  ["B2", `=YARN.COUNT(YARN.COUNT(A1;${CALL});"tex";"Nm")*2`, 48],
  ["B3", `=IF(YARN.SHADEPASS({50;0;0};{60;0;0};1);"near";"far")`, "far"],
  ["B4", `=IF(YARN.SHADEPASS({50;0;0};{50;0;0};1);"near";"far")`, "near"],
  ["B5", `=LEN(YARN.COUNT(250;${CALL})&"")`, 1],
  // An error stands in its own cell and can be caught; its message is to be had.
  ["C1", `=YARN.COUNT(A2;${CALL})`, [519]],
  ["C2", `=IFERROR(YARN.COUNT(A2;${CALL});"caught")`, "caught"],
  ["C3", `=YARN.WHY("COUNT";A2;${CALL})`, "value is -1; must be a number above 0"],
  ["C4", `=YARN.WHY("yarn.count";A1;${CALL})`, ""],
  ["C5", '=YARN.WHY("CUONT";1)', "there is no function YARN.CUONT"],
  ["C6", "=YARN.WHY()", ""],
  ["C7", `=YARN.WHY("COUNT";A1:A4;${CALL})`, "row 2, column 1: value is -1; must be a number above 0"],
  // One bad row, and a blank one, in a column.
  ["D1:D4", `=YARN.COUNT(A1:A4;${CALL})`, 1000 / 24],
  ["E1", "=D2", [519]],
  ["E2", '=D3=""', 1],
  ["E3", "=D4", 1000 / 30],
  // What is left out in the middle or at the end is left out (skein of 0.1 kg: 0.3 / 0.1).
  ["F1", "=YARN.SKEINS(0.3;0.1)", 3],
  ["F2", "=YARN.SKEINS(0.3;0.1;;)", 3],
  ["F3", "=YARN.COUNT(24)", [519]],
  ["F4", '=YARN.WHY("COUNT";24;"Nm")', "to is blank; must be given"],
  // An error that a formula reads stops the call before it comes to us: nothing to be done about it from here.
  ["G1", `=YARN.COUNT(C1;${CALL})`, [519]],
];

describe.skipIf(calcMissing)("LibreOffice Calc with the extension", () => {
  const copyOf = (name: string, ending: string) => join(folder, `${basename(name, ".xlsx")}-saved${ending}`);
  const results = new Map<string, CalcBook>();
  let native: CalcBook;
  let met: CalcSheet[];
  let killed: { before: number; after: number }[];

  beforeAll(async () => {
    const formulas = MET.map(([place, formula]) => [place, formula] as const);
    const steps: Step[] = [
      INSTALL,
      ...books.map((name) => ({
        book: emptied(name),
        copy: kept.includes(name) ? copyOf(name, ".xlsx") : null,
        papers: laidOut.includes(name) ? PAPERS : [],
      })),
      { book: copyOf(NATIVE, ".xlsx"), copy: copyOf(NATIVE, ".ods"), papers: [] },
      { book: copyOf(NATIVE, ".ods"), copy: null, papers: [] },
      { formulas },
      { kill: "calculator" },
      { formulas },
      { kill: "program" },
    ];
    const told = await inCalc(steps);
    told.shift();
    for (const name of books) results.set(name, told.shift() as CalcBook);
    told.shift();
    const [ods, before, first, after, second] = told as [
      typeof native,
      CalcSheet,
      (typeof killed)[0],
      CalcSheet,
      (typeof killed)[0],
    ];
    native = ods;
    met = [before, after];
    killed = [first, second];
  }, 600_000);

  test.each(books)("%s: every cell agrees", (name) => {
    expect(differences(name, (results.get(name) as CalcBook).sheets)).toEqual([]);
  });

  test.each(kept)("%s as Calc saved it: recalc finds every call of ours as it should be", (name) => {
    const file = copyOf(name, ".xlsx");
    const { differences, cells, error } = recalculate({ file, called: name });
    const told = differences.filter(({ formula }) => !TIPPED.some(([call]) => formula.includes(call)));
    expect({ error, told }).toEqual({ told: [] });
    expect(cells).toBeGreaterThan(20);
  });

  /**
   * Calc puts the widest letters it has in the place of the book's own: a column that does not fit begins a page there,
   * if anywhere.
   */
  describe(`printed on ${PAPERS.join(" and ")}`, () => {
    const printed = (name: string): Printed[] => {
      const papers = (results.get(name) as CalcBook).printed;
      expect(Object.keys(papers)).toEqual(PAPERS);
      return Object.values(papers);
    };

    test.each(laidOut)("%s has no page for a stray column", (name) => {
      for (const { pages, sheets } of printed(name)) {
        const each = Object.entries(sheets);
        expect(each.filter(([, { across }]) => across.length > 0)).toEqual([]);
        // Every sheet is printed, and no page holds anything else.
        expect(pages).toBe(each.reduce((sum, [, { down }]) => sum + down.length + 1, 0));
        expect(sheets.About?.down).toEqual([]);
      }
    });

    test("the spinner's order is one page to sign", () => {
      for (const { sheets } of printed(ORDER)) expect(sheets["Order sheet"]).toEqual({ across: [], down: [] });
    });

    test.each(laidOut.filter((name) => CARDS.has(name)))("%s gives every weigh-up card a page of its own", (name) => {
      const [sheet, cards] = CARDS.get(name) as [string, number];
      for (const { sheets } of printed(name)) expect(sheets[sheet]?.down.length).toBeGreaterThanOrEqual(cards - 1);
    });
  });

  test("the calls stand in Calc's own files too", () => {
    expect(differences(NATIVE, native.sheets)).toEqual([]);
  });

  test("in cells: results, errors with their messages, blanks, what is left out", () => {
    const shown = (sheet: CalcSheet) => MET.map(([place]) => [place, cellAt({ S: sheet }, `S!${place.split(":")[0]}`)]);
    const wanted = MET.map(([place, , value]) => [place, typeof value === "number" ? expect.closeTo(value, 9) : value]);
    expect(shown(met[0] as CalcSheet)).toEqual(wanted);
  });

  test("the calculating process is started again when it has ended, and ends with the program", () => {
    expect(killed).toEqual([
      { before: 1, after: 0 },
      { before: 1, after: 0 },
    ]);
    expect(met[1]).toEqual(met[0]);
  });
});

describe.skipIf(calcMissing)("LibreOffice Calc with the extension and no Node of use", () => {
  const node = join(folder, "node");
  const formulas = [["A1", `=YARN.COUNT(24;${CALL})`] as const, ["A2", "=YARN.WHY()"] as const];
  let told: unknown[];

  beforeAll(async () => {
    const steps: Step[] = [
      INSTALL,
      { formulas },
      { book: emptied(NATIVE), copy: null, papers: [] },
      { program: node, text: `#!/bin/sh\necho '"v12.22.0"'\ncat >/dev/null\n` },
      // Looked for again in the same program, a little later.
      { formulas, until: "v12" },
    ];
    told = await inCalc(steps, { YARN_NODE: node });
  }, 120_000);

  test.each([
    ["there is none", 1, /need Node\.js 20\.19 or later, and .*node is no Node that starts/],
    ["it is too old", 4, /need Node\.js 20\.19 or later, and .*node is v12\.22\.0/],
  ] as const)("%s: an error, and why", (_, step, why) => {
    expect(told[step]).toEqual([[[519]], [expect.stringMatching(why)]]);
  });

  test("a book that agreed is full of differences", () => {
    expect(differences(NATIVE, (told[2] as CalcBook).sheets).length).toBeGreaterThan(10);
  });
});
