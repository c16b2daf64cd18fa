import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { asTyped } from "../src/recalculate/formula-text";
import { asExcelStores, inFileForm } from "../src/recalculate/future-functions";
import { openBook } from "../src/recalculate/book";
import { makeMended } from "../src/recalculate/mended-copy";
import { partsOf, place, textsOf, written } from "./support/workbooks";

/** A formula in the second row of the Table Lots in A1:D9, or on a sheet without one. */
const stored = (typed: string, spills = true, inTable = true) =>
  asExcelStores({
    stored: typed,
    spills,
    sheet: { tables: inTable ? [{ displayName: "Lots", reference: "A1:D9" }] : [] } as never,
    cell: { row: 2, column: 2 } as never,
  });

/**
 * What is typed and what a file holds. [MS-XLSX] 2.2.2 (structure references in files, functions with a prefix);
 * ClosedXML issue 2251 (SINGLE, ANCHORARRAY, _xlpm) and XlsxWriter issue 215 ([#This Row]); from memory: _xlop.
 */
const FORMS: readonly (readonly [string, string])[] = [
  ["Lots[@mass]", "Lots[[#This Row],[mass]]"],
  ["[@mass]*2", "Lots[[#This Row],[mass]]*2"],
  ["Lots[@[a]:[b]]", "Lots[[#This Row],[a]:[b]]"],
  ["SUM([@[net mass]:[price (EUR)]])", "SUM(Lots[[#This Row],[net mass]:[price (EUR)]])"],
  ["[@[price '[EUR']]]", "Lots[[#This Row],[price '[EUR']]]"],
  ["Lots[@]", "Lots[#This Row]"],
  ["SUM([mass])", "SUM(Lots[mass])"],
  ["SUM(Lots[[#Totals],[mass]])", "SUM(Lots[[#Totals],[mass]])"],
  ["@A1:A9", "_xlfn.SINGLE(A1:A9)"],
  ["@INDEX(A1:A9,2)", "_xlfn.SINGLE(INDEX(A1:A9,2))"],
  ['@INDEX(A1:A9,MATCH("a)",@B1:B9,0))+1', '_xlfn.SINGLE(INDEX(A1:A9,MATCH("a)",_xlfn.SINGLE(B1:B9),0)))+1'],
  ["@Lots[mass]", "_xlfn.SINGLE(Lots[mass])"],
  ["@Rate*2", "_xlfn.SINGLE(Rate)*2"],
  ["@'My sheet'!A:A", "_xlfn.SINGLE('My sheet'!A:A)"],
  ["SUM(E2#)", "SUM(_xlfn.ANCHORARRAY(E2))"],
  ["'My sheet'!$E$2#", "_xlfn.ANCHORARRAY('My sheet'!$E$2)"],
  ["LET(x,A1,x*x)", "_xlfn.LET(_xlpm.x,A1,_xlpm.x*_xlpm.x)"],
  ["LAMBDA(a,b,a+b)(1,2)", "_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+_xlpm.b)(1,2)"],
  [
    "LAMBDA(a,[b],IF(ISOMITTED(b),a,a+b))(1)",
    "_xlfn.LAMBDA(_xlpm.a,_xlop.b,IF(_xlfn.ISOMITTED(_xlop.b),_xlpm.a,_xlpm.a+_xlop.b))(1)",
  ],
  ["MAP(A1:A3,LAMBDA(größe,größe*2))", "_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.größe,_xlpm.größe*2))"],
  ["FILTER(A1:A9,B1:B9>0)", "_xlfn._xlws.FILTER(A1:A9,B1:B9>0)"],
  ["SORT(UNIQUE(A1:A9))", "_xlfn._xlws.SORT(_xlfn.UNIQUE(A1:A9))"],
  ["SORTBY(A1:A9,B1:B9)", "_xlfn.SORTBY(A1:A9,B1:B9)"],
  ["ENCODEURL(A1)&WEBSERVICE(B1)", "_xlfn.ENCODEURL(A1)&_xlfn.WEBSERVICE(B1)"],
  ["IMAGE(A1)", "_xlfn.IMAGE(A1)"],
  ['YARN.COUNT(Lots[@mass],"Nm","tex")', '_xldudf_YARN_COUNT(Lots[[#This Row],[mass]],"Nm","tex")'],
  ['"LET(x,[@mass],A1#) @A1:A2"', '"LET(x,[@mass],A1#) @A1:A2"'],
  ["'FILTER(1)'!A1+[1]Far!A1", "'FILTER(1)'!A1+[1]Far!A1"],
];

describe("a formula in the form of a file", () => {
  test.each(FORMS)("%s", (typed, file) => {
    expect(stored(typed)).toBe(file);
    expect(stored(file)).toBe(file);
    expect(stored(asTyped(file))).toBe(file);
  });

  test("@ is left unsaid where the formula fills one cell, and outside a Table no name is made up", () => {
    expect(stored("@INDEX(A1:A9,2)+@A1:A9", false)).toBe("INDEX(A1:A9,2)+A1:A9");
    expect(stored("[@mass]", true, false)).toBe("[@mass]");
    expect(inFileForm("LET(x,2,FILTER(A1:A9,A1:A9>x))")).toBe(
      "_xlfn.LET(_xlpm.x,2,_xlfn._xlws.FILTER(A1:A9,A1:A9>_xlpm.x))",
    );
  });

  test("two hundred formulas lead there and back and stay as they are when they are there", () => {
    const arguments_ = [
      "A1:A9",
      "Lots[@mass]",
      "E2#",
      "@INDEX(A1:A9,2)",
      '"a ""b"" [@x]"',
      "LET(x,1,x+1)",
      "'My sheet'!B2",
    ];
    const around = (inner: string, other: string) => [
      `SUM(${inner},${other})`,
      `FILTER(${inner},${other})`,
      `LET(mass,${inner},mass+IFERROR(${other},0))`,
      `MAP(${inner},LAMBDA(one,[two],IF(ISOMITTED(two),one,${other})))`,
      `YARN.COUNT(${inner},"Nm",TEXTJOIN("-",TRUE,${other}))`,
    ];
    const formulas = arguments_.flatMap((inner) => arguments_.flatMap((other) => around(inner, other)));
    expect(formulas.length).toBeGreaterThan(200);
    for (const typed of formulas) {
      const file = stored(typed);
      expect(stored(file)).toBe(file);
      expect(stored(asTyped(file))).toBe(file);
      const outside = file.replace(/"(?:[^"]|"")*"/g, '""');
      // Nothing of the screen's form is left outside texts.
      expect(outside).not.toMatch(
        /@|#(?!This Row)|YARN\.|(?<![.\w])(?:FILTER|LET|MAP|LAMBDA|TEXTJOIN|ISOMITTED|SINGLE)\(/,
      );
      expect(outside.replace(/_xl[po][mp]\./g, "")).not.toMatch(/_xlpm|_xlop/);
    }
  });

  test("mend writes it whole, also in names", () => {
    const parts = partsOf(
      {
        S: '<row r="1"><c r="A1"><v>10</v></c><c r="B1"><f>LET(x,YARN.COUNT(@A1:A1,"NeC","NeW"),IFNA(x,0))</f></c><c r="C1"><f>LET(y,1,y)</f><v>1</v></c></row>',
      },
      '<definedNames><definedName name="Twice">LAMBDA(a,YARN.COUNT(a,"NeC","NeW"))</definedName></definedNames>',
    );
    const out = place("file-form.xlsx");
    expect(makeMended({ file: written("script.xlsx", parts), called: "script.xlsx", out })).toMatchObject({
      changed: 1,
    });
    const texts = textsOf(out);
    expect(texts["xl/worksheets/sheet1.xml"]).toContain(
      ">_xlfn.LET(_xlpm.x,_xldudf_YARN_COUNT(_xlfn.SINGLE(A1:A1),&quot;NeC&quot;,&quot;NeW&quot;),_xlfn.IFNA(_xlpm.x,0))</f><v>15</v>",
    );
    // What is not ours stays as the script wrote it.
    expect(texts["xl/worksheets/sheet1.xml"]).toContain("<f>LET(y,1,y)</f><v>1</v>");
    expect(texts["xl/workbook.xml"]).toContain(
      ">_xlfn.LAMBDA(_xlpm.a,_xldudf_YARN_COUNT(_xlpm.a,&quot;NeC&quot;,&quot;NeW&quot;))<",
    );
    expect(openBook(readFileSync(out), "out").names).toHaveLength(1);
  });
});
