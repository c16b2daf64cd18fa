import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openBook } from "../src/recalculate/book";
import { formulasOf, secondVoice } from "../src/recalculate/calculation";
import { recalculate, type Job } from "../src/recalculate/recalculation";
import { settingIn } from "../src/recalculate/set-values";
import { CellError } from "../src/recalculate/values";
import { bundledFunctions } from "./support/functions";
import { partsOf, rows, written } from "./support/workbooks";

const judged = (parts: Record<string, string>, job: Partial<Job> = {}) =>
  recalculate({ file: written("two.xlsx", parts), called: "two.xlsx", ...job });

/** What the second engine gives for one formula beside the figures 100, 200, 300 and the words spin, dye, spin. */
function second(formula: string, spills = true) {
  const escaped = formula.replace(/&/g, "&amp;").replace(/</g, "&lt;");
  const cells = `<row r="1"><c r="A1"><v>100</v></c><c r="B1"><v>200</v></c><c r="C1"><v>300</v></c></row><row r="2"><c r="A2" t="str"><v>spin</v></c><c r="B2" t="b"><v>1</v></c><c r="C2" t="e"><v>#N/A</v></c></row><row r="4"><c r="E4"><f>${escaped}</f><v>0</v></c></row>`;
  const book = openBook(readFileSync(written("second.xlsx", partsOf({ S: cells }))), "second.xlsx");
  const [cell] = formulasOf(book);
  const voice = secondVoice(book, formulasOf(book), bundledFunctions());
  const outcome = voice?.opinionOn({ ...(cell as NonNullable<typeof cell>), spills });
  voice?.forget();
  return outcome;
}

describe("the second engine", () => {
  test("calls our functions: values, arrays and spills, texts, errors with their messages", () => {
    // 1 NeC is 1.5 NeW; a metric count is 1000 over tex: definitions of the counts.
    expect(second('YARN.COUNT(10,"NeC","NeW")')).toBe(15);
    expect(second('YARN.COUNT(A1:C1,"NeC","NeW")')).toEqual([[150, 300, 450]]);
    expect(second('SUM(YARN.COUNT(A1:C1,"NeC","NeW"))')).toBe(900);
    expect(second('YARN.COUNT({25;50},"Nm","tex")*2')).toEqual([[80], [40]]);
    const refused = second('YARN.COUNT(-1,"NeC","NeW")');
    expect(refused).toBeInstanceOf(CellError);
    expect(refused).toMatchObject({ code: "#VALUE!", message: expect.stringMatching(/^value is -1; /) as string });
    const [[good, bad]] = second('YARN.COUNT(HSTACK(10,"x"),"NeC","NeW")') as [[unknown, CellError]];
    expect(good).toBe(15);
    expect(bad).toBeInstanceOf(CellError);
  });

  test("a number of many places is a number, as typed or with an exponent", () => {
    expect(second("A1<0.000000001", false)).toBe(false);
    expect(second("A1>1E-9", false)).toBe(true);
    expect(second("0.0000015*A1", false)).toBeCloseTo(0.00015, 15);
    expect(second('"0.000000001"', false)).toBe("0.000000001");
  });

  test("reads figures, texts, truths, errors and blanks, and chooses no value of a range for a plain cell", () => {
    expect(second("SUM(A1:C1,D9)")).toBe(600);
    expect(second('A2&"!"')).toBe("spin!");
    expect(second("IF(B2,1,2)")).toBe(1);
    expect(second("IFERROR(C2,7)")).toBe(7);
    expect(second("C2")).toMatchObject({ code: "#N/A" });
    expect(second("D9")).toBe(0);
    expect(second("A1:C1*2", false)).toBeUndefined();
    expect(second("SUM(A1:C1", false)).toBeUndefined();
  });
});

// Values of the first five: Microsoft Support's pages of INDEX, LEN, CEILING, CONVERT and SUMIFS; the others by hand.
describe("native formulas are reproduced when either engine does", () => {
  test("functions of one value over arrays, lists of criteria, INDEX into a row, sums that miss by a bit", () => {
    const formulas = [
      "=INDEX(A1:C1,2)|200",
      '=SUM(LEN({"a","bb"}))|3',
      "=CEILING(-23.5,1)|-23",
      '=CONVERT(1,"lbm","g")|453.59237',
      "=SUM(SUMIFS(A1:C1,A1:C1,{100,200}))|300",
      "=IF(0.1+0.2=0.3,1,2)|1",
      "=SUMPRODUCT(MOD({3;8;9},7))|6",
      '=SUMPRODUCT(--(LEFT({"k1";"k2";"x"},1)="k"))|2',
      "=SUM(ROUNDUP({1.2;2.3},0))|5",
      "=IFERROR(#REF!,7)|7",
      "=SUMIF(A1,100,C1)|300",
      "=FLOOR(-23.5,1)|-24",
      "=SUBTOTAL(9,A1,B1)|300",
    ];
    const parts = partsOf({ S: rows([100, 200, 300], ...formulas.map((formula) => [1, 2, 3, formula])) });
    expect(judged(parts)).toMatchObject({ unreproduced: [], taken: [], engines: 2 });
    expect(judged(parts, { oneEngine: true }).engines).toBe(1);
  });

  test("arrays in the place of one value, and one number into a row, are no matter for a second engine", () => {
    const formulas = [
      "=INDEX(A1:C1,2)|200",
      "=INDEX({5,6,7},3)|7",
      "=SUM(INDEX(A1:C1,1,0))|600",
      '=SUM(LEN({"a","bb"}))|3',
      "=SUM(SUMIFS(A1:C1,A1:C1,{100,200}))|300",
      "=SUMPRODUCT(MOD({3;8;9},7))|6",
      '=SUMPRODUCT(--(LEFT({"k1";"k2";"x"},1)="k"))|2',
      "=SUM(ROUNDUP({1.2;2.3},0))|5",
      "=SUMPRODUCT(--(COUNTIF(A1:C1,{100,150})<>1))|1",
      "=SUM(VLOOKUP({1;2},{1,10;2,20},2,FALSE))|30",
    ];
    const parts = partsOf({ S: rows([100, 200, 300], ...formulas.map((formula) => [1, 2, 3, formula])) });
    expect(judged(parts, { oneEngine: true })).toMatchObject({ unreproduced: [], taken: [], engines: 1 });
  });

  // Excel's values: saved by Excel in Apache POI's test workbook 56315.xlsx (the first); told in HyperFormula's issue 1746
  // and in PhpSpreadsheet's pull request 1404 (the next three); "How does Excel successfully round floating-point numbers
  // even though they are imprecise?" on Stack Overflow (the last).
  test.each([
    ["ROUND(1*(0.001+0.5-0.4-0.05-0.001),1)", 0.1],
    ["ROUND(21.9/0.2,0)", 110],
    ["ROUNDUP(2.21+2.19,2)", 4.4],
    ["ROUNDDOWN(2.26+2.94,2)", 5.2],
    ["ROUND(19810222/2^19+21474836/2^47,2)", 37.79],
  ])("%s rounds the number that its cell shows, in either engine", (formula, wanted) => {
    expect(second(formula, false)).toBe(wanted);
    const parts = partsOf({ S: rows([`=${formula}|${wanted}`, `=-${formula}|${-wanted}`]) });
    expect(judged(parts, { oneEngine: true }).unreproduced).toEqual([]);
  });

  test("rounding leaves alone what has no more digits, passes errors on and goes along arrays", () => {
    const parts = partsOf({
      S: rows([
        "=ROUND(1234567,-3)|1235000",
        "=ROUND(1E+300,2)|1E+300",
        "=ROUNDUP(-2.1,0)|-3",
        "=ROUNDDOWN(-2.9,0)|-2",
        '=SUM(ROUNDDOWN({1.2,"3.7"},{0;1}))|8.9',
        "=IFERROR(ROUND(1/0,1),7)|7",
      ]),
    });
    expect(judged(parts, { oneEngine: true }).unreproduced).toEqual([]);
    expect(judged(parts).unreproduced).toEqual([]);
  });

  // The values are Excel's, saved in Gnumeric's samples/ifs-funcs.xlsx, sheet Selector; the counts follow from them.
  test('the criteria "=" and "<>" ask for empty cells, and a formula that shows nothing is none', () => {
    const cells = [
      ['t="str"><v>xyz</v>', 1],
      ['t="str"><f>""</f><v></v>', 2],
      ['t="str"><f>" "</f><v xml:space="preserve"> </v>', 4],
      ['t="str"><v>12</v>', 8],
      ["><v>12</v>", 16],
      [undefined, 32],
      ['t="b"><v>0</v>', 64],
      ['t="b"><v>1</v>', 128],
      ['t="e"><f>1/0</f><v>#DIV/0!</v>', 256],
    ] as const;
    const data = cells.map(
      ([cell, figure], at) =>
        `<row r="${at + 1}">${cell === undefined ? "" : `<c r="A${at + 1}" ${cell}</c>`}<c r="B${at + 1}"><v>${figure}</v></c></row>`,
    );
    const asked = [
      ['SUMIF($A$1:$A$9,"",$B$1:$B$9)', 34],
      ['SUMIF($A$1:$A$9,"=",$B$1:$B$9)', 32],
      ['SUMIF($A$1:$A$9,"<>",$B$1:$B$9)', 479],
      ['SUMIFS($B$1:$B$9,$A$1:$A$9,"<>",$B$1:$B$9,"<100")', 95],
      ['COUNTIF($A$1:$A$9,"<>")', 8],
      ['COUNTIFS($B$1:$B$9,">1",$A$1:$A$9,"=")', 1],
      ['AVERAGEIF($A$1:$A$9,"=",$B$1:$B$9)', 32],
      ['MAXIFS($B$1:$B$9,$A$1:$A$9,"=")', 32],
      // A range of one cell.
      ['COUNTIF(B3,4)+COUNTIF(A1,"x*")+COUNTIF(A6,"=")', 3],
    ] as const;
    const lines = asked.map(
      ([formula, value], at) =>
        `<row r="${at + 20}"><c r="A${at + 20}"><f>${formula.replace(/</g, "&lt;")}</f><v>${value}</v></c></row>`,
    );
    const parts = partsOf({ S: [...data, ...lines].join("") });
    expect(judged(parts)).toMatchObject({ unreproduced: [], taken: [] });
    expect(judged(parts, { oneEngine: true })).toMatchObject({ unreproduced: [], taken: [] });
  });

  // Apache POI's test workbook 61495-test.xlsm, saved where the comma is the decimal sign: TEXT(…,"00,00") gave 68,20.
  test("a text of a number hangs on the language of the program that saved it, so no other is sure", () => {
    const cells = '<row r="1"><c r="A1"><v>68.2</v></c><c r="B1" t="str"><f>TEXT(A1,"00,00")</f><v>68,20</v></c></row>';
    const [told, ...others] = judged(partsOf({ S: cells })).unreproduced;
    expect(told).toMatchObject({ cell: "B1", saved: "68,20" });
    expect([told?.sure, others]).toEqual([undefined, []]);
  });

  // Microsoft Support, "Floating-point arithmetic may give inaccurate results in Excel": 15 significant digits.
  test("a number in a text has fifteen digits, as it is compared and as it is written; a text is none", () => {
    const typed =
      '<row r="1"><c r="A1" t="str"><v>pi 3.14159265358979323846, bale 12345678901234567890</v></c><c r="B1" t="str"><f>A1&amp;"!"</f><v>pi 3.14159265358979323846, bale 12345678901234567890!</v></c></row>';
    expect(judged(partsOf({ S: typed }), { strict: true })).toMatchObject({ differences: [], unreproduced: [] });
    const changed =
      '<row r="1"><c r="A1"><v>21.9</v></c><c r="B1" t="str"><f>A1/0.2&amp;" kg"</f><v>109.5 kg</v></c></row>';
    for (const oneEngine of [true, false]) {
      const told = judged(partsOf({ S: changed }), { oneEngine, set: [settingIn("S!A1=21.7")] });
      expect(told).toMatchObject({ recalculated: [{ cell: "B1", now: "108.5 kg" }], notRecalculated: [] });
    }
    const cells = '<row r="1"><c r="A1" t="str"><f>1/3&amp;" kg"</f><v>0.333333333333333 kg</v></c></row>';
    expect(judged(partsOf({ S: cells }), { strict: true })).toMatchObject({ differences: [], unreproduced: [] });
    const other = cells.replace("333 kg", "334 kg");
    expect(judged(partsOf({ S: other })).unreproduced).toHaveLength(1);
  });

  test("a saved value on which both give another is surely stale, and counts in strict; an error is not sure", () => {
    const parts = partsOf({ S: rows([1, "=A1+1|3", "=SQRT(-1)|5", "=NOSUCH(1)|5"]) });
    const plain = judged(parts);
    expect(plain.differences).toEqual([]);
    expect(plain.unreproduced.map(({ cell, sure }) => [cell, sure])).toEqual([
      ["B1", true],
      ["C1", undefined],
    ]);
    expect(judged(parts, { strict: true })).toMatchObject({
      differences: [{ cell: "B1", saved: 3, now: 2, sure: true }],
      unreproduced: [{ cell: "C1" }],
    });
    // With one engine nothing is sure.
    expect(judged(parts, { strict: true, oneEngine: true }).differences).toEqual([]);
  });

  test("natives that read each other with iteration off are told as a circle, which has no result to be stale", () => {
    const parts = partsOf({ S: rows(["=B1+1|0", "=A1+1|0", "=1+1|2"]) });
    const circle = { saved: 0, now: 1, circular: true, message: expect.stringContaining("reads itself in a circle") };
    expect(judged(parts)).toMatchObject({ unreproduced: [circle, circle], taken: [] });
    expect(judged(parts, { strict: true })).toMatchObject({ differences: [circle, circle], unreproduced: [] });
  });

  test("functions of other add-ins cost their own cells only, however they are marked", () => {
    const strange = ["=NOSUCH(A1)|4", "=_xll.OTHER(A1)|5", "=ACME.PRICE(A1)|6", "=_xldudf_OTHER_PRICE(A1)|7"];
    const told = judged(partsOf({ S: rows([1, ...strange, "=SUM(B1:E1)|22"]) }), { strict: true });
    expect(told).toMatchObject({ cells: 1, differences: [], unreproduced: [], faults: [] });
    expect(told.taken.map(({ cell, message }) => [cell, /\S+ cannot be worked out here/.test(message)])).toEqual(
      ["B1", "C1", "D1", "E1"].map((cell) => [cell, true]),
    );
  });

  test("after a change each formula is worked out by the engine that reproduces it, turn by turn", () => {
    const parts = partsOf({
      S: rows([2, "=A1+1|3", "=INDEX(A1:B1,2)|3", "=C1*2|6", '=SUM(LEN({"a","bb"}))+D1|9', '=E1&""|9']),
    });
    const told = judged(parts, { set: [settingIn("S!A1=5")] });
    expect(told.recalculated.map(({ cell, now }) => [cell, now])).toEqual([
      ["B1", 6],
      ["C1", 6],
      ["D1", 12],
      ["E1", 15],
    ]);
    expect(told.notRecalculated.map(({ cell }) => cell)).toEqual(["F1"]);
  });

  test("exact look-ups are asked by an index: twice the rows are no more than about twice the work", () => {
    const [few, many] = [1000, 2000];
    for (const count of [few, many]) expect(lookUps(count)).toMatchObject({ cells: count, unreproduced: [] });
    // Searched from the top, twice the rows take four times as long. Other load makes a pass longer and never shorter.
    const passes = { few: Infinity, many: Infinity };
    for (let pass = 0; pass < 3 && !(passes.many / passes.few < 3); pass++) {
      passes.few = Math.min(
        passes.few,
        processorTime(() => lookUps(few)),
      );
      passes.many = Math.min(
        passes.many,
        processorTime(() => lookUps(many)),
      );
    }
    expect(passes.many / passes.few).toBeLessThan(3);
  });
});

/** Each row of a list looks up another row by its exact figure. */
function lookUps(count: number) {
  const lines = Array.from({ length: count }, (_, at) => [
    at + 1,
    2 * at,
    count - at,
    `=VLOOKUP(C${at + 1},A$1:B$${count},2,FALSE)|${2 * (count - 1 - at)}`,
  ]);
  return judged(partsOf({ S: rows(...lines) }));
}

/** What this process alone has worked, whatever else the machine does. */
function processorTime(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return user + system;
}
