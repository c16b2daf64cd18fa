import { strToU8, zipSync } from "fflate";
import { expect, test } from "vitest";
import { readWorkbook } from "../../src/guide/workbook-reader";

const PARTS = {
  "xl/workbook.xml": `<workbook xmlns:r="r"><sheets><sheet name="About" sheetId="1" r:id="rId1"/><sheet name="Wool &amp; price" sheetId="2" r:id="rId2"/></sheets></workbook>`,
  "xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId2" Type="t" Target="/xl/worksheets/sheet2.xml"/><Relationship Target="worksheets/sheet1.xml" Id="rId1" Type="t"/></Relationships>`,
  "xl/sharedStrings.xml": `<sst><si><t>Purpose</t></si><si><r><t>To </t></r><r><t xml:space="preserve">see &lt;why&gt;</t></r><rPh><t>no</t></rPh></si><si/></sst>`,
  "xl/worksheets/sheet1.xml": `<worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>A title</t></is></c></row><row r="5"><c r="A5" t="s"><v>0</v></c><c r="B5" s="3" t="s"><v>1</v></c></row><row r="6"><c r="A6"/><c r="B6" t="str"><f>1</f><v>more</v></c><c r="C6" t="str"><v>elsewhere</v></c></row></sheetData></worksheet>`,
  "xl/worksheets/sheet2.xml": `<worksheet><sheetData><row r="2"><c r="A2" t="inlineStr"><is><t>What it costs</t></is></c><c r="B2" cm="1"><f t="array" ref="B2">_xldudf_YARN_COUNT(1,2,3)+_xldudf_YARN_REGAIN("x")</f><v>1</v></c></row></sheetData></worksheet>`,
};

test("a workbook tells its title, its About sheet, its sheets and the functions it calls", () => {
  const bytes = zipSync(Object.fromEntries(Object.entries(PARTS).map(([name, text]) => [name, strToU8(text)])));
  expect(readWorkbook(bytes)).toEqual({
    title: "A title",
    about: [
      ["Purpose", "To see <why>"],
      ["", "more"],
    ],
    sheets: [{ name: "Wool & price", sentence: "What it costs" }],
    functions: ["COUNT", "REGAIN"],
  });
});
