import { describe, expect, test } from "vitest";
import { settingIn } from "../src/recalculate/set-values";
import { recalculate, type Job } from "../src/recalculate/recalculation";
import { partsOf, textsOf, place, written } from "./support/workbooks";

/**
 * Microsoft Support, "SUBTOTAL function": rows that a filter hides are passed over whatever the first argument is; rows
 * hidden by hand are taken along by 1 to 11 and passed over by 101 to 111.
 */

const FILTER =
  '<autoFilter ref="A1:A5"><filterColumn colId="0"><filters><filter val="x"/></filters></filterColumn></autoFilter>';
const NO_CRITERION = '<autoFilter ref="A1:A5"><filterColumn colId="0" hiddenButton="1"/></autoFilter>';

/** Figures 1, 2, 4 and 8 in A2 to A5 below a heading, some of the rows hidden, and formulas from C10 on. */
function book(
  hidden: readonly number[],
  formulas: readonly (readonly [string, number])[],
  after = "",
): Record<string, string> {
  const figures = [1, 2, 4, 8].map((figure, at) => {
    const row = at + 2;
    return `<row r="${row}"${hidden.includes(row) ? ' hidden="1"' : ""}><c r="A${row}"><v>${figure}</v></c></row>`;
  });
  const lines = formulas.map(
    ([formula, value], at) => `<row r="${at + 10}"><c r="C${at + 10}"><f>${formula}</f><v>${value}</v></c></row>`,
  );
  const heading = '<row r="1"><c r="A1" t="str"><v>Mass</v></c></row>';
  const parts = partsOf({ S: [heading, ...figures, ...lines].join("") });
  const sheet = parts["xl/worksheets/sheet1.xml"] as string;
  return { ...parts, "xl/worksheets/sheet1.xml": sheet.replace("</sheetData>", `</sheetData>${after}`) };
}

const judged = (parts: Record<string, string>, job: Partial<Job> = {}) =>
  recalculate({ file: written("filtered.xlsx", parts), called: "filtered.xlsx", ...job });

const ENGINES = [{ oneEngine: true }, { oneEngine: false }];

describe("a subtotal of rows that a filter hides", () => {
  const seen = [
    ["SUBTOTAL(9,A2:A5)", 9],
    ["SUBTOTAL(109,A2:A5)", 9],
    ["SUBTOTAL(2,A2:A5)", 2],
    ["SUBTOTAL( 4 ,A2:A5)*10", 80],
    ["SUBTOTAL(11,A2:A5)", 12.25],
    ["SUM(A2:A5)", 15],
    ["SUBTOTAL(9,B2:B5)", 0],
  ] as const;

  test.each(ENGINES)("passes over them, with %o", (job) => {
    expect(judged(book([3, 4], seen, FILTER), job)).toMatchObject({ unreproduced: [], taken: [], cells: seen.length });
  });

  test.each(ENGINES)("follows a change of what is seen, and none of what is hidden, with %o", (job) => {
    const parts = book([3, 4], seen.slice(0, 3), FILTER);
    const told = judged(parts, { ...job, set: [settingIn("S!A2=11")] });
    expect(told.recalculated.map(({ cell, now }) => [cell, now])).toEqual([["C10", 19], ["C11", 19]]); // prettier-ignore
    expect(judged(parts, { ...job, set: [settingIn("S!A3=11")] })).toMatchObject({
      recalculated: [],
      notRecalculated: [],
    });
  });

  test("is kept as it stands in a copy", () => {
    const out = place("copy.xlsx");
    judged(book([3, 4], [["SUBTOTAL(9,A2:A5)", 9]], FILTER), { out });
    expect(textsOf(out)["xl/worksheets/sheet1.xml"]).toContain("<f>SUBTOTAL(9,A2:A5)</f><v>9</v>");
  });

  test("is one of a table's filter too", () => {
    const parts = book(
      [3, 4],
      [["SUBTOTAL(9,Lots[Mass])", 9]],
      '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
    );
    const relation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/table";
    parts["xl/worksheets/_rels/sheet1.xml.rels"] =
      `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${relation}" Target="../tables/table1.xml"/></Relationships>`;
    parts["xl/tables/table1.xml"] =
      `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Lots" displayName="Lots" ref="A1:A5">${FILTER}<tableColumns count="1"><tableColumn id="1" name="Mass"/></tableColumns></table>`;
    for (const job of ENGINES) expect(judged(parts, job)).toMatchObject({ unreproduced: [], taken: [], cells: 1 });
  });

  test("is kept and told where other rows are hidden by hand, and so is AGGREGATE", () => {
    const parts = book([3, 7], [["SUBTOTAL(9,A2:A8)", 14], ["AGGREGATE(9,4,A2:A5)", 13], ["SUBTOTAL(9,A2:A5)", 13]], FILTER); // prettier-ignore
    parts["xl/worksheets/sheet1.xml"] = (parts["xl/worksheets/sheet1.xml"] as string).replace('<row r="10">', '<row r="7" hidden="1"><c r="A7"><v>1</v></c></row><row r="10">'); // prettier-ignore
    const told = judged(parts);
    expect(told).toMatchObject({ unreproduced: [], cells: 1 });
    // 109 passes over both, whoever hid them.
    const sheet = parts["xl/worksheets/sheet1.xml"];
    const passing = sheet.replace("<f>SUBTOTAL(9,A2:A8)</f><v>14</v>", "<f>SUBTOTAL(109,A2:A8)</f><v>13</v>");
    expect(judged({ ...parts, "xl/worksheets/sheet1.xml": passing })).toMatchObject({
      unreproduced: [],
      cells: 2,
      taken: [{ cell: "C11" }],
    });
    expect(told.taken.map(({ cell, message }) => [cell, message])).toEqual([
      ["C10", expect.stringMatching(/^a SUBTOTAL of rows of which some are filtered and some are hidden cannot be/)],
      ["C11", expect.stringMatching(/^an AGGREGATE of filtered rows cannot be worked out here/)],
    ]);
  });
});

describe("a subtotal of rows that are hidden by hand", () => {
  const hidden = [["SUBTOTAL(9,A2:A5)", 15], ["SUBTOTAL(109,A2:A5)", 9], ["AGGREGATE(9,5,A2:A5)", 9]] as const; // prettier-ignore

  test.each([
    ["without a filter", ""],
    ["with a filter without a criterion", NO_CRITERION],
    ["with a filter elsewhere", FILTER.replace("A1:A5", "F20:F30")],
  ])("takes them along with 9 and not with 109, %s", (_, after) => {
    for (const job of ENGINES) {
      expect(judged(book([3, 4], hidden, after), job)).toMatchObject({ unreproduced: [], taken: [], cells: 3 });
    }
  });
});
