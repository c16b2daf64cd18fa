import { describe, expect, test } from "vitest";
import { argumentText, formulaText, putIn, type Placing } from "../../src/pane/formula-writing";
import { proposedHeading } from "../../src/pane/headings";
import { revive, takeCensus } from "../../src/pane/workbook";
import { excelWith, type Book } from "../support/excel";

const BOOK: Book = {
  sheets: {
    Lots: {
      A1: 24,
      B1: ['=YARN.COUNT(A1,"Nm","tex")', 41.6666666666667],
      B2: ['=_xldudf_YARN_COUNT(A1,"Nm","tex")', "#NAME?"],
      B3: ['=[2]!_xldudf_YARN_COUNT(A1,"Nm","tex")*2', "#NAME?"],
      B4: ['=YARN.COUNT(A1,"Nm","tex")+1', "#NAME?"],
      B5: ["=YARN.VERSION()", "0.0.9"],
      B6: ['="YARN.COUNT("&A1', "YARN.COUNT(24"],
      B7: ["=NOSUCH(A1)", "#NAME?"],
      C9: "in the way",
    },
    Locked: { D4: ['=_xldudf_YARN_COUNT(1,"Nm","tex")', "#NAME?"] },
    Empty: {},
  },
  selected: "Lots!A1",
  gives: { '=YARN.COUNT(A1,"Nm","tex")': 41.6666666666667, '=YARN.COUNT(A1,"Nm","tex")*2': 83.3333333333333 },
};

function open(book: Partial<Book> = {}) {
  const excel = excelWith({ ...BOOK, ...book });
  Object.assign(globalThis, excel.globals);
  return excel;
}

describe("the census of a workbook", () => {
  test.each(["1.16", "1.1"])("tells live and dead calls apart and writes nothing (ExcelApi %s)", async (api) => {
    const excel = open({ api });
    const { live, dead, loaded, unread } = await Excel.run(takeCensus);
    expect([live, loaded, unread]).toEqual([2, ["0.0.9"], []]);
    expect(dead.map(({ sheet, row, column, typed }) => [sheet, row, column, typed])).toEqual([
      ["Lots", 1, 1, '=YARN.COUNT(A1,"Nm","tex")'],
      ["Lots", 2, 1, '=YARN.COUNT(A1,"Nm","tex")*2'],
      ["Lots", 3, 1, '=YARN.COUNT(A1,"Nm","tex")+1'],
      ["Locked", 3, 3, '=YARN.COUNT(1,"Nm","tex")'],
    ]);
    expect(excel.state.writes).toEqual([]);
  });

  test("takes a long sheet in blocks", async () => {
    const cells = Object.fromEntries(
      Array.from({ length: 45_000 }, (_, row) => [`A${row + 1}`, row === 44_999 ? (["=YARN.X(1)", 1] as const) : row]),
    );
    const excel = open({ sheets: { Long: cells } });
    expect((await Excel.run(takeCensus)).live).toBe(1);
    expect(excel.state.exchanges).toBeGreaterThan(4);
  });
});

describe("entering dead calls again", () => {
  test("touches those cells and no others, and counts what lives", async () => {
    const excel = open();
    const result = await Excel.run(async (context) => revive(context, (await takeCensus(context)).dead));
    expect(result).toEqual({ entered: 4, alive: 2, refused: [] });
    expect(excel.state.writes).toHaveLength(4);
    expect(excel.cell("Lots!B3")).toEqual({ formula: '=YARN.COUNT(A1,"Nm","tex")*2', value: 83.3333333333333 });
    expect(excel.cell("Lots!B7")?.formula).toBe("=NOSUCH(A1)");
  });

  test("says where Excel refuses, and does the rest", async () => {
    open({ isProtected: ["Locked"] });
    const { entered, refused } = await Excel.run(async (context) => revive(context, (await takeCensus(context)).dead));
    expect(entered).toBe(3);
    expect(refused).toEqual([expect.stringMatching(/^Locked!D4: .*protected sheet/)]);
  });
});

describe("an argument as it is filled in", () => {
  test.each([
    ["24", "24"],
    ["18.25%", "18.25%"],
    ["-3", "-3"],
    ["A2:A9", "A2:A9"],
    ["'Bob''s lots'!B2", "'Bob''s lots'!B2"],
    ["Lots[count]", "Lots[count]"],
    ["[@count]", "[@count]"],
    ["A2#", "A2#"],
    ["TRUE", "TRUE"],
    ["{1;2}", "{1;2}"],
    ['"Nm"', '"Nm"'],
    ["=A1*2", "A1*2"],
    ["SUM(A1:A3)", "SUM(A1:A3)"],
    ["Nm", '"Nm"'],
    ["metric", '"metric"'],
    ['5" reel', '"5"" reel"'],
    ["tex tpm", '"tex tpm"'],
    ["  ", ""],
  ])("%s", (filled, text) => expect(argumentText(filled)).toBe(text));

  test("optional arguments at the end are left out, others keep their place", () => {
    expect(formulaText("PLYCOUNT", ["34", "2", "", ""])).toBe("=YARN.PLYCOUNT(34,2)");
    expect(formulaText("PLYCOUNT", ["34", "", "tex"])).toBe('=YARN.PLYCOUNT(34,,"tex")');
    expect(formulaText("VERSION", [])).toBe("=YARN.VERSION()");
  });
});

test("a heading names the thing and the unit that was chosen", () => {
  const parameters = [
    { name: "value", optional: false, description: "" },
    { name: "to", optional: false, description: "", words: ["tex"] },
  ];
  const returns = 'Count in the system "to", in the shape of the arguments.';
  expect(proposedHeading({ returns, parameters }, ["A2:A9", "tex"])).toBe("Count, tex");
  expect(proposedHeading({ returns, parameters }, ["A2:A9", "B1"])).toBe("Count");
  expect(proposedHeading({ returns, parameters }, ["", ""])).toBe("Count");
});

describe("putting a formula in", () => {
  const placing: Placing = {
    sheet: "Lots",
    row: 8,
    column: 1,
    formula: '=YARN.COUNT(A1,"Nm","tex")',
    heading: "Count, tex",
    version: "0.1.0",
    replacing: false,
  };

  test("writes the cell and the heading above it", async () => {
    const excel = open();
    expect(await Excel.run((context) => putIn(context, placing))).toEqual({ shown: "41.6666666666667" });
    expect(excel.state.writes).toEqual(['Lots!B9 =YARN.COUNT(A1,"Nm","tex")', "Lots!B8 Count, tex"]);
    expect(Object.fromEntries(excel.properties)).toEqual({ "YARN version": "0.1.0" });
  });

  test("writes nothing over what is there until that is said", async () => {
    const excel = open();
    const taken = { ...placing, column: 2 };
    expect(await Excel.run((context) => putIn(context, taken))).toEqual({ inTheWay: "Not empty: Lots!C9." });
    expect(excel.state.writes).toEqual([]);
    await Excel.run((context) => putIn(context, { ...taken, replacing: true }));
    expect(excel.cell("Lots!C9")?.value).toBe(41.6666666666667);
  });

  test("a heading that looks like a formula stays a text, and the first row has none above", async () => {
    const excel = open();
    await Excel.run((context) => putIn(context, { ...placing, heading: "=1+1" }));
    expect(excel.cell("Lots!B8")?.formula).toBe("'=1+1");
    await Excel.run((context) => putIn(context, { ...placing, row: 0, column: 5 }));
    expect(excel.state.writes).toHaveLength(3);
  });

  test("notes the version once a book, and only where Excel keeps such notes", async () => {
    const noted = open({ properties: { "YARN version": "0.0.1" } });
    await Excel.run((context) => putIn(context, placing));
    expect(noted.properties.get("YARN version")).toBe("0.0.1");
    const old = open({ api: "1.6" });
    await Excel.run((context) => putIn(context, placing));
    expect(old.properties.size).toBe(0);
  });

  test("hands on what Excel refuses", async () => {
    open({ isProtected: ["Lots"] });
    await expect(Excel.run((context) => putIn(context, placing))).rejects.toMatchObject({ code: "AccessDenied" });
  });
});
