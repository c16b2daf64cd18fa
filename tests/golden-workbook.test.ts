import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { calculated, formulasOf, type Result } from "../src/recalculate/calculation";
import { valueIn } from "../src/recalculate/stored-text";
import { writeWorkbook } from "../src/recalculate/stored-form";
import { CellError, rowsOf, type Outcome } from "../src/recalculate/values";
import { Workbook } from "../src/recalculate/workbook";
import { expectCase, goldenCases } from "./support/cases";
import { bundledFunctions } from "./support/functions";

/** The published cases once more, as cells of a workbook that is written, opened again and recalculated. */
const cases = goldenCases();
const file = join(mkdtempSync(join(tmpdir(), "golden-")), "cases.xlsx");

const workbook = new Workbook();
// A sheet to each case: what it spills meets nothing.
cases.forEach(({ formula }, index) => {
  workbook.addWorksheet(`Case ${index + 1}`).getCell("B2").value = { formula: formula.replace(/^=/, "") };
});
await writeWorkbook(workbook, file, bundledFunctions());

const book = openBook(readFileSync(file), "cases.xlsx");
const formulas = formulasOf(book);
const results = new Map<string, Result>(
  calculated(book, formulas, bundledFunctions()).map((result) => [result.formula.sheet.name, result]),
);

/** What the file itself shows in the cells of a formula. */
function savedIn({ formula: { sheet, cell }, outcome }: Result): Outcome {
  const rows = rowsOf(outcome).map((row, down) =>
    row.map((_, along) => {
      const shown = sheet.part.find(cell.row + down, cell.column + along);
      return shown ? valueIn(shown.value, book.shared) : null;
    }),
  );
  return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? null) : rows;
}

describe("published cases in a workbook", () => {
  test("every case has its cell", () => expect(results.size).toBe(cases.length));

  cases.forEach((golden, index) => {
    test(`${golden.id} (${golden.source})`, () => {
      const result = results.get(`Case ${index + 1}`) as Result;
      expectCase(result.outcome, golden);
      expectCase(savedIn(result), golden);
    });
  });

  test("with no function registered none of our cells keeps its value", () => {
    const without = calculated(book, formulas, new Map()).filter(({ formula }) => formula.calls);
    expect(without.length).toBeGreaterThan(0);
    for (const { outcome } of without) expect(outcome).toEqual(expect.any(CellError));
    for (const { outcome } of without) expect((outcome as CellError).code).toBe("#NAME?");
  });
});
