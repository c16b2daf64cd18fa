import { describe, expect, test } from "vitest";
import { CellError, type Implementation } from "../../src/guide/page/values";
import { readQuestion } from "../../src/pane/answer";
import { readReferences, readSelection } from "../../src/pane/sheet";
import { excelWith, type Book } from "../support/excel";
import { bundledFunctions } from "../support/functions";

const functions = bundledFunctions() as unknown as ReadonlyMap<string, Implementation>;

const BOOK: Book = {
  sheets: {
    Lots: {
      A1: "Nm",
      A2: 24,
      A3: "#DIV/0!",
      A4: 30,
      B1: "tex",
      B2: ['=YARN.COUNT(A2:A5,"Nm","tex")', 41.6666666666667],
      B3: "#DIV/0!",
      B4: 33.3333333333333,
      B5: "#VALUE!",
      D1: "lot",
      D2: "L1",
      D3: "L2",
      E1: "count, Nm",
      E2: 20,
      E3: -1,
      F1: "tex",
      F2: ['=YARN.COUNT([@[count, Nm]],"Nm","tex")', 50],
      F3: ['=YARN.COUNT([@[count, Nm]],"Nm","tex")', "#VALUE!"],
      H4: 7,
    },
    "Bob's sheet": { A1: 50, A2: ['=_xldudf_YARN_COUNT(A1,"Nm","tex")', "#NAME?"] },
  },
  spills: { "Lots!B2": "Lots!B2:B5" },
  names: { Fine: "Lots!$A$4", "Bob's sheet!Local": "Bob's sheet!A1" },
  tables: { Orders: { headings: "Lots!D1:F1", rows: 2 } },
  selected: "Lots!B2",
};

/** Reads the selection and works its formulas out, as the pane does. */
async function answersIn(book: Book) {
  const excel = excelWith(book);
  Object.assign(globalThis, excel.globals);
  return Excel.run(async (context) => {
    const selection = await readSelection(context);
    const answers = [];
    for (const cell of selection.formulas) {
      const question = readQuestion(cell.formula);
      const found = await readReferences(
        context,
        question.references.map((text) => ({ text, from: cell })),
      );
      answers.push(
        question.answer(new Map(question.references.map((text, i) => [text, found[i] as never])), functions),
      );
    }
    return { selection, answers, exchanges: excel.state.exchanges };
  });
}

/** One formula in the sheet Lots. */
async function worth(formula: string, book: Partial<Book> = {}) {
  const sheets = { ...BOOK.sheets, Lots: { ...BOOK.sheets.Lots, Z9: [formula, 0] as const } };
  const { answers } = await answersIn({ ...BOOK, ...book, sheets, selected: "Lots!Z9" });
  return (answers[0]?.rows ?? []).map((row) =>
    row.map((one) => (one instanceof CellError ? `${one.code} ${one.message}` : one)),
  );
}

describe("the selected formula", () => {
  test("is worked out on the cells that it names, and an error in one row stays there with its reason", async () => {
    const { selection, answers } = await answersIn(BOOK);
    expect(selection).toMatchObject({ address: "Lots!B2", tooLarge: false });
    const [[good], [bad], [other], [blank]] = answers[0]?.rows as [[number], [CellError], [number], [unknown]];
    // 1000 / Nm is the definition of tex from metric counts.
    expect([good, other]).toEqual([1000 / 24, 1000 / 30]);
    expect(bad.code).toBe("#DIV/0!");
    expect(blank).not.toBeInstanceOf(Number);
    expect(answers[0]?.calls[0]).toMatchObject({
      id: "COUNT",
      given: [{ written: "A2:A5" }, { written: '"Nm"' }, { written: '"tex"' }],
    });
  });

  test("is that of the cell it spills from", async () => {
    const { selection, answers } = await answersIn({ ...BOOK, selected: "Lots!B4" });
    expect(selection.spilledFrom).toBe("Lots!B2");
    expect(answers).toHaveLength(1);
  });

  test("is found without spills where Excel is too old to tell them", async () => {
    const { selection } = await answersIn({ ...BOOK, selected: "Lots!B4", api: "1.4" });
    expect(selection).toEqual({ address: "Lots!B4", formulas: [], tooLarge: false });
  });

  test("a column of them is read in few exchanges, each row by itself", async () => {
    const { answers, exchanges } = await answersIn({ ...BOOK, selected: "Lots!F2:F3" });
    expect(answers.map(({ rows }) => rows[0]?.[0])).toEqual([50, expect.objectContaining({ code: "#VALUE!" })]);
    expect((answers[1]?.rows[0]?.[0] as CellError).message).toMatch(/value/);
    expect(exchanges).toBeLessThan(10);
  });

  test("works where the call is dead", async () => {
    const { answers } = await answersIn({ ...BOOK, selected: "Bob's sheet!A2" });
    expect(answers[0]?.rows).toEqual([[20]]);
  });

  test("around which stands a function that the pane does not know is told apart from an error", async () => {
    const formula = '=MAX(YARN.COUNT(A2,"Nm","tex"),LARGE(A2:A4,1))';
    const sheets = { ...BOOK.sheets, Lots: { ...BOOK.sheets.Lots, Z9: [formula, 50] as const } };
    const { answers } = await answersIn({ ...BOOK, sheets, selected: "Lots!Z9" });
    expect(answers[0]?.unknown).toEqual(["MAX", "LARGE"]);
    expect(answers[0]?.calls.map(({ id, rows }) => [id, rows])).toEqual([["COUNT", [[1000 / 24]]]]);
  });

  test("nothing is read of a selection too large to look through", async () => {
    const { selection } = await answersIn({ ...BOOK, selected: "Lots!A:C" });
    expect(selection).toMatchObject({ tooLarge: true, formulas: [] });
  });
});

describe("references", () => {
  test.each([
    ['=YARN.COUNT(Fine,"Nm","tex")', [[1000 / 30]]],
    ["='Bob''s sheet'!A1", [[50]]],
    ["='Bob''s sheet'!Local", [[50]]],
    [
      "=B2#",
      [[1000 / 24], ["#DIV/0! "], [1000 / 30], ["#VALUE! "]].map(([v]) => [
        typeof v === "number" ? expect.closeTo(v, 9) : v,
      ]),
    ],
    ["=Orders[lot]", [["L1"], ["L2"]]],
    ["=Orders[[#Headers],[count, Nm]]", [["count, Nm"]]],
    ["=SUM(Orders[[count, Nm]:[tex]])", [["#VALUE! "]]],
    ["=SUM(Orders[count, Nm])", [[19]]],
    ["=SUM(H:H)", [[7]]],
    ["=INDEX(H:H,4)", [[7]]],
    [
      "=Orders",
      [
        ["L1", 20, 50],
        ["L2", -1, "#VALUE! "],
      ],
    ],
  ])("%s", async (formula, rows) => expect(await worth(formula)).toEqual(rows));

  test.each([
    ["=Nowhere", {}, /neither a name nor a table/],
    ["=Gone!A1", {}, /doesn't exist/],
    ["=Orders[none]", {}, /doesn't exist/],
    ["=[@lot]", {}, /cannot be read/],
    ["=[@lot]", { api: "1.4" }, /does not tell the pane which table/],
    ["=B2#", { api: "1.4" }, /how far/],
    ["=SUM(A1:Z99999)", {}, /2599974 cells; the pane reads up to 200000/],
    ["=VLOOKUP(1,A1:B2,2)", {}, /not VLOOKUP/],
    ["=1+", {}, /cannot read this formula/],
    ["=@A1:A4", {}, /one cell of an area/],
  ])("%s that cannot be looked up say why", async (formula, book, why) => {
    expect(JSON.stringify(await worth(formula, book as Partial<Book>))).toMatch(why);
  });

  test("one that is refused costs none of the others", async () => {
    expect(await worth('=IFERROR(Nowhere,0)+YARN.COUNT(A4,"Nm","tex")')).toEqual([[1000 / 30]]);
  });

  test("what is left out arrives as nothing, and so does a blank cell", async () => {
    expect(JSON.stringify(await worth('=YARN.COUNT(H1,"Nm","tex")'))).toMatch(/value/);
    expect(await worth('=YARN.PLYCOUNT(34,2,"tex",)')).toEqual([[68]]);
  });
});

describe("native functions around ours, as Microsoft documents them", () => {
  test.each([
    ["=IF(A2>20,1,2)", [[1]]],
    ["=IF(A2>30,1)", [[false]]],
    ["=IF({1;0},A2,A4)", [[24], [30]]],
    ["=IFERROR(A3,9)", [[9]]],
    ["=IFERROR(B2:B5,0)", [[expect.closeTo(1000 / 24, 9)], [0], [expect.closeTo(1000 / 30, 9)], [0]]],
    ['=IFNA(YARN.REGAIN("unobtainium"),1)', [[1]]],
    ["=IFNA(A3,1)", [["#DIV/0! "]]],
  ])("%s", async (formula, rows) => expect(await worth(formula)).toEqual(rows));
});
