import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { asTyped, isDead, moved, withOursStored } from "../src/recalculate/formula-text";
import { asExcelStores, needsArray } from "../src/recalculate/future-functions";
import { openBook } from "../src/recalculate/book";
import { isCalculated, settleWorkbook, writeWorkbook } from "../src/recalculate/stored-form";
import { Workbook } from "../src/recalculate/workbook";
import { bundledFunctions } from "./support/functions";
import { partsOf, place, rows, textsOf, written } from "./support/workbooks";

/** Formulas as a script types them, beside some figures, a table and a name. */
async function sample(file: string) {
  const workbook = new Workbook();
  const inputs = workbook.addWorksheet("In");
  ["count, NeC", 10, 20, 30].forEach((value, index) => (inputs.getCell(index + 1, 1).value = value));
  inputs.addTable({
    name: "Lots",
    ref: "H1",
    headerRow: true,
    totalsRow: false,
    columns: [{ name: "count, NeC" }, { name: "NeW" }],
    rows: [10, 20].map((count) => [count, { formula: 'YARN.COUNT([@[count, NeC]],"NeC","NeW")' }]),
  });
  workbook.definedNames.add("In!$A$2:$A$4", "counts");
  const sheet = workbook.addWorksheet("Calc & <more>");
  Object.entries(formulas).forEach(([address, formula]) => (sheet.getCell(address).value = { formula }));
  return writeWorkbook(workbook, file, bundledFunctions());
}

const formulas = {
  A1: 'YARN.COUNT(In!A2:A4,"NeC","NeW")',
  B1: "SUM(A1#)",
  B2: "A3*2",
  C1: "FILTER(A1#,A1#>15)",
  D1: 'LET(x,YARN.COUNT(10,"NeC","NeW"),twice,LAMBDA(a,a*2),twice(x))',
  D2: 'IFERROR(YARN.COUNT(-1,"NeC","NeW"),"a <&> ""b""")',
  D3: 'YARN.COUNT({10;-1},"NeC","NeW")',
  E1: "SUM(Lots[NeW])",
  E2: "counts*2",
  F1: 'TRANSPOSE(YARN.COUNT(counts,"NeC","NeW"))',
  F2: "ROUND(1.005,2)",
  F3: "1=1",
};

const file = place("stored.xlsx");
const { errors } = await sample(file);
const parts = textsOf(file);
const sheet = parts["xl/worksheets/sheet2.xml"] as string;

function cell(address: string): string {
  return new RegExp(`<c r="${address}"[^>]*?(?:/>|>.*?</c>)`).exec(sheet)?.[0] ?? "";
}

describe("a written workbook is as Excel stores it", () => {
  test("a call of ours is a dynamic array over its whole spill, with a value in every cell", () => {
    expect(cell("A1")).toBe(
      '<c r="A1" cm="1"><f t="array" ref="A1:A3">_xldudf_YARN_COUNT(In!A2:A4,&quot;NeC&quot;,&quot;NeW&quot;)</f><v>15</v></c>',
    );
    expect([cell("A2"), cell("A3")]).toEqual(['<c r="A2"><v>30</v></c>', '<c r="A3"><v>45</v></c>']);
    expect(cell("F1")).toContain('ref="F1:H1"');
    expect([cell("G1"), cell("H1")]).toEqual(['<c r="G1"><v>30</v></c>', '<c r="H1"><v>45</v></c>']);
  });

  test("functions younger than the format have their prefixes and the names inside theirs", () => {
    expect(cell("C1")).toContain(
      '<c r="C1" cm="1"><f t="array" ref="C1:C2">_xlfn._xlws.FILTER(_xlfn.ANCHORARRAY(A1),_xlfn.ANCHORARRAY(A1)&gt;15)</f><v>30</v>',
    );
    expect(cell("D1")).toContain(
      "_xlfn.LET(_xlpm.x,_xldudf_YARN_COUNT(10,&quot;NeC&quot;,&quot;NeW&quot;),_xlpm.twice,_xlfn.LAMBDA(_xlpm.a,_xlpm.a*2),_xlpm.twice(_xlpm.x))</f><v>30</v>",
    );
  });

  test("ordinary formulas stay ordinary, also when they read a spill", () => {
    expect(cell("B1")).toBe('<c r="B1"><f>SUM(_xlfn.ANCHORARRAY(A1))</f><v>90</v></c>');
    expect(cell("B2")).toBe('<c r="B2"><f>A3*2</f><v>90</v></c>');
    expect(cell("E1")).toBe('<c r="E1"><f>SUM(Lots[NeW])</f><v>45</v></c>');
    expect(cell("F2")).toBe('<c r="F2"><f>ROUND(1.005,2)</f><v>1.01</v></c>');
    expect(cell("F3")).toBe('<c r="F3" t="b"><f>1=1</f><v>1</v></c>');
  });

  test("a formula that works on a range cell by cell is a dynamic array", () => {
    expect(cell("E2")).toBe('<c r="E2" cm="1"><f t="array" ref="E2:E4">counts*2</f><v>20</v></c>');
  });

  test("text and errors have their types", () => {
    expect(cell("D2")).toMatch(/^<c r="D2" cm="1" t="str">.*<v>a &lt;&amp;&gt; &quot;b&quot;<\/v><\/c>$/);
    expect(cell("D4")).toBe('<c r="D4" t="e"><v>#VALUE!</v></c>');
    expect(errors.map(({ cell: at }) => at)).toEqual(["D3"]);
  });

  test("a table's row is named in full", () => {
    expect(parts["xl/worksheets/sheet1.xml"]).toContain(
      '<f t="array" ref="I2">_xldudf_YARN_COUNT(Lots[[#This Row],[count, NeC]],&quot;NeC&quot;,&quot;NeW&quot;)</f><v>15</v>',
    );
  });

  test("the metadata part says dynamic array and is tied in; nothing asks to calculate on opening", () => {
    const metadata = parts["xl/metadata.xml"] as string;
    expect(metadata).toContain('<metadataType name="XLDAPR" minSupportedVersion="120000"');
    expect(metadata).toContain('fDynamic="1" fCollapsed="0"');
    expect(metadata).toContain("{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}");
    expect(metadata).toContain('<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata>');
    expect(parts["[Content_Types].xml"]).toMatch(/PartName="\/xl\/metadata.xml" ContentType="[^"]*sheetMetadata\+xml"/);
    expect(parts["xl/_rels/workbook.xml.rels"]).toMatch(/relationships\/sheetMetadata" Target="metadata.xml"/);
    expect(parts["xl/workbook.xml"]).toContain('<calcPr calcId="191029"/>');
    expect(Object.keys(parts).join()).not.toContain("calcChain");
    for (const text of Object.values(parts)) expect(text).not.toMatch(/<f[^>]*>[^<]*YARN\./);
  });

  test("the same workbook gives the same bytes", async () => {
    await sample(place("again.xlsx"));
    expect(readFileSync(place("again.xlsx")).equals(readFileSync(file))).toBe(true);
  });

  test("a function that cannot be worked out here is reported", async () => {
    const workbook = new Workbook();
    workbook.addWorksheet("S").getCell("A1").value = { formula: 'CONVERT(1,"lbm","g")' };
    const written = await writeWorkbook(workbook, place("lacking.xlsx"), bundledFunctions());
    expect(written.errors).toMatchObject([
      { cell: "A1", code: "#NAME?", message: "CONVERT cannot be worked out here" },
    ]);
  });

  test("a spill that meets a filled cell or a table is an error, and reported", async () => {
    const workbook = new Workbook();
    const only = workbook.addWorksheet("S");
    only.getCell("A1").value = { formula: 'YARN.COUNT({10;20},"NeC","NeW")' };
    only.getCell("A2").value = "in the way";
    const written = await writeWorkbook(workbook, place("spill.xlsx"), bundledFunctions());
    expect(written.errors).toMatchObject([{ sheet: "S", cell: "A1", code: "#SPILL!" }]);
    expect(textsOf(place("spill.xlsx"))["xl/worksheets/sheet1.xml"]).toMatch(/ref="A1">.*<v>#VALUE!<\/v>/);
  });
});

describe("the program that calculated last", () => {
  // ECMA-376 part 1, 18.2.2 and the sequence of CT_Workbook: calcPr after definedNames, before anything else.
  const names = '<definedNames><definedName name="Counts">S!$A$1</definedName></definedNames>';
  const settled = (change: (workbook: string) => string, around = "") => {
    const before = partsOf({ S: rows([1]) }, around);
    const file = written("calculated-by.xlsx", { ...before, "xl/workbook.xml": change(before["xl/workbook.xml"]!) });
    const book = openBook(readFileSync(file), file);
    settleWorkbook(book, isCalculated);
    return new TextDecoder().decode(book.parts.get("xl/workbook.xml"));
  };
  const without = (workbook: string) => workbook.replace(/<calcPr[^>]*>/, "");
  const prefixed = (workbook: string) =>
    without(workbook)
      .replace(/<(\/?)(workbook|sheets?)\b/g, "<$1x:$2")
      .replace("xmlns=", "xmlns:x=");

  test.each([
    [
      "an older one",
      (workbook: string) => workbook.replace("191029", "124519"),
      "",
      '</sheets><calcPr calcId="191029"/>',
    ],
    ["a younger one stays", (workbook: string) => workbook.replace("191029", "999999"), "", 'calcId="999999"'],
    ["none, no names", without, "", '</sheets><calcPr calcId="191029"/></workbook>'],
    ["none, with names", without, names, '</definedNames><calcPr calcId="191029"/></workbook>'],
    ["none, prefixed", prefixed, "", '</x:sheets><x:calcPr calcId="191029"/></x:workbook>'],
  ])("%s", (_, change, around, wanted) => expect(settled(change, around)).toContain(wanted));

  test("what else the book says of its calculation stays", () =>
    expect(settled((workbook) => workbook.replace("<calcPr ", '<calcPr iterate="1" iterateDelta="0.01" '))).toContain(
      'iterate="1" iterateDelta="0.01"',
    ));
});

describe("formulas as text", () => {
  const stored = (typed: string, spills = true) =>
    asExcelStores({ stored: typed, spills, sheet: { tables: [] } as never, cell: { row: 1, column: 1 } as never });

  test("nothing inside quotes is a call", () => {
    expect(withOursStored('"YARN.COUNT("&YARN.COUNT(1)')).toBe('"YARN.COUNT("&_xldudf_YARN_COUNT(1)');
    expect(isDead('"YARN.COUNT(1)"')).toBe(false);
    expect(stored('"FILTER("&LEN("x")')).toBe('"FILTER("&LEN("x")');
  });

  test("typed and stored forms lead to each other", () => {
    for (const typed of [
      'YARN.COUNT(A1,"Nm","tex")',
      "LET(x,1,x+1)",
      'SUM(STDEV.S(A1:A9),TEXTJOIN(",",TRUE,B1))',
      "'My sheet'!A1+SORT(A1:A3)",
    ]) {
      expect(asTyped(stored(typed))).toBe(typed);
      expect(stored(stored(typed))).toBe(stored(typed));
    }
  });

  test("damaged calls are recognised and repaired", () => {
    expect(isDead("[2]!_xldudf_YARN_COUNT(A1)")).toBe(true);
    expect(isDead("_xldudf_YARN_COUNT(A1)")).toBe(false);
    expect(withOursStored("1+[2]!_xldudf_YARN_COUNT(A1)")).toBe("1+_xldudf_YARN_COUNT(A1)");
  });

  test("@ is said in a dynamic array and left unsaid elsewhere", () => {
    expect(stored("@A1:A3*2")).toBe("_xlfn.SINGLE(A1:A3)*2");
    expect(stored("@A1:A3*2", false)).toBe("A1:A3*2");
  });

  test("a formula moves with its cell", () => {
    expect(moved('A1+$B$2+C$3+$D4+Sheet1!E5+"A1"+LOG10(A1)+SUM(A:B,1:2)', 1, 2)).toBe(
      'C2+$B$2+E$3+$D5+Sheet1!G6+"A1"+LOG10(C2)+SUM(C:D,2:3)',
    );
  });

  test("which formulas must be dynamic arrays", () => {
    for (const typed of ["A1:A3*2", "SUM(1/B1:B3)", "SUM(ABS(A1:A3))", "UNIQUE(A1:A3)", "Lots[a]*2", "{1;2}", "A1:A3"])
      expect(needsArray(typed), typed).toBe(true);
    for (const typed of ["SUM(A1:A3)", "A1*2", "SUM(A1:A3)*2", "Lots[[#This Row],[a]]*2", '"A1:A3*2"', "SUM(Lots[a])"])
      expect(needsArray(typed), typed).toBe(false);
  });
});
