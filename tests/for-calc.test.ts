import { expect, test } from "vitest";
import type { Recalculated } from "../src/recalculate/recalculation";
import { command, partsOf, place, textsOf, written } from "./support/workbooks";

const SHEET = "xl/worksheets/sheet1.xml";

/** Figures, a call over two cells, one over one cell, a sum of the spill, and a call that works on a range. */
function forExcel(): string {
  const cell = (address: string, ref: string, formula: string, value: number | string) =>
    `<c r="${address}" cm="1"><f t="array" ref="${ref}">${formula}</f><v>${value}</v></c>`;
  const parts = partsOf(
    {
      S: `<row r="1"><c r="A1"><v>10</v></c>${cell("B1", "B1:B2", '_xldudf_YARN_COUNT(A1:A2,"NeC","NeW")', 15)}<c r="C1"><f>SUM(_xlfn.ANCHORARRAY(B1))</f><v>45</v></c>${cell("D1", "D1", '_xldudf_YARN_COUNT(A1,"NeC","NeW")', 15)}${cell("E1", "E1", 'SUM(_xldudf_YARN_COUNT(A1:A2*2,"NeC","NeW"))', 90)}</row><row r="2"><c r="A2"><v>20</v></c><c r="B2"><v>30</v></c></row>`,
    },
    '<definedNames><definedName name="Worsted">_xldudf_YARN_COUNT(S!$A$1,"NeC","NeW")</definedName></definedNames>',
  );
  parts["xl/metadata.xml"] =
    '<metadata><metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>';
  parts["xl/_rels/workbook.xml.rels"] = (parts["xl/_rels/workbook.xml.rels"] as string).replace(
    "</Relationships>",
    '<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
  );
  return written("for-excel.xlsx", parts);
}

test("mend for Calc writes plain names, array formulas where several cells are filled or worked on, areas for spills", async () => {
  const out = place("for-calc.xlsx");
  const { err, code } = await command("mend", forExcel(), out, "--for", "calc");
  expect({ err, code }).toEqual({ err: expect.stringMatching(/written: 3 formulas mended/), code: 0 });
  const { [SHEET]: sheet = "", "xl/workbook.xml": workbook } = textsOf(out);
  const formulas = [...sheet.matchAll(/<f[^>]*>[^<]*<\/f>/g)].map(([formula]) => formula.replace(/&quot;/g, '"'));
  expect(formulas).toEqual([
    '<f t="array" ref="B1:B2">YARN.COUNT(A1:A2,"NeC","NeW")</f>',
    "<f>SUM(B1:B2)</f>",
    '<f>YARN.COUNT(A1,"NeC","NeW")</f>',
    '<f t="array" ref="E1">SUM(YARN.COUNT(A1:A2*2,"NeC","NeW"))</f>',
  ]);
  expect(sheet).not.toContain("cm=");
  expect(workbook).toContain(">YARN.COUNT(S!$A$1,");
  // And back again: Excel's form is what mend writes for Excel.
  const back = place("back.xlsx");
  expect((await command("mend", out, back)).code).toBe(0);
  expect(textsOf(back)[SHEET]).toContain('cm="1"><f t="array" ref="D1">_xldudf_YARN_COUNT(A1,');
  expect((await command("mend", out, place("nobody.xlsx"), "--for", "paper")).err).toMatch(
    /--for is paper; must be excel or calc/,
  );
});

test("recalc and plain write for Calc too", async () => {
  const [whole, plain] = [place("whole-for-calc.xlsx"), place("plain-for-calc.xlsx")];
  expect((await command("recalc", forExcel(), "--out", whole, "--for", "calc")).code).toBe(0);
  expect(textsOf(whole)[SHEET]).not.toMatch(/_xldudf_|ANCHORARRAY/);
  expect(textsOf(whole)[SHEET]).toContain(">YARN.COUNT(A1,");
  expect((await command("plain", forExcel(), plain, "--for", "calc")).code).toBe(0);
  expect(textsOf(plain)[SHEET]).toContain("<f>SUM(B1:B2)</f>");
  expect(textsOf(plain)[SHEET]).not.toMatch(/YARN|_xldudf_|ANCHORARRAY/);
});

test("items of a Table stand in two brackets, which Calc needs in a file, and rows number a column; texts and other references stay", async () => {
  // LibreOffice 7.4 shows #NAME? for ROWS(Lots[#All]) of a file and 7 for ROWS(Lots[[#All]]); a trial, no source.
  const formulas = [
    ["ROWS(Lots[#All])", "ROWS(Lots[[#All]])"],
    ["ROWS(Lots[#Headers])+ROWS(Lots[#data])", "ROWS(Lots[[#Headers]])+ROWS(Lots[[#data]])"],
    ["ROWS(Lots[[#All],[kg]])+ROWS(Lots[kg])", "ROWS(Lots[[#All],[kg]])+ROWS(Lots[kg])"],
    ['LEN("Lots[#All]")', 'LEN("Lots[#All]")'],
    // LibreOffice before 24.8 has no SEQUENCE (its release notes).
    ["SUM(_xlfn.SEQUENCE(ROWS(Lots[kg])*2)-1)", 'SUM(ROW(INDIRECT("A1:A"&(ROWS(Lots[kg])*2)))-1)'],
    ["SUM(_xlfn.SEQUENCE(MAX(1,2),3))", "SUM(_xlfn.SEQUENCE(MAX(1,2),3))"],
    ['_xldudf_YARN_NEED(Lots[#All],"Lots[#All]")', 'YARN.NEED(Lots[[#All]],"Lots[#All]")'],
  ];
  const cells = formulas.map(([formula], row) => `<row r="${row + 1}"><c r="A${row + 1}"><f>${formula}</f></c></row>`);
  const out = place("items.xlsx");
  expect(
    (await command("mend", written("items-for-excel.xlsx", partsOf({ S: cells.join("") })), out, "--for", "calc")).code,
  ).toBe(0);
  const sheet = textsOf(out)[SHEET] ?? "";
  const found = [...sheet.matchAll(/<f[^>]*>([^<]*)<\/f>/g)].map(([, text]) =>
    text?.replace(/&quot;/g, '"').replace(/&amp;/g, "&"),
  );
  expect(found).toEqual(formulas.map(([, forCalc]) => forCalc));
});

/** As Calc saves: names perhaps in small letters, truth as a number, 15 digits, no mark of a dynamic array. */
function asCalcSaves(application: string): string {
  const parts = partsOf({
    S: `<row r="1"><c r="A1"><v>7</v></c><c r="B1" t="n"><f aca="false">yarn.count(A1,"Nm","tex")</f><v>142.857142859</v></c><c r="C1" t="n"><f aca="false">YARN.SHADEPASS({50,0,0},{50,0,0},1)</f><v>1</v></c></row>`,
  });
  parts["docProps/app.xml"] = `<Properties><Application>${application}</Application></Properties>`;
  parts["_rels/.rels"] = (parts["_rels/.rels"] as string).replace(
    "</Relationships>",
    '<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties" Target="docProps/app.xml"/></Relationships>',
  );
  return written("as-calc-saves.xlsx", parts);
}

test("what Calc saved is read as Calc means it, and mended for Excel", async () => {
  const recalc = async (file: string, ...words: string[]) =>
    JSON.parse((await command("recalc", "--json", file, ...words)).out) as Recalculated;
  expect(await recalc(asCalcSaves("LibreOffice/7.4.7.2$Linux_X86_64"))).toMatchObject({ cells: 2, differences: [] });
  // Another program's last digits and 1 for TRUE are differences, unless it is said that they are Calc's.
  const other = asCalcSaves("Another program");
  expect((await recalc(other)).differences.map(({ cell }) => cell)).toEqual(["B1", "C1"]);
  expect((await recalc(other, "--for", "calc")).differences).toEqual([]);
  const out = place("from-calc.xlsx");
  expect((await command("mend", asCalcSaves("LibreOffice/7.4.7.2"), out)).code).toBe(0);
  expect(textsOf(out)[SHEET]).toContain('<f t="array" ref="B1">_xldudf_YARN_COUNT(A1,');
});
