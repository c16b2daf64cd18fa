import { describe, expect, test } from "vitest";
import { CellError } from "../../src/recalculate/engine";
import { messageOf, sheet } from "../support/functions";

const STAGES = '{"scour",0.42,0.16,0;"spin",0.05,0.1825,0}';
const codes = (outcome: unknown): unknown => (outcome instanceof CellError ? outcome.code : outcome);
const cells = (formula: string): unknown => {
  const outcome = sheet(formula);
  return Array.isArray(outcome) ? outcome.map((row) => row.map(codes)) : codes(outcome);
};

describe("refusals of the route functions name what is wrong", () => {
  test.each([
    ["=YARN.NEED(100,18.25)", "#VALUE! losses is 18.25; write 18.25% or 0.1825"],
    ["=YARN.NEED(100,{0.1;1})", "#VALUE! losses item 2 is 1; write 1% or 0.01"],
    ['=YARN.NEED(100,{0.1;"";0.1})', "#VALUE! losses item 2 is blank"],
    ["=YARN.NEED(-1,0.1)", "#VALUE! output is -1"],
    ['=YARN.NEED(1,0.1,"inputs")', '#VALUE! basis is "inputs", not a loss basis; write input or output'],
    ['=YARN.NEED(1,{0.1;-1},"output")', "#VALUE! losses item 2 is -1; a loss on the output must be above -1"],
    ['=YARN.MADE("ten",0.1)', '#VALUE! input is text "ten"'],
    [`=YARN.ROUTE(0,${STAGES},"made")`, "#VALUE! quantity is 0; must be a number above 0"],
    [`=YARN.ROUTE(100,${STAGES},"forward")`, '#VALUE! direction is "forward", not a direction; write needed or made'],
    [`=YARN.ROUTE(100,${STAGES},"")`, "#VALUE! direction is blank; must be given"],
    [`=YARN.ROUTE(100,${STAGES},"made",16)`, "#VALUE! regain_start is 16; write 16% or 0.16"],
    ['=YARN.ROUTE(100,{"a",0.1,0.16;"b","",0.16},"made")', "#VALUE! stages row 2, loss, is blank"],
    ['=YARN.ROUTE(100,{"a",0.1,0.16;"b",5,0.16},"made")', "#VALUE! stages row 2, loss, is 5; write 5% or 0.05"],
    ['=YARN.ROUTE(100,{"a",0.1,18.25},"made")', "#VALUE! stages row 1, regain out, is 18.25; write 18.25% or 0.1825"],
    [
      '=YARN.ROUTE(100,{"a",0.1,0,0;"b",0.6,0,0.4},"made")',
      "#VALUE! stages row 2, loss and by-product, is 1 in all; must be below 1 (100%)",
    ],
    [
      '=YARN.ROUTE(100,{"a",0.1},"made")',
      "#VALUE! stages is 2 columns wide; give 3 to 4: stage, loss, regain out, by product",
    ],
    ["=YARN.STAGELOSS(0,0,1,0)", "#VALUE! mass_in is 0; must be a number above 0"],
    ["=YARN.STAGELOSS(100,18.25,1,0)", "#VALUE! regain_in is 18.25; write 18.25% or 0.1825"],
    ["=YARN.DYELOTS(100,50,60)", "#VALUE! minimum is 60; must not pass capacity, which is 50"],
    ["=YARN.DYELOTS(100,0)", "#VALUE! capacity is 0"],
    ["=YARN.DYELOTS(1000000,1)", "#VALUE! mass is 1000000 lots; must need at most 10000"],
    ["=YARN.DYEBATH(100,0.0486,0.02)", "#VALUE! liquor_ratio is 0.0486; must be a number, 1 to 200 (10 for 1:10)"],
    ["=YARN.DYEBATH(100,10,{0.02;2})", "#VALUE! shares item 2 is 2; write 2% or 0.02"],
  ])("%s: %s", (formula, message) => {
    expect(messageOf(formula)).toContain(message);
    expect(messageOf(formula).replace(/^\S+ /, "").length).toBeLessThanOrEqual(120);
  });
});

describe("a column stays readable", () => {
  test("one list of losses serves a column or a row; blanks and bad rows stay alone", () => {
    expect(cells('=YARN.NEED({90;"";-1;45},{0.1})')).toEqual([[100], [""], ["#VALUE!"], [50]]);
    expect(cells("=YARN.MADE({100,200},{0.5;0.5})")).toEqual([[25, 50]]);
    expect(cells('=YARN.NEED({90;"x";45},0.1)')).toEqual([[100], ["#VALUE!"], [50]]);
    expect(cells("=YARN.NEED({90;#N/A;45},0.1)")).toEqual([[100], ["#N/A"], [50]]);
  });

  test("basis broadcasts, and its blank is the default", () => {
    expect(cells('=YARN.MADE(100,0.25,{"input";"output";""})')).toEqual([[75], [80], [75]]);
    expect(cells("=YARN.MADE(100,0.25,)")).toBe(75);
  });

  test("shapes that do not match are named", () => {
    expect(messageOf('=YARN.MADE({1;2;3},0.1,{"input";"output"})')).toBe(
      "#VALUE! basis is 2×1; must be one cell or match input, which is 3×1",
    );
  });

  test("measured losses: a by-product of another moisture, blanks as defaults", () => {
    // 100 dry in; 90 dry out; 5 dry of noil, weighed at 20 % or, left out, at the 10 % of the output.
    expect(cells('=YARN.STAGELOSS(116,0.16,99,0.1,{6;5.5},{0.2;""})')).toEqual([[0.05], [0.05]]);
    expect(cells('=YARN.STAGELOSS({116;"";116},0.16,{99;99;"x"},0.1)')).toEqual([[0.1], [""], ["#VALUE!"]]);
  });

  test("a bad bath stays alone under its header", () => {
    expect(cells('=YARN.DYEBATH({100;"";-5},10,0.02)')).toEqual([
      ["liquor (litres)", "dye 1 (kg)"],
      [1000, 2],
      ["", ""],
      ["#VALUE!", "#VALUE!"],
    ]);
    expect(cells("=YARN.DYEBATH({100,50},10,{0.02,0.01})")).toEqual([
      ["liquor (litres)", "dye 1 (kg)", "dye 2 (kg)"],
      [1000, 2, 1],
      [500, 1, 0.5],
    ]);
  });
});

describe("tables taken whole", () => {
  test("blank rows after the last stage are no stages, and a blank by-product is none", () => {
    const long = sheet('=YARN.ROUTE(100,{"a",0.1,0,"";"b",0.1,0,0;"","","",""},"made")');
    expect(long).toEqual(sheet('=YARN.ROUTE(100,{"a",0.1,0;"b",0.1,0},"made")'));
  });

  test("an error value in the stages is the answer", () => {
    expect(cells('=YARN.ROUTE(100,{"a",0.1,0;"b",#REF!,0},"made")')).toBe("#REF!");
  });
});
