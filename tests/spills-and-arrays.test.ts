import { describe, expect, test } from "vitest";
import { writeWorkbook } from "../src/recalculate/stored-form";
import { Workbook } from "../src/recalculate/workbook";
import { bundledFunctions } from "./support/functions";
import { place } from "./support/workbooks";

/** What a formula in A3 gives, and the sum of what it filled, beside 1, -2, 3, -4 in H1:H4 and in the table T. */
async function results(formula: string): Promise<unknown[]> {
  const workbook = new Workbook();
  const sheet = workbook.addWorksheet("S");
  [1, -2, 3, -4].forEach((value, index) => (sheet.getCell(`H${index + 1}`).value = value));
  sheet.addTable({
    name: "T",
    ref: "D1",
    headerRow: true,
    columns: [{ name: "x" }, { name: "y" }],
    rows: [1, -2, 3, -4].map((value) => [value, 1]),
  });
  workbook.addWorksheet("Other");
  sheet.getCell("A3").value = { formula };
  sheet.getCell("K9").value = { formula: "SUM(A3:A6)" };
  const { filled } = await writeWorkbook(workbook, place("arrays.xlsx"), bundledFunctions());
  return filled.map(({ values }) => values.map(([value]) => value));
}

describe("a formula that spills from beside its own source", () => {
  // An old formula in row 3 would take the third row of the range; one that spills has the first there.
  test.each(["H1:H4", "S!H1:H4", "T[x]", "T[x]*1", "H1:H4/T[y]"])(
    "%s starts with the first value for its readers",
    async (formula) => {
      expect(await results(formula)).toEqual([[1, -2, 3, -4], [-2]]);
    },
  );
});

describe("a formula that reads a whole spill spills itself", () => {
  test.each([
    ["A1#", [1, 2, 3]],
    ["S!A1#", [1, 2, 3]],
    ["A1#/S!A1#", [1, 1, 1]],
    ["A1#/2", [0.5, 1, 1.5]],
  ])("%s", async (formula, expected) => {
    const workbook = new Workbook();
    const sheet = workbook.addWorksheet("S");
    sheet.getCell("A1").value = { formula: "SEQUENCE(3)" };
    sheet.getCell("C1").value = { formula };
    const { filled } = await writeWorkbook(workbook, place("whole-spill.xlsx"), bundledFunctions());
    expect(filled.find(({ cell }) => cell === "C1")?.values.flat()).toEqual(expected);
  });
});

describe("functions of one value, over a range", () => {
  test.each([
    ["ABS(H1:H4)", [1, 2, 3, 4]],
    ["SIGN(T[x])", [1, -1, 1, -1]],
    ["INT(H1:H4/2)", [0, -1, 1, -2]],
    ["SQRT(H1:H4*H1:H4)", [1, 2, 3, 4]],
    ["SUMPRODUCT(--(ABS(H1:H4)>2))", [2]],
    ["SUM(ABS(H1:H4))", [10]],
    ["SUMPRODUCT(--ISNUMBER(H1:H5))", [4]],
    ["SUMPRODUCT(--ISBLANK(H1:H6))", [2]],
  ])("%s looks at every cell", async (formula, expected) => {
    expect((await results(formula))[0]).toEqual(expected);
  });
});
