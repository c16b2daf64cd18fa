import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { formulasOf } from "../src/recalculate/calculation";
import { readingsOf } from "../src/recalculate/references";
import { recalculate } from "../src/recalculate/recalculation";
import { written, partsOf } from "./support/workbooks";

const DOCUMENT = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** A Table in B2:D5 of the first sheet, headings above and totals below, and formulas with their saved values. */
function book(
  formulas: Record<string, string>,
  names = "",
  headings = ["mass", "price &amp; duty", "two_x000a_lines"],
) {
  const cell = (address: string, text: string) => `<c r="${address}" t="str"><v>${text}</v></c>`;
  const formula = ([address, text]: [string, string]) => {
    const at = text.lastIndexOf("|");
    const saved = text.slice(at + 1);
    const type = /^#/.test(saved) ? ' t="e"' : "";
    const escaped = text.slice(0, at).replace(/&/g, "&amp;").replace(/</g, "&lt;");
    return `<c r="${address}"${type}><f>${escaped}</f><v>${saved}</v></c>`;
  };
  const on = (row: number) =>
    Object.entries(formulas)
      .filter(([address]) => address.replace(/\D/g, "") === String(row))
      .map(formula)
      .join("");
  const headingRow = headings.map((text, index) =>
    cell(`${"BCD"[index] as string}2`, text.replace("_x000a_", "&#10;")),
  );
  const parts = partsOf(
    {
      S: `<row r="1">${on(1)}</row><row r="2">${headingRow.join("")}${on(2)}</row><row r="3"><c r="B3"><v>1</v></c><c r="C3"><v>10</v></c><c r="D3"><v>100</v></c>${on(3)}</row><row r="4"><c r="B4"><v>2</v></c><c r="C4"><v>20</v></c><c r="D4"><v>200</v></c>${on(4)}</row><row r="5">${on(5)}</row>`,
      "My sheet": `<row r="1"><c r="A1"><v>7</v></c><c r="A2"><v>8</v></c></row>`,
    },
    `<definedNames>${names}</definedNames>`,
  );
  parts["xl/worksheets/_rels/sheet1.xml.rels"] =
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${DOCUMENT}/table" Target="../tables/table1.xml"/></Relationships>`;
  parts["xl/tables/table1.xml"] =
    `<table id="1" name="Lots" displayName="Lots" ref="B2:D5" totalsRowCount="1"><tableColumns>${headings.map((name, index) => `<tableColumn id="${index + 1}" name="${name}"/>`).join("")}</tableColumns></table>`;
  return parts;
}

/** The cells that are not reproduced, with what this engine gives. */
function beyond(parts: Record<string, string>): string[] {
  const { unreproduced, taken, error } = recalculate({ file: written("out.xlsx", parts), called: "out.xlsx" });
  return [
    ...(error === undefined ? [] : [error]),
    ...unreproduced.map(({ cell, formula, saved, now }) => `${cell} ${formula} ${String(saved)} ${String(now)}`),
    ...taken.map(({ cell, message }) => `${cell} ${message}`),
  ];
}

// ECMA-376 part 1, 18.17.6.3 (structure references) and 18.2.5 (defined names).
describe("references by headings", () => {
  test("columns, areas of columns, rows of headings and totals, headings with blanks, line breaks and marks", () => {
    expect(
      beyond(
        book({
          F1: "SUM(Lots[mass])|3",
          F2: "SUM(Lots[[mass]:[price & duty]])|33",
          F3: "Lots[[#This Row],[mass]]+Lots[@[price & duty]]|11",
          F4: "SUM(Lots[@])|222",
          G1: "SUM(Lots[two\nlines])|300",
          G2: "COUNTA(Lots[#Headers])|3",
          G3: "SUM(Lots[[#This Row],[mass]:[two\nlines]])|111",
          G4: "Lots[[#Totals],[mass]]*2|6",
          H1: "ROWS(Lots[#All])|4",
          H2: "ROWS(Lots[])|2",
          H3: "SUM(Lots[[#Data],[#Totals],[mass]])|6",
          H4: "Lots[nothing such]|#REF!",
          B5: "SUBTOTAL(109,[mass])|3",
          C5: "SUBTOTAL(109,Lots[price & duty])|30",
        }),
      ),
    ).toEqual([]);
    const marked = book({ F1: "SUM(Lots['#1])|3", F2: "SUM(Lots[a'[b']])|30", F3: "SUM(Lots[it''s])|300" }, "", [
      "#1",
      "a[b]",
      "it's",
    ]);
    expect(beyond(marked)).toEqual([]);
  });

  test("what a formula reads by headings and names is known", () => {
    const parts = book({ F3: "Lots[@mass]+Rate|8" }, "<definedName name=\"Rate\">'My sheet'!$A$1</definedName>");
    const opened = openBook(readFileSync(written("reads.xlsx", parts)), "reads.xlsx");
    const [formula] = formulasOf(opened);
    expect(formula?.written).toBe("B3+'My sheet'!$A$1");
    expect(
      readingsOf(formula as NonNullable<typeof formula>, opened).map(({ sheet, area }) => [sheet, area.top]),
    ).toEqual([
      ["s", 3],
      ["my sheet", 1],
    ]);
  });
});

describe("names", () => {
  test("that stand for formulas, of a sheet, of this very workbook, for cells beside the formula, for errors", () => {
    const names = [
      '<definedName name="Twice">SUM(S!$B$3:$B$4)*2</definedName>',
      '<definedName name="Rate">5</definedName>',
      '<definedName name="Rate" localSheetId="1">6</definedName>',
      '<definedName name="Left">S!XFD1</definedName>',
      '<definedName name="Again">Twice+1</definedName>',
      '<definedName name="Lost">#REF!</definedName>',
      '<definedName name="Endless">Endless+1</definedName>',
      '<definedName name="x">9</definedName>',
    ].join("");
    const formulas = {
      F1: "Twice^2|36",
      G1: "Rate+'My sheet'!Rate|11",
      H1: "Left+1|12",
      F3: "[0]!Rate|5",
      G3: "Again|7",
      H3: "IFERROR(Lost,4)|4",
      F4: "LET(x,2,x*3)|6",
      G4: 'IF("Rate"="x",1,2)|2',
      H4: "x+1|10",
    };
    expect(beyond(book(formulas, names))).toEqual([]);
    expect(beyond(book({ F1: "Endless|1" }, names))).toHaveLength(1);
  });
});
