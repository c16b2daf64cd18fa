import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

describe("MIXROUND", () => {
  test("gives the shape of its list", () => {
    expect(sheet("=YARN.MIXROUND({0.62,0.38},0.1)")).toEqual([[0.6, 0.4]]);
    expect(sheet("=YARN.MIXROUND({0.62;0.38},0.1)")).toEqual([[0.6], [0.4]]);
    expect(sheet("=YARN.MIXROUND({0.62,0.08;0.3,0},0.1)")).toEqual([
      [0.6, 0.1],
      [0.3, 0],
    ]);
  });

  test("leaves blank cells after the list blank, and refuses one inside it", () => {
    expect(sheet('=YARN.MIXROUND({0.62;0.38;""},0.1)')).toEqual([[0.6], [0.4], [""]]);
    expect(messageOf('=YARN.MIXROUND({0.62;"";0.38},0.1)')).toBe(
      "#VALUE! shares item 2 is blank; fill it in; a blank is not 0",
    );
  });

  test.each([
    ["=YARN.MIXROUND({62;38},0.01)", "#VALUE! shares item 1 is 62; write 62% or 0.62; must be 0 to 1 (0% to 100%)"],
    ["=YARN.MIXROUND({0.5;0.3},0.01)", "#VALUE! shares is 0.8 in all; must sum to 1"],
    ["=YARN.MIXROUND({0;0},0.01)", "#VALUE! shares is 0 in all; must sum to 1"],
    ["=YARN.MIXROUND({0.5;0.5},1E-180)", "#VALUE! step is 1e-180; must be 0.000001 or more"],
    ["=YARN.MIXROUND({0.5;0.5},0.03)", "#VALUE! step is 0.03; must go into 1 a whole number of times: 0.01, 0.05"],
    ["=YARN.MIXROUND({0.5;0.5},1)", "#VALUE! step is 1; is too coarse for 2 shares; take a finer one"],
    ["=YARN.MIXROUND({0.5;0.5},1%%)", undefined],
    ["=YARN.MIXROUND({0.5;0.5},0)", "#VALUE! step is 0; must be above 0 and at most 1 (100%)"],
    ['=YARN.MIXROUND({0.5;"half"},0.01)', '#VALUE! shares item 2 is text "half"; must be 0 to 1 (0% to 100%)'],
    ["=YARN.MIXROUND({0.5;#REF!},0.01)", "#REF! "],
  ])("%s", (formula, message) => {
    if (message === undefined) expect(sheet(formula)).toEqual([[0.5], [0.5]]);
    else expect(messageOf(formula)).toContain(message.trim());
  });
});

describe("MIXNEED", () => {
  test("a blank in a recipe is an unused solid", () => {
    expect(sheet('=YARN.MIXNEED({1,"";0.5,0.5},{10;20})')).toEqual([[20, 10]]);
  });

  test("loses in order, each of what enters its stage", () => {
    expect(sheet("=ROUND(YARN.MIXNEED({1},{81},{0.1;0.1}),9)")).toEqual(100);
  });

  test.each([
    [
      "=YARN.MIXNEED({0.6,0.4;0.5,0.4},{10;20})",
      "#VALUE! recipes row 2 is 0.9 in all; must sum to 1 (100%); MIXROUND mends rounded shares",
    ],
    ["=YARN.MIXNEED({0.6,0.400002},{10})", "#VALUE! recipes row 1 is 1.000002 in all; must sum to 1 (100%)"],
    ["=YARN.MIXNEED({0.6,0.4;0.5,0.5},{10})", "#VALUE! quantities is 1 item long; must have one per recipe, 2"],
    ["=YARN.MIXNEED({60,40},{10})", "write 60% or 0.6"],
    ["=YARN.MIXNEED({0.6,0.4},{-1})", "#VALUE! quantities is -1; must be a number, 0 or more"],
    ["=YARN.MIXNEED({0.6,0.4},{10},{1})", "#VALUE! losses is 1; write 1% or 0.01"],
    ["=YARN.MIXNEED({0.6,#N/A},{10})", "#N/A"],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("MIXSTOCK", () => {
  test("a blank limit is none", () => {
    expect(sheet('=YARN.MIXSTOCK({1,0;0,1},{30,40},{1;1},{10;""})')).toEqual([[10], [40]]);
    expect(sheet('=YARN.MIXSTOCK({1,0;0,1},{30,40},"",20)')).toEqual([[20], [20]]);
  });

  test("nothing in stock makes nothing", () => {
    expect(sheet("=YARN.MIXSTOCK({0.5,0.5;1,0},{0,0})")).toEqual([[0], [0]]);
  });

  test.each([
    ["=YARN.MIXSTOCK({0.5,0.4;1,0},{60,40})", "#VALUE! recipes row 1 is 0.9 in all; must sum to 1 (100%)"],
    ["=YARN.MIXSTOCK({0.5,0.5},{60})", "#VALUE! stock is 1 item long; must have one per solid of recipes, 2"],
    [
      "=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},{1;2;3})",
      "values is 3 items long; must be one cell or one per item of recipes, 2",
    ],
    ["=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},{1;0})", "#VALUE! values item 2 is 0; must be a number above 0"],
    ['=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},{1;""})', "#VALUE! values item 2 is blank; fill it in"],
    ["=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},1,{0;5})", "#VALUE! limits item 1 is 0; must be a number above 0"],
    [
      '=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},1,"",0.6)',
      "#N/A min_share is 1.2 in all; shares of 1 in all cannot be met",
    ],
    [
      '=YARN.MIXSTOCK({0.5,0.5;1,0},{60,40},1,"","",0.4)',
      "#N/A max_share is 0.8 in all; shares of 1 in all cannot be met",
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("LEASTCOST", () => {
  test("gives the shape of prices; blank and none are no limit", () => {
    expect(sheet('=YARN.LEASTCOST({12,9,7},{19;21;24},{"";20.5})')).toEqual([[0.25, 0.75, 0]]);
    expect(sheet('=YARN.LEASTCOST({12;9;7},{19;21;24},{" None ";"none"})')).toEqual([[0], [0], [1]]);
    expect(sheet('=YARN.LEASTCOST({12;9;7},{19,65;21,70;24,60},{"","";20.5,""})')).toEqual([[0.25], [0.75], [0]]);
  });

  test("a minimum of 0, as a blank may arrive, binds nothing that is above 0 anyway", () => {
    expect(sheet("=YARN.LEASTCOST({12;9;7},{19;21;24},{0;20.5})")).toEqual([[0.25], [0.75], [0]]);
  });

  test.each([
    [
      "=YARN.LEASTCOST({12;9;7},{19;21;24},{19;0})",
      "#VALUE! limits row 2, column 1 is 0, as a blank cell may arrive; write none, or 1E-9",
    ],
    [
      "=YARN.LEASTCOST({12;9},{-2;3},{0;2})",
      "#VALUE! limits row 1, column 1 is 0, as a blank cell may arrive; write none, or 1E-9",
    ],
    [
      "=YARN.LEASTCOST({12;9;7},{19;21;24},{22,23})",
      "#VALUE! limits is 1 row long; must be two rows, minimum and maximum",
    ],
    [
      "=YARN.LEASTCOST({12;9;7},{19;21;24},{19,1;21,2})",
      "#VALUE! limits is 2 columns wide; must have one column per property, 1",
    ],
    ["=YARN.LEASTCOST({12;9},{19;21;24},{19;20})", "#VALUE! properties is 3 rows long; must have one row per price, 2"],
    ["=YARN.LEASTCOST({12;0;7},{19;21;24},{19;20})", "#VALUE! prices item 2 is 0; must be a number above 0"],
    [
      '=YARN.LEASTCOST({12;9},{19;21},{19;"low"})',
      '#VALUE! limits row 2, column 1 is text "low"; must be a number, or none for no limit',
    ],
    ['=YARN.LEASTCOST({12;9},{"";21},{19;20})', "#VALUE! properties row 1, column 1 is blank; fill it in"],
    [
      '=YARN.LEASTCOST({12;9;7},{19;21;24},{"";18})',
      "#N/A limits row 2, column 1 is 18; these components reach 19 at the least",
    ],
    ["=YARN.LEASTCOST({12;9;7},{19;21;24},{21;20})", "#N/A limits row"],
    ['=YARN.LEASTCOST({12;9},{19;21},{"";20},0.6)', "#N/A min_share is 1.2 in all"],
    ['=YARN.LEASTCOST({12;9},{19;21},{"";20},"",{0.5;0})', "#VALUE! max_share item 2 is 0; must be above 0"],
    [
      '=YARN.LEASTCOST({12;9},{19;21},{"";20},"","","volume")',
      '#VALUE! weighting is "volume", not a weighting; write mass or length',
    ],
    [
      '=YARN.LEASTCOST({12;9},{19;-1},{"";20},"","","length")',
      "#VALUE! properties row 2, column 1 is -1; must be above 0 by length",
    ],
    ['=YARN.LEASTCOST({12;9},{19;21},{"";20},"","","length",22)', "#VALUE! cvs is 22; write 22% or 0.22"],
    ["=YARN.LEASTCOST({12;#DIV/0!},{19;21},{19;20})", "#DIV/0!"],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("LAYDOWN", () => {
  test("has a header with units, a row per component and a totals row", () => {
    const table = sheet("=YARN.LAYDOWN(100,{0.5;0.5;0},2,0.5)") as unknown[][];
    expect(table[0]).toEqual(["component", "kg per section", "kg in all", "realised share", "carry (kg)"]);
    expect(table.map((row) => row[0])).toEqual(["component", 1, 2, 3, "total"]);
    expect(table[3]).toEqual([3, 0, 0, 0, 0]);
    expect(table[4]).toEqual(["total", 50, 100, 1, 0]);
  });

  test("one regain stands for all components", () => {
    expect(sheet("=YARN.LAYDOWN(100,{0.5;0.5},2,0.5,0.16)")).toEqual(
      sheet("=YARN.LAYDOWN(100,{0.5;0.5},2,0.5,{0.16;0.16})"),
    );
    expect(sheet("=INDEX(YARN.LAYDOWN(100,{0.5;0.5},2,0.5,0.16),4,3)")).toBe(116);
  });

  test.each([
    [
      "=YARN.LAYDOWN(100,{0.5;0.4},2)",
      "#VALUE! shares is 0.9 in all; must sum to 1 (100%); MIXROUND mends rounded shares",
    ],
    ["=YARN.LAYDOWN(10,{0.98;0.02},5,0.5)", "#VALUE! shares item 2 is 0.04 kg a section; too little for a step of 0.5"],
    ["=YARN.LAYDOWN(100,{0.5;0.5},2.5)", "#VALUE! sections is 2.5; must be a whole number, 1 or more"],
    ["=YARN.LAYDOWN({100;200},{0.5;0.5},2)", "#VALUE! batch is 2×1 cells; must be a single cell"],
    ["=YARN.LAYDOWN(100,{0.5;0.5},2,0)", "#VALUE! step is 0; must be a number above 0"],
    ["=YARN.LAYDOWN(100,{0.5;0.5},2,0.5,16)", "#VALUE! regains is 16; write 16% or 0.16"],
    [
      "=YARN.LAYDOWN(100,{0.5;0.5},2,0.5,{0.16;0.12;0.1})",
      "#VALUE! regains is 3 items long; must be one cell or one per item of shares, 2",
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("SLIVERPLAN", () => {
  test("names the solids as the list does, foots, and is as wide as its passages want", () => {
    const table = sheet('=YARN.SLIVERPLAN({0.5;0.3;0.2},20,"ktex",10,,{"navy";"grey";"ecru"})') as unknown[][];
    expect(table.map(([name, slivers]) => [name, slivers])).toEqual([
      ["solid", "slivers"],
      ["navy", 5],
      ["grey", 3],
      ["ecru", 2],
      ["total", 10],
    ]);
    expect(table.every((row) => row.length === 5)).toBe(true);
    expect(sheet('=COLUMNS(YARN.SLIVERPLAN({0.5;0.5},20,"ktex",10,2))')).toBe(6);
  });

  test("refuses what a person gets wrong, by the argument's name", () => {
    for (const [call, message] of [
      ['{50;50},20,"ktex",10', "shares item 1 is 50; write 50% or 0.5"],
      ['{0.5;0.4},20,"ktex",10', "shares is 0.9 in all; must sum to 1"],
      ['{0.5;0.5},{20;20;20},"ktex",10', "counts is 3 items long; must be one cell or one per item of shares, 2"],
      ['{0.5;0.5},0,"ktex",10', "counts is 0; must be a number above 0"],
      ['{0.5;0.5},20,"kg",10', 'system is "kg", not a count system'],
      ['{0.5;0.5},20,"ktex",61', "slivers is 61; must be 60 at most"],
      ['{0.5;0.5},20,"ktex",2.5', "slivers is 2.5; must be a whole number"],
      ['{0.5;0.5},20,"ktex",10,3', "passages is 3; must be 1 or 2"],
      ['{0.5;0.5},20,"ktex",10,1,{"navy"}', "names is 1 item long; must match shares, which has 2"],
    ] as const) {
      expect(messageOf(`=YARN.SLIVERPLAN(${call})`)).toContain(message);
    }
  });
});
