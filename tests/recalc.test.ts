import { createHash } from "node:crypto";
import { readFileSync, symlinkSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { formulasOf } from "../src/recalculate/calculation";
import { compared } from "../src/recalculate/compare";
import { recalculate, type Job, type Recalculated } from "../src/recalculate/recalculation";
import { onSavedValues } from "../src/recalculate/saved-values";
import { bundledFunctions } from "./support/functions";
import { command, partsOf, place, rows, started, textsOf, written } from "./support/workbooks";

const CALL = '_xldudf_YARN_COUNT(A1:A2,"NeC","NeW")';
const METADATA =
  '<metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata>';

/** Figures, a call that spills over B1:B2, and a sum of what it spilled; the saved values are given. */
function stored(first: number, second: number, sum: number, call = CALL): Record<string, string> {
  const sheet = `<row r="1"><c r="A1"><v>10</v></c><c r="B1" s="0" cm="1"><f t="array" ref="B1:B2">${call}</f><v>${first}</v></c><c r="C1"><f>SUM(B1:B2)</f><v>${sum}</v></c></row><row r="2"><c r="A2"><v>20</v></c><c r="B2"><v>${second}</v></c></row>`;
  const parts = partsOf({ Calc: sheet });
  parts["xl/metadata.xml"] = `<metadata>${METADATA}</metadata>`;
  parts["xl/_rels/workbook.xml.rels"] = (parts["xl/_rels/workbook.xml.rels"] as string).replace(
    "</Relationships>",
    '<Relationship Id="rId99" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>',
  );
  return parts;
}

function comparison(parts: Record<string, string>, functions = bundledFunctions()) {
  const book = openBook(readFileSync(written("compare.xlsx", parts)), "compare.xlsx");
  return compared(book, onSavedValues(book, formulasOf(book), functions));
}

describe("recalculation", () => {
  test("nothing differs where all is as saved, also within the tolerance", () => {
    expect(comparison(stored(15, 30, 45))).toMatchObject({ cells: 3, differences: [] });
    expect(comparison(stored(15 * (1 + 1e-13), 30, 45)).differences).toEqual([]);
    expect(comparison(stored(15 * (1 + 1e-11), 30, 45)).differences).toHaveLength(1);
  });

  test("a changed cell is found in the spill as well as at its start, and the error travels no further", () => {
    const { differences, unreproduced } = comparison(stored(15, 31, 46));
    expect(differences).toMatchObject([{ sheet: "Calc", cell: "B2", saved: 31, now: 30 }]);
    expect(unreproduced).toEqual([]);
  });

  test("a native formula that is not reproduced is listed apart and is no difference", () => {
    const { differences, unreproduced } = comparison(stored(15, 30, 46));
    expect(differences).toEqual([]);
    expect(unreproduced).toMatchObject([{ cell: "C1", saved: 46, now: 45, formula: "=SUM(B1:B2)" }]);
  });

  test("what never had a saved value is worked out from nothing and compared with nothing, and that is said", async () => {
    const sheet = `<row r="1"><c r="A1"><v>10</v></c><c r="B1"><f>A1*2</f></c><c r="C1"><f>B1/2</f><v></v></c><c r="D1"><f>_xldudf_YARN_COUNT(C1,"NeC","NeW")</f></c><c r="E1"><f>C1+1</f><v>11</v></c></row>`;
    expect(comparison(partsOf({ S: sheet }))).toMatchObject({
      differences: [{ cell: "D1", saved: null, now: 15 }],
      unreproduced: [],
      neverCalculated: 3,
      cells: 2,
    });
    const out = place("calculated.xlsx");
    const { err } = await command("recalc", written("uncalculated.xlsx", partsOf({ S: sheet })), "--out", out);
    expect(err).toMatch(/3 formulas had no saved value and were worked out from nothing/);
    expect(textsOf(out)["xl/worksheets/sheet1.xml"]).toContain("<f>A1*2</f><v>20</v>");
  });

  // Microsoft Support, SUBTOTAL function: "these nested subtotals are ignored to avoid double counting".
  test("a subtotal passes over the saved values of other subtotals, a sum does not", () => {
    const column = [[1e-7], [-2e21], ["=SUBTOTAL(9,A1:A2)|-2e21"], ["=SUBTOTAL(109,A1:A1)|1e-7"]];
    const sums = [
      ["=SUBTOTAL(9,A1:A4)|-2e21"],
      ["=SUM(A1,A4)|2e-7"],
      ["=SUM(A2:A3)|-4e21"],
      ["=SUBTOTAL(9,A1:A1,A3:A4)|1e-7"],
    ];
    expect(comparison(partsOf({ S: rows(...column, ...sums) }))).toMatchObject({ cells: 6, unreproduced: [] });
    const twice = rows([1], ["=SUBTOTAL(9,A1)|1"], ["=SUBTOTAL(9,A1:A2)|2"]);
    expect(comparison(partsOf({ S: twice })).unreproduced).toMatchObject([{ cell: "A3", saved: 2, now: 1 }]);
  });

  test("each of two calls that read each other's cells is judged on the saved values", () => {
    const parts = partsOf({
      S: rows([
        10,
        '=_xldudf_YARN_COUNT(A1,"NeC","NeW")|15',
        '=_xldudf_YARN_COUNT(B1,"NeC","NeW")|22.6',
        '=_xldudf_YARN_COUNT(C1,"NeC","NeW")|33.9',
      ]),
    });
    expect(comparison(parts).differences.map(({ cell }) => cell)).toEqual(["C1"]);
  });

  test("with no function registered, no saved result of ours passes", () => {
    const { differences } = comparison(stored(15, 30, 45), new Map());
    expect(differences.map(({ cell }) => cell)).toEqual(["B1", "B2"]);
    expect(differences.find(({ cell }) => cell === "B1")).toMatchObject({ saved: 15, now: "#NAME?" });
  });

  test("an error's message is told with its cell", () => {
    expect(comparison(stored(15, 30, 45, '_xldudf_YARN_COUNT(-1,"NeC","NeW")')).differences[0]).toMatchObject({
      cell: "B1",
      now: "#VALUE!",
      message: expect.stringMatching(/^value is -1; /) as string,
    });
  });

  test("shared formulas, shared and rich text, tables and names are read as Excel writes them", () => {
    const parts = partsOf(
      {
        S: `<row r="1"><c r="A1" t="s"><v>1</v></c><c r="B1"><v>2</v></c><c r="C1"><f t="shared" ref="C1:C3" si="0">B1*$B$1</f><v>4</v></c></row><row r="2"><c r="B2"><v>3</v></c><c r="C2"><f t="shared" si="0"/><v>6</v></c></row><row r="3"><c r="B3"><v>4</v></c><c r="C3"><f t="shared" si="0"/><v>8</v></c><c r="D3" t="str"><f>A1&amp;"!"</f><v>rich!</v></c><c r="E3"><f>SUM(figures)*rate</f><v>18</v></c><c r="F3"><f t="array" ref="F3:F4">B1:B2*2</f><v>4</v></c></row><row r="4"><c r="F4"><v>6</v></c></row>`,
      },
      '<definedNames><definedName name="figures">S!$B$1:$B$3</definedName><definedName name="rate">2</definedName></definedNames>',
    );
    parts["xl/sharedStrings.xml"] =
      "<sst><si><t>x</t></si><si><r><rPr><b/></rPr><t>ri</t></r><r><t>ch</t></r><rPh><t>no</t></rPh></si></sst>";
    parts["xl/_rels/workbook.xml.rels"] = (parts["xl/_rels/workbook.xml.rels"] as string).replace(
      "</Relationships>",
      '<Relationship Id="rId98" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>',
    );
    expect(comparison(parts)).toMatchObject({ cells: 7, differences: [] });
  });

  test("a worksheet function that is lacking here leaves the saved value, and is told", async () => {
    const parts = partsOf({ S: rows(['=CONVERT(1,"lbm","g")|453.59237', "=A1*2|907.18474"]) });
    expect(comparison(parts)).toMatchObject({ cells: 1, passedOver: 1, differences: [] });
    const computed = partsOf({ S: rows([1, "=SUM(A1:INDEX(A1:A3,2))|1"]) });
    expect(comparison(computed)).toMatchObject({ cells: 0, passedOver: 1, differences: [] });
    const file = written("lacking.xlsx", parts);
    const { err, code } = await command("recalc", file, "--one-engine", "--out", place("lacking-out.xlsx"));
    expect(err).toMatch(/S!A1: CONVERT cannot be worked out here; the saved value was taken/);
    expect(code).toBe(0);
    expect(textsOf(place("lacking-out.xlsx"))["xl/worksheets/sheet1.xml"]).toContain("<v>453.59237</v>");
  });
});

describe("the recalc command", () => {
  test("tells the cells that differ and fails, in text and in JSON", async () => {
    const file = written("differs.xlsx", stored(15, 31, 45));
    const { out, err, code } = started("recalc", file);
    expect(out).toBe("sheet\tcell\tsaved\tnow\tmessage\nCalc\tB2\t31\t30\t\n");
    expect(err).toMatch(/3 cells compared, 1 differ/);
    expect(code).toBe(1);
    const same = written("same.xlsx", stored(15, 30, 45));
    const nowhere = place("nowhere.xlsx");
    const told = await command("recalc", "--json", "--ours-only", file, same, nowhere);
    // One line a book, each as soon as it is done, so in any order.
    const lines = told.out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as Recalculated);
    const of = (workbook: string) => lines.find((line) => line.workbook === workbook);
    expect(lines).toHaveLength(3);
    expect(of(file)?.differences.map(({ cell }) => cell)).toEqual(["B2"]);
    expect(Object.keys(of(same) ?? {})).toEqual(
      expect.arrayContaining(
        "workbook digest version formulas cells differences unreproduced notRecalculated faults taken passedOver".split(
          " ",
        ),
      ),
    );
    expect(of(same)).toMatchObject({
      digest: createHash("sha256").update(readFileSync(same)).digest("hex"),
      version: (JSON.parse(readFileSync("package.json", "utf8")) as { version: string }).version,
      formulas: 2,
      cells: 2,
      differences: [],
      passedOver: 1,
    });
    expect(of(nowhere)).toMatchObject({ digest: "", code: "unreadable", error: expect.any(String) as string });
    expect(told.code).toBe(2);
  });

  test("what an option cannot take is told in a sentence, a figure below zero like any other", async () => {
    const first = async (...words: string[]) => {
      const { out, err, code } = await command("recalc", "any.xlsx", ...words);
      expect([out, code]).toEqual(["", 2]);
      return err.split("\n")[0];
    };
    expect(await first("--tolerance", "-1")).toBe("--tolerance is -1; must be a number from 0 to below 1, as 1e-9");
    expect(await first("--tolerance", "--json")).toBe("--tolerance needs a value after it");
    expect(await first("--tolerance")).toBe("--tolerance needs a value after it");
    expect(await first("--json=yes")).toBe("--json takes no value");
    expect(await first("--tolerances", "1")).toMatch(
      /^--tolerances is no option here; there are --set, .*--tolerance, /,
    );
  });

  test("a tolerance holds for all cells; a sheet that is not there is a native fault only in strict", () => {
    const judged = (name: string, parts: Record<string, string>, job: Partial<Job>) =>
      recalculate({ file: written(name, parts), called: name, ...job });
    const near = stored(15 * (1 + 1e-8), 30, 45 * (1 - 1e-8));
    expect(judged("near.xlsx", near, {})).toMatchObject({ differences: [{ cell: "B1" }], unreproduced: [{}] });
    expect(judged("near.xlsx", near, { tolerance: 1e-7 })).toMatchObject({ differences: [], unreproduced: [] });
    const missing = partsOf({ S: rows(["=Nope!A1|0", "=1+1|2"]) });
    expect(judged("missing.xlsx", missing, {})).toMatchObject({ faults: [], taken: [{ cell: "A1" }] });
    expect(judged("missing.xlsx", missing, { strict: true })).toMatchObject({ faults: [{ cell: "A1" }], taken: [] });
  });

  test("an unknown function of ours, a missing sheet and another workbook are told by cell and cost only it", async () => {
    const file = written(
      "faults.xlsx",
      partsOf({ S: rows(["=_xldudf_YARN_NOSUCH(1)|1", "=Nope!A1|0", "=[1]Far!A1|0"]) }),
    );
    const { err, code } = await command("recalc", file, "--out", place("faults-out.xlsx"));
    expect(err).toMatch(/S!A1: YARN\.NOSUCH is not a function of this library/);
    expect(err).toMatch(/S!B1: .*there is no sheet "Nope"/);
    expect(err).toMatch(/S!C1: .*reads another workbook/);
    expect(err).toMatch(/faults-out\.xlsx written; the cells named above keep their saved values/);
    expect(code).toBe(1);
    expect(textsOf(place("faults-out.xlsx"))["xl/worksheets/sheet1.xml"]).toBe(
      textsOf(file)["xl/worksheets/sheet1.xml"],
    );
  });

  test("--out writes the true values in stored form and touches nothing else; the original never changes", async () => {
    const file = written("stale.xlsx", stored(1, 2, 3));
    const before = readFileSync(file);
    const out = place("fresh.xlsx");
    expect((await command("recalc", file, "--out", out)).code).toBe(1);
    expect(readFileSync(file).equals(before)).toBe(true);
    const sheet = textsOf(out)["xl/worksheets/sheet1.xml"] as string;
    expect(sheet).toContain('<c r="B1" s="0" cm="1"><f t="array" ref="B1:B2">');
    expect(sheet).toContain('<c r="B2"><v>30</v></c>');
    // The sum of them is native: it was reproduced on the saved values, so it is worked out anew.
    expect(sheet).toContain('<c r="C1"><f>SUM(B1:B2)</f><v>45</v></c>');
    expect(textsOf(out)["xl/workbook.xml"]).toContain('fullCalcOnLoad="1"');
    expect((await command("recalc", out)).code).toBe(0);
    symlinkSync(file, place("link.xlsx"));
    for (const same of [file, place("link.xlsx")]) {
      const { err, code } = await command("recalc", file, "--out", same);
      expect(err).toMatch(/is the original; give another name/);
      expect(code).toBe(2);
    }
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test("an input whose name ends in .part is not written over", async () => {
    const file = written("sheet.xlsx.part", stored(15, 31, 46));
    const before = readFileSync(file);
    await command("recalc", file, "--out", place("sheet.xlsx"));
    expect(readFileSync(file).equals(before)).toBe(true);
    expect(textsOf(place("sheet.xlsx"))["xl/worksheets/sheet1.xml"]).toContain('<c r="B2"><v>30</v></c>');
  });

  test("a report that cannot be written is a sentence and code 2", async () => {
    const file = written("reported.xlsx", stored(15, 31, 45));
    const { err, code } = await command("recalc", file, "--report", place("nowhere/report.html"));
    expect(err).toMatch(/there is no folder/);
    expect(err).not.toMatch(/\n\s+at /);
    expect(code).toBe(2);
  });

  test("native formulas that take too long leave the verdict on calls of ours", () => {
    const heavy = Array.from({ length: 40 }, (_, at) => [`=SUMPRODUCT((Z$1:AI$1048576=${at})*1)|0`]);
    const file = written("heavy.xlsx", partsOf({ S: rows(['=_xldudf_YARN_COUNT(10,"NeC","NeW")|16'], ...heavy) }));
    const { out, err, code } = started("recalc", file, "--seconds", "2");
    expect(out).toMatch(/^S\tA1\t16\t15\t$/m);
    expect(err).toMatch(
      /with its native formulas it (took longer|needed more).*, so calls of ours alone were worked out/,
    );
    expect(code).toBe(1);
  });

  test("writes a report as a page and as a workbook", async () => {
    const file = written("reported.xlsx", stored(15, 31, 45));
    await command("recalc", file, "--report", place("report.html"));
    const page = readFileSync(place("report.html"), "utf8");
    expect(page).toMatch(/<td class="unbroken">B2<\/td>.*<td class="number">31<\/td><td class="number">30<\/td>/);
    await command("recalc", file, "--report", place("report.xlsx"));
    const report = textsOf(place("report.xlsx"));
    expect(report["xl/sharedStrings.xml"]).toContain("reported.xlsx");
    expect(report["xl/workbook.xml"]).toContain('<calcPr calcId="191029"/>');
  });
});

/** Formulas beyond any one engine, each with the value that its program saved. */
const STRANGE = [
  "=IFERROR(#REF!,1)|1",
  "=IFERROR(#REF!A1,1)|1",
  "=[1]Sheet1!A1|7",
  "='[1]Sheet 1'!A1|8",
  "=[2]!SOMEADDIN(1)|9",
  "=OTHER.ADDIN(1)|10",
  "=Nope!A1|11",
  "=nosuchname+1|12",
];

/** A sheet as another program may write it: line breaks, single quotes, odd order of attributes, things of its own. */
const BY_HAND = `
  <row  spans='1:9' r='1' customHeight="1" ht='20'>
    <c s="0" r="A1" ><v>10</v></c> <c r='B1' t="str"><f ca='1'>IF(A1&gt;5,"a'b",&quot;c&quot;)</f><v>a&apos;b</v><extLst><ext uri="{1}"/></extLst></c>
    <c r="C1" s="0"><f>_xldudf_YARN_COUNT(A1,"NeC","NeW")</f><v>1</v></c><c r="D1"/>
    <c r="E1"><f>YEARFRAC(45000,46000,1)</f><v>2.73722627737226</v></c></row>

  <row r="2" x14ac:dyDescent="0.25" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac"><c r="A2" t="inlineStr"><is><t xml:space="preserve"> x </t></is></c></row>
  <row r="5"/>
`;

describe("every byte that is not ours stays", () => {
  const ours = /<c r="C1"[^]*?<\/c>/;
  const sheetOf = (file: string) => textsOf(file)["xl/worksheets/sheet1.xml"] as string;
  const parts = partsOf({ S: BY_HAND });
  parts["xl/worksheets/sheet1.xml"] = (parts["xl/worksheets/sheet1.xml"] as string).replace(
    "<sheetData>",
    "<dimension  ref='A1:F9' ></dimension><sheetData  >",
  );
  parts["docProps/app.xml"] = "<Properties><Application>some program</Application></Properties>";
  parts["xl/calcChain.xml"] = "<calcChain><c r='C1' i='1'/><c r='B1'/></calcChain>";

  test.each(["recalc", "mend", "plain"] as const)("%s", (name) => {
    const file = written(`by-hand-${name}.xlsx`, parts);
    const out = place(`by-hand-${name}-out.xlsx`);
    started(name, ...(name === "recalc" ? [file, "--out", out] : [file, out]));
    const [before, after] = [textsOf(file), textsOf(out)];
    const around = (xml: string) => xml.slice(xml.indexOf("<dimension")).replace(ours, "(ours)");
    const withoutNotes = around(sheetOf(out)).replace(/<legacyDrawing[^>]*>/, "");
    expect(withoutNotes).toBe(around(sheetOf(file)).replace("<sheetData  >", "<sheetData>"));
    expect(ours.exec(sheetOf(out))?.[0]).toContain("<v>15</v>");
    expect(after["docProps/app.xml"]).toBe(before["docProps/app.xml"]);
    expect(after["xl/workbook.xml"]).toContain('fullCalcOnLoad="1"');
  });

  test("a book without a call of ours goes through with every sheet as it was", async () => {
    const native = {
      ...parts,
      "xl/worksheets/sheet1.xml": (parts["xl/worksheets/sheet1.xml"] as string).replace(ours, ""),
    };
    const file = written("native.xlsx", native);
    for (const name of ["recalc", "mend", "plain"] as const) {
      const out = place(`native-${name}.xlsx`);
      await command(name, ...(name === "recalc" ? [file, "--out", out] : [file, out]));
      const [before, after] = [textsOf(file), textsOf(out)];
      expect(Object.keys(after)).toEqual(Object.keys(before));
      for (const part of Object.keys(before)) if (part !== "xl/workbook.xml") expect(after[part]).toBe(before[part]);
    }
  });
});

describe("the copies", () => {
  test("neither plain nor mend is refused for a strange formula elsewhere, which stays as it was", async () => {
    const cells = rows([10, ...STRANGE]).replace(
      "</row>",
      '<c r="Z1"><f>YARN.COUNT(A1,"NeC","NeW")</f></c></row><row r="2"><c r="A2" t="str"><f>YARN.COUNT([1]Far!A1,"NeC","NeW")</f><v>far</v></c></row>',
    );
    const file = written("strange.xlsx", partsOf({ S: cells }));
    const before = rows([10, ...STRANGE]).replace(/<.row>$/, "");
    for (const command_ of ["plain", "mend"] as const) {
      const out = place(`strange-${command_}.xlsx`);
      const { err, code } = await command(command_, file, out);
      expect(code).toBe(0);
      expect(err).toMatch(/S!A2: reads another workbook .*the saved value was kept/);
      const sheet = textsOf(out)["xl/worksheets/sheet1.xml"] as string;
      expect(sheet).toContain(before);
      expect(sheet).toContain("<v>15</v>");
      expect(sheet).toContain("<v>far</v>");
    }
    const { differences, faults, taken } = JSON.parse((await command("recalc", "--json", file)).out) as Recalculated;
    expect(differences.map(({ cell }) => cell)).toEqual(["Z1"]);
    expect(faults).toEqual([]);
    expect(taken.map(({ cell }) => cell)).toEqual(expect.arrayContaining(["D1", "E1", "F1", "G1", "H1", "A2"]));
  });

  test("plain: values where our formulas were, each with a note, and a line on About", async () => {
    const parts = stored(1, 2, 3);
    const about = partsOf({ Calc: "", About: '<row r="1"><c r="A1" t="str"><v>About</v></c></row>' });
    const both = { ...about, "xl/worksheets/sheet1.xml": parts["xl/worksheets/sheet1.xml"] as string };
    const out = place("plain.xlsx");
    const { err, code } = await command("plain", written("with-about.xlsx", both), out);
    expect(err).toMatch(/1 formulas replaced/);
    expect(code).toBe(0);
    const copy = textsOf(out);
    expect(copy["xl/worksheets/sheet1.xml"]).toContain(
      '<c r="B1" s="0"><v>15</v></c><c r="C1"><f>SUM(B1:B2)</f><v>3</v></c>',
    );
    expect(copy["xl/workbook.xml"]).toContain('fullCalcOnLoad="1"');
    expect(copy["xl/worksheets/sheet1.xml"]).toMatch(/<legacyDrawing [^>]*r:id="rId\d"\/><\/worksheet>$/);
    expect(copy["xl/worksheets/sheet2.xml"]).toMatch(/<c r="A3" t="str"><v>This copy needs no add-in: 1 formulas/);
    expect(copy["xl/comments1.xml"]).toContain(
      '<comment ref="B1" authorId="0"><text><t xml:space="preserve">Value of =YARN.COUNT(A1:A2,&quot;NeC&quot;,&quot;NeW&quot;)',
    );
    expect(copy["xl/drawings/notes1.vml"]).toContain("<x:Row>0</x:Row><x:Column>1</x:Column>");
    expect(Object.values(copy).join("")).not.toMatch(/<f[^>]*>[^<]*YARN/);
    expect((await command("recalc", out)).code).toBe(0);
  });

  test("mend: calls typed without the add-in and calls tied to no workbook work again", async () => {
    const sheet = `<row r="1"><c r="A1"><v>10</v></c><c r="B1" t="e"><f>YARN.COUNT(A1:A2,"NeC","NeW")</f><v>#NAME?</v></c><c r="D1" t="e"><f>SUM([2]!_xldudf_YARN_COUNT(A1,"NeC","NeW"),1)</f><v>#NAME?</v></c></row><row r="2"><c r="A2"><v>20</v></c></row>`;
    const file = written("dead.xlsx", partsOf({ S: sheet }));
    const told = await command("recalc", file);
    expect(told.out).toMatch(/S\tB1\t#NAME\?\t15\t.*run mend/);
    const out = place("mended.xlsx");
    expect((await command("mend", file, out)).err).toMatch(/2 formulas mended/);
    const mended = textsOf(out)["xl/worksheets/sheet1.xml"] as string;
    expect(mended).toContain(
      '<c r="B1" cm="1"><f t="array" ref="B1:B2">_xldudf_YARN_COUNT(A1:A2,&quot;NeC&quot;,&quot;NeW&quot;)</f><v>15</v></c>',
    );
    expect(mended).toContain('<c r="B2"><v>30</v></c>');
    expect(mended).toContain("SUM(_xldudf_YARN_COUNT(A1,&quot;NeC&quot;,&quot;NeW&quot;),1)</f><v>16</v>");
    expect(textsOf(out)["xl/metadata.xml"]).toContain("XLDAPR");
    expect((await command("recalc", out)).code).toBe(0);
  });
});
