import { existsSync, readdirSync, readFileSync, symlinkSync } from "node:fs";
import { dirname } from "node:path";
import { describe, expect, test } from "vitest";
import { digestOf } from "../src/recalculate/failed";
import { recalculate, type Job } from "../src/recalculate/recalculation";
import { writeReport } from "../src/recalculate/report";
import { settingIn } from "../src/recalculate/set-values";
import { workingPaper } from "../src/recalculate/working-paper";
import { fileFaults } from "./support/file-faults";
import { command, partsOf, place, textsOf, written } from "./support/workbooks";

const CALL = (id: string, given: string) => `_xldudf_YARN_${id}(${given})`;
const text = (address: string, words: string) => `<c r="${address}" t="str"><v>${words}</v></c>`;

/** Invented: two yarns with their counts, a date that a formula gives, and a sum; styles 1 to 3 are money, a date and per cent. */
function book(): Record<string, string> {
  const parts = partsOf({
    Yarns: [
      `<row r="1">${text("A1", "Yarn")}${text("B1", "NeC")}${text("C1", "NeW")}${text("D1", "Delivered")}${text("E1", "Share")}</row>`,
      `<row r="2">${text("A2", "Aran")}<c r="B2"><v>10</v></c><c r="C2" s="1"><f>${CALL("COUNT", 'B2,"NeC","NeW"')}</f><v>16</v></c><c r="D2" s="2"><f>DATE(2026,3,1)</f><v>46081</v></c><c r="E2" s="3"><f>${CALL("COUNT", 'B2,"NeC","NeW"')}/100</f><v>0.25</v></c></row>`,
      `<row r="3">${text("A3", "Lace")}<c r="B3"><v>20</v></c><c r="C3" s="1"><f>${CALL("COUNT", 'B3,"NeC","NeW"')}</f><v>130</v></c><c r="D3" t="e"><f>${CALL("COUNT", '-1,"NeC","NeW"')}</f><v>#N/A</v></c><c r="E3"><f>NOW()</f><v>46000</v></c></row>`,
      `<row r="4">${text("A4", "In all")}<c r="C4" s="1"><f>SUM(C2:C3)</f><v>146</v></c><c r="D4"><f>[1]Far!A1</f><v>3</v></c></row>`,
    ].join(""),
    Second: `<row r="1">${text("A1", "Rate")}<c r="B1"><f>${CALL("COUNT", 'Yarns!B2,"NeC","NeW"')}</f><v>15.0000001</v></c></row>`,
  });
  parts["xl/styles.xml"] =
    '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="2"><numFmt numFmtId="164" formatCode="#,##0.00&quot; EUR&quot;"/><numFmt numFmtId="165" formatCode="d mmm yyyy"/></numFmts><cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="10"/></cellXfs></styleSheet>';
  parts["xl/_rels/workbook.xml.rels"] = (parts["xl/_rels/workbook.xml.rels"] as string).replace(
    "</Relationships>",
    '<Relationship Id="rId98" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>',
  );
  return parts;
}

const WHEN = new Date(Date.UTC(2026, 10, 25, 14, 5));

function paper(job: Partial<Job> = {}) {
  const file = written("paper.xlsx", book());
  const result = recalculate({ file, called: "paper.xlsx", described: true, ...job });
  return { file, result, paper: workingPaper(result, job, WHEN) };
}

describe("the working paper of a recalculation", () => {
  test("says which file, when, by what, what was compared and what was not", () => {
    const { file, paper: written } = paper();
    const facts = Object.fromEntries(written.facts);
    expect(facts["SHA-256 of the file"]).toBe(digestOf(readFileSync(file)));
    expect(facts["Date of this paper"]).toBe("2026-11-25 14:05 UTC");
    expect(facts["Worked out by"]).toContain(
      (JSON.parse(readFileSync("package.json", "utf8")) as { version: string }).version,
    );
    expect(written.compared.join(" ")).toMatch(/^9 formulas in the workbook; \d cells compared/);
    expect(written.compared.join(" ")).toMatch(/two calculation engines/);
    expect(written.notCompared.join(" ")).toMatch(/2 formulas not compared.*Typed-in values, charts/);
    expect(paper({ oursOnly: "--ours-only was given" }).paper.notCompared.join(" ")).toMatch(/--ours-only was given/);
    expect(paper({ tolerance: 0.01 }).paper.compared.join(" ")).toMatch(/relative difference of 0\.01;/);
  });

  test("each difference has its headings, formula, both values, difference and share in the cell's format, biggest first", () => {
    const { findings } = paper().paper;
    const differing = findings.filter(({ kind }) => kind === "differs");
    // What has no difference in figures comes first: an error with another one.
    expect(differing.map(({ cell }) => cell)).toEqual(["D3", "C3", "C2", "E2", "B1"]);
    expect(differing[1]).toEqual({
      kind: "differs",
      sheet: "Yarns",
      cell: "C3",
      row: "Lace",
      column: "NeW",
      formula: '=YARN.COUNT(B3,"NeC","NeW")',
      saved: { value: 130, format: '#,##0.00" EUR"' },
      now: { value: 30, format: '#,##0.00" EUR"' },
      difference: { value: -100, format: '#,##0.00" EUR"' },
      share: -100 / 130,
      remark: "",
    });
    expect(differing[0]).toMatchObject({ saved: "#N/A", now: "#VALUE!", difference: "", share: undefined });
    expect(differing[0]?.remark).toMatch(/value is -1/);
    expect(differing[3]).toMatchObject({ row: "Aran", column: "Share", saved: { value: 0.25, format: "0.00%" } });
    // Two numbers that the format shows alike are shown with all their digits.
    expect(differing[4]).toMatchObject({ sheet: "Second", row: "Rate", saved: { format: "General" } });
  });

  test("what was not reproduced, not compared and not recalculated is listed with its reason, dates as dates", () => {
    const { findings } = paper().paper;
    const of = (kind: string) => findings.filter((one) => one.kind === kind);
    expect(of("unreproduced")).toMatchObject([
      {
        cell: "D2",
        row: "Aran",
        column: "Delivered",
        saved: { value: 46081, format: "d mmm yyyy" },
        difference: { format: "General" },
      },
    ]);
    expect(of("taken").map(({ cell, remark }) => [cell, remark])).toEqual([
      ["D4", expect.stringMatching(/reads another workbook/)],
      ["E3", "it depends on the clock or on chance"],
    ]);
    const changed = paper({ set: [settingIn("Yarns!B2=12")] });
    expect(changed.paper.facts).toContainEqual(["Values put in", "Yarns!B2 = 12"]);
    expect(changed.paper.findings.filter(({ kind }) => kind === "follows").map(({ cell }) => cell)).toContain("C2");
  });

  test("sums by sheet; differences are added where all are shown alike", () => {
    const { columns, rows } = paper().paper.totals;
    expect(columns.map(({ heading }) => heading)).toEqual([
      "Sheet",
      "Differs (cells)",
      "Worked out anew (cells)",
      "Not reproduced here (cells)",
      "Not compared (cells)",
      "Sum of the differences",
    ]);
    expect(rows).toEqual([
      ["Yarns", 4, 1, 1, 2, "several units"],
      ["Second", 1, 0, 0, 0, expect.objectContaining({ value: 15 - 15.0000001 })],
      ["In all", 5, 1, 1, 2, ""],
    ]);
  });

  test("as a page: one line a finding, figures as the cells show them, A4 on its side", async () => {
    const { result } = paper();
    await writeReport(place("paper.html"), [result], {}, WHEN);
    const page = readFileSync(place("paper.html"), "utf8");
    expect(page).toMatch(/@page\{size:A4 landscape/);
    expect(page).toMatch(
      /<td class="unbroken">C3<\/td><td>Lace<\/td><td>NeW<\/td><td>=YARN\.COUNT[^<]*<\/td><td class="number">130\.00 EUR<\/td><td class="number">30\.00 EUR<\/td><td class="number">-100\.00 EUR<\/td><td class="number">-76\.92%<\/td>/,
    );
    expect(page).toMatch(
      /<td>Delivered<\/td>.*<td class="number">28 Feb 2026<\/td><td class="number">1 Mar 2026<\/td>/,
    );
    expect(page).not.toMatch(/<script|src=|href=/);
  });

  test("as a workbook: a filter over one row a finding, numbers that stay numbers, headings on every printed page", async () => {
    const { result } = paper();
    await writeReport(place("report-of.xlsx"), [result], {}, WHEN);
    const parts = textsOf(place("report-of.xlsx"));
    const findings = parts["xl/worksheets/sheet2.xml"] as string;
    expect(parts["xl/workbook.xml"]).toMatch(/name="Summary".*name="Findings"/);
    expect(parts["xl/workbook.xml"]).toMatch(/_xlnm\.Print_Titles[^>]*>[^<]*\$1:\$1/);
    expect(findings).toMatch(/<autoFilter ref="A1:K10"\/>/);
    expect(findings.match(/<row /g)).toHaveLength(10);
    expect(findings).toMatch(/<c r="G3" s="\d+"><v>130<\/v><\/c>/);
    expect(findings).toMatch(/<pageSetup[^>]*orientation="landscape"/);
    expect(parts["xl/styles.xml"]).toContain('formatCode="#,##0.00&quot; EUR&quot;"');
    expect(fileFaults(readFileSync(place("report-of.xlsx")))).toEqual([]);
  });
});

describe("--report", () => {
  test("is written as safely as a copy: whole or not at all, never over what is read, through no left-over", async () => {
    const file = written("kept-original.xlsx", book());
    const before = readFileSync(file);
    symlinkSync(file, place("kept-link.xlsx"));
    for (const report of [file, place("kept-link.xlsx")]) {
      const { err, code } = await command("recalc", file, "--report", report);
      expect(err).toMatch(/is the original; give another name/);
      expect(code).toBe(2);
    }
    expect(readFileSync(file).equals(before)).toBe(true);
    const both = await command("recalc", file, "--out", place("kept-both.xlsx"), "--report", place("kept-both.xlsx"));
    expect(both.err).toMatch(/would be one file/);
    expect(both.code).toBe(2);
    expect(existsSync(place("kept-both.xlsx"))).toBe(false);
    // A folder of that name cannot be replaced by a file.
    const { err, code } = await command("recalc", file, "--report", place("nowhere/r.html"));
    expect(err).toMatch(/there is no folder/);
    expect(code).toBe(2);
    expect((await command("recalc", file, "--report", place("r.txt"))).err).toMatch(/--report writes \.html or \.xlsx/);
    expect((await command("recalc", file, "--report", place("kept-report.html"))).code).toBe(1);
    expect(readFileSync(place("kept-report.html"), "utf8")).toContain("kept-original.xlsx");
    // Other tests share the folder, and one keeps a workbook of that ending there.
    const own = readdirSync(dirname(file)).filter((name) => name.startsWith("kept-"));
    expect(own.sort()).toEqual(["kept-link.xlsx", "kept-original.xlsx", "kept-report.html"]);
  });
});
