import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CellError } from "../../src/recalculate/engine";
import { type Value } from "../../src/recalculate/engine";
import { LONGEST_MESSAGE } from "../../src/trade/refusal";
import { messageOf, sheet, sourceFunctions } from "../support/functions";
import { decimals } from "../support/money-arbitraries";

function rowsOf(formula: string): Value[][] {
  const outcome = sheet(formula);
  if (!Array.isArray(outcome)) throw new Error(`${formula} gave ${JSON.stringify(outcome)}, not rows`);
  return outcome;
}

/** A call as Excel makes it: rows of cells, null for what is left out. */
function call(id: string, ...cells: unknown[]): unknown[][] {
  return (sourceFunctions.get(id) as (...given: unknown[]) => unknown[][])(...cells);
}

const error = (code: string, message?: string): CellError =>
  expect.objectContaining(message === undefined ? { code } : { code, message }) as CellError;

describe("the message of each refusal names the argument, what came and what is allowed", () => {
  const MESSAGES: readonly (readonly [formula: string, message: string])[] = [
    [
      "=YARN.PRICEFORMARGIN(36,55)",
      "#VALUE! margin is 55; write 55% or 0.55; must be below 1 (100%) and not below -10",
    ],
    ["=YARN.PRICEFORMARGIN(-1,0.5)", "#VALUE! cost is -1; must be a number, 0 or more"],
    ['=YARN.PRICEFORMARGIN("x",0.5)', '#VALUE! cost is text "x"; must be a number, 0 or more'],
    ["=YARN.PRICEFORMARKUP(36,50)", "#VALUE! markup is 50; write 50% or 0.5; must be -1 to 10 (-100% to 1000%)"],
    ["=YARN.MARGIN(5,0)", "#DIV/0! price is 0; must be above 0"],
    ["=YARN.MARKUP(0,5)", "#DIV/0! cost is 0; must be above 0"],
    ["=YARN.BREAKEVEN(10,5,5)", "#DIV/0! variable is 5, the same as price; must be below price"],
    ["=YARN.BREAKEVEN(10,5,6)", "#N/A variable is 6, above price 5; no quantity breaks even"],
    ["=YARN.MARGIN({1;2},{1;2;3})", "#VALUE! cost is 2×1; must be one cell or match price, which is 3×1"],
    [
      "=YARN.VARIANCE({1;2},{1},{1;2},{1;2})",
      "#VALUE! actual_quantity is 1 item long; must match standard_quantity, which has 2",
    ],
    [
      '=YARN.VARIANCE({1;2},{1;2},{1;""},{1;2})',
      "#VALUE! standard_price is 1 item long; must match standard_quantity, which has 2",
    ],
    [
      '=YARN.VARIANCE({1;2},{"";2},{1;1},{1;2})',
      "#VALUE! actual_quantity item 1 is blank; fill it in; a blank is not 0",
    ],
    ["=YARN.VARIANCE({1;-2},{1;2},{1;1},{1;2})", "#VALUE! standard_quantity item 2 is -2; must be a number, 0 or more"],
    ["=YARN.VARIANCE({0;0},{1;2},{1;1},{1;2})", "#DIV/0! standard_quantity is 0 in all; must not sum to 0"],
    ['=YARN.VARIANCE(1,1,1,1,"mean")', '#VALUE! method is "mean", not a method; write individual or average'],
    ["=YARN.JOINTCOST(0,{1;1},{1;1})", "#VALUE! joint_cost is 0; must be a number above 0"],
    ['=YARN.JOINTCOST(9,{0;0},{1;1},,"physical")', "#DIV/0! quantities is 0 in all; must not sum to 0"],
    ["=YARN.JOINTCOST(9,{1;1},{0;0})", "#DIV/0! net realisable value is 0 in all; must not sum to 0"],
    ["=YARN.JOINTCOST(9,{1;1},{5;1},{0;2})", "#VALUE! separable item 2 is 2; must not exceed its sales value of 1"],
    ["=YARN.JOINTCOST(9,{1;1},{5;1},{0;2;3})", "#VALUE! separable is 3 items long; must match quantities, which has 2"],
    [
      '=YARN.JOINTCOST(9,1,1,,"weight")',
      '#VALUE! method is "weight", not a method; write physical, sales value, net realisable or constant margin',
    ],
    ['=YARN.EQUIVALENT("lifo",0,0,1,0,0,0,1)', '#VALUE! method is "lifo", not a method; write average or fifo'],
    [
      '=YARN.EQUIVALENT("fifo",0,60,1,0,0,0,1)',
      "#VALUE! opening_done is 60; write 60% or 0.6; must be 0 to 1 (0% to 100%)",
    ],
    [
      '=YARN.EQUIVALENT("fifo",100,0.5,60,40,0.5,9,1)',
      "#VALUE! completed_units is 60; by fifo the opening 100 are completed first",
    ],
    [
      '=YARN.EQUIVALENT("fifo",0,0,0,0,0,0,1)',
      "#DIV/0! the number of equivalent units is 0; there is nothing to bear the cost",
    ],
    ['=YARN.STOCKLEDGER({1,2},"lifo")', '#VALUE! method is "lifo", not a method; write fifo or average'],
    [
      '=YARN.STOCKLEDGER({1,2,3,4,5},"fifo")',
      "#VALUE! events is 5 columns wide; give 1 to 4: quantity, unit cost, value, kind",
    ],
    ['=YARN.SWING({"a";"b"},{1;2;3},{1;2;3})', "#VALUE! labels is 2×1; must be one cell or match lows, which is 3×1"],
    ["=YARN.ORDERSIZE(0,{0;50},{8;6})", "#VALUE! need is 0; must be a number above 0"],
    ["=YARN.ORDERSIZE(5,{0;50},{8;0})", "#VALUE! rates item 2 is 0; must be a number above 0"],
    ['=YARN.ORDERSIZE(5,{0;50},{"";6})', "#VALUE! rates item 1 is blank; fill it in; a blank is not 0"],
    ["=YARN.ORDERSIZE(5,{0;50},{8;6},15)", "#VALUE! holding is 15; write 15% or 0.15; must be 0 to 10 (0% to 1000%)"],
    ["=YARN.ORDERSIZE({5;6},{0;50},{8;6})", "#VALUE! need is 2×1 cells; must be a single cell"],
  ];
  for (const [formula, message] of MESSAGES) {
    test(`${formula} says ${message}`, () => {
      expect(messageOf(formula)).toBe(message);
      expect(message.replace(/^\S+ /, "").length).toBeLessThanOrEqual(LONGEST_MESSAGE);
    });
  }

  test("breaks that do not rise or do not start at 0 are named by their item", () => {
    expect(messageOf("=YARN.ORDERSIZE(5,{0;50;50},{8;6;5})")).toMatch(/^#VALUE! breaks item 3 is 50; /);
    expect(messageOf("=YARN.ORDERSIZE(5,{10;50},{8;6})")).toMatch(/^#VALUE! breaks item 1 is 10; /);
    expect(messageOf("=YARN.ORDERSIZE(5,{0;50},{8})")).toMatch(/^#VALUE! rates /);
  });
});

describe("margins and break-even, cell by cell", () => {
  test("a bad row is an error in its own cell, a blank row stays blank", () => {
    expect(sheet('=YARN.PRICEFORMARGIN({36;-1;"";36;#N/A},0.55)')).toEqual([
      [80],
      [error("#VALUE!")],
      [""],
      [80],
      [error("#N/A")],
    ]);
  });
  test("a column against a row gives the matrix; of lengths that do not fit both shapes are named", () => {
    // (price − cost) / cost
    expect(sheet("=YARN.MARKUP({1;2},{1,2,3})")).toEqual([
      [0, 1, 2],
      [-0.5, 0, 0.5],
    ]);
    expect(messageOf("=YARN.MARKUP({1;2},{1;2;3})")).toMatch(/2×1.*3×1/);
  });
  test("profit left out, blank or null is 0", () => {
    expect(sheet("=YARN.BREAKEVEN(100,3,2)")).toBe(100);
    expect(sheet("=YARN.BREAKEVEN(100,3,2,)")).toBe(100);
    expect(call("BREAKEVEN", [[100]], [[3]], [[2]], null)).toEqual([[100]]);
    expect(call("BREAKEVEN", [[100]], [[3]], [[2]], undefined, { address: "the invocation" })).toEqual([[100]]);
  });
  test("a price beyond what a cell can hold is an error, not Infinity", () => {
    expect(sheet("=YARN.PRICEFORMARKUP(1E308,10)")).toEqual(error("#NUM!"));
  });
});

describe("VARIANCE", () => {
  test("the shape is a header, one row per material and the totals; lists may lie in rows", () => {
    const down = rowsOf("=YARN.VARIANCE({10;8;4},{10;9;5},{8;6;12},{7;7;11})");
    expect(down.map((row) => row.length)).toEqual([5, 5, 5, 5, 5]);
    expect(down[0]?.every((header) => (header as string).includes("favourable +"))).toBe(true);
    expect(rowsOf("=YARN.VARIANCE({10,8,4},{10,9,5},{8,6,12},{7,7,11})")).toEqual(down);
  });
  test("an error value among the figures is the answer, for the mix needs them all", () => {
    expect(sheet("=YARN.VARIANCE({10;#N/A},{10;9},{8;6},{7;7})")).toEqual(error("#N/A"));
  });
  test("a mix that cancels out shows 0, not the dust of a division", () => {
    expect(rowsOf("=YARN.VARIANCE({1;1;1},{3;5;2},{7;7;7},{7;7;7})")[4]).toEqual([0, 0, -49, -49, -49]);
  });
  test("the figures in the cells reconcile as the sheet compares them, to fifteen digits", () => {
    const priced = fc.oneof(fc.constant(0), decimals(2, 90, 3));
    const cells = fc.array(
      // Prices of one material lie within fifty times of each other.
      fc.tuple(decimals(0.1, 900, 2), decimals(0, 900, 2), priced, priced),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(cells, fc.constantFrom("individual", "average"), (rows, method) => {
        const lists = [0, 1, 2, 3].map((place) => rows.map((row) => [row[place]]));
        const scale = Math.max(1, ...rows.map((row) => row[0] * row[2] + row[1] * (row[2] + row[3]))) * rows.length;
        for (const row of call("VARIANCE", ...lists, [[method]]).slice(1) as number[][]) {
          const [price, mix, yielded, usage, total] = row as [number, number, number, number, number];
          expect(Math.abs(price + mix + yielded - total)).toBeLessThan(1e-14 * scale);
          expect(Math.abs(mix + yielded - usage)).toBeLessThan(1e-14 * scale);
        }
      }),
    );
  });
});

describe("JOINTCOST", () => {
  test("the shares lie as the quantities lie, blanks after the last included", () => {
    expect(sheet('=YARN.JOINTCOST(10,{1;1;""},{2;2})')).toEqual([[5], [5], [""]]);
    expect(sheet("=YARN.JOINTCOST(10,{1,3},{2;2})")).toEqual([[2.5, 7.5]]);
  });
  test("the method left out is net realisable: separable costs count", () => {
    // Sales 30 and 10, less 10 and 0: 20 to 10.
    expect(sheet("=YARN.JOINTCOST(60,{3;1},{10;10},{10;0})")).toEqual([[40], [20]]);
    expect(sheet('=YARN.JOINTCOST(60,{3;1},{10;10},{10;0},"sales value")')).toEqual([[45], [15]]);
  });
  test("a word of the trade is taken without regard to case and space", () => {
    expect(sheet('=YARN.JOINTCOST(60,{3;1},{10;10},," Sales  Value ")')).toEqual([[45], [15]]);
  });
});

describe("EQUIVALENT", () => {
  test("one figure stands for all cost elements, and lists may lie in rows", () => {
    const spelt = rowsOf('=YARN.EQUIVALENT("average",{10;10},{0.5;1},{90;90},{20;20},{0.5;1},{5;6},{95;104})');
    expect(rowsOf('=YARN.EQUIVALENT("average",10,{0.5;1},90,20,{0.5;1},{5;6},{95;104})')).toEqual(spelt);
    expect(rowsOf('=YARN.EQUIVALENT("average",10,{0.5,1},90,20,{0.5,1},{5,6},{95,104})')).toEqual(spelt);
  });
  test("a bad element is an error in its own row, a blank one stays blank", () => {
    const rows = rowsOf('=YARN.EQUIVALENT("fifo",0,0,100,0,0,0,{50;-1;"";80})');
    expect(rows.slice(1)).toEqual([
      [100, 0.5, 50, 0],
      new Array(4).fill(error("#VALUE!")),
      ["", "", "", ""],
      [100, 0.8, 80, 0],
    ]);
  });
});

describe("STOCKLEDGER", () => {
  test("negative stock is an error in its row and in those after it, with the row in the message", () => {
    const rows = rowsOf('=YARN.STOCKLEDGER({5,2;-2,"";-4,"";9,2},"average")');
    const spoilt = new Array(4).fill(error("#VALUE!", "events row 3, quantity, is -4; only 3 is in stock"));
    expect(rows).toEqual([rows[0], [5, 10, 2, 0], [3, 6, 2, 4], spoilt, spoilt]);
  });
  test("so is a receipt without a cost, a text, an error value", () => {
    for (const [events, code, message] of [
      ['{5,2;3,"";1,1}', "#VALUE!", "events row 2, unit cost, is blank; a receipt needs its cost per unit"],
      ["{5,2;3,0;1,1}", "#VALUE!", "events row 2, unit cost, is 0; must be above 0 for a receipt"],
      ["{5,2;3,-1;1,1}", "#VALUE!", "events row 2, unit cost, is -1; must be a number, 0 or more"],
      ['{5,2;"out",2;1,1}', "#VALUE!", 'events row 2, quantity, is text "out"; must be a number'],
      ['{5,2;"",2;1,1}', "#VALUE!", "events row 2, quantity, is blank; fill it in; a blank is not 0"],
      ["{5,2;#N/A,2;1,1}", "#N/A", undefined],
    ] as const) {
      const rows = rowsOf(`=YARN.STOCKLEDGER(${events},"fifo")`);
      const spoilt = new Array(4).fill(error(code, message));
      expect(rows.slice(1)).toEqual([[5, 10, 2, 0], spoilt, spoilt]);
    }
  });
  test("a wholly blank row stays blank and changes nothing; blank rows at the end are no rows", () => {
    const rows = rowsOf('=YARN.STOCKLEDGER({5,2;"","";-2,"";"",""},"fifo")');
    expect(rows.slice(1)).toEqual([
      [5, 10, 2, 0],
      ["", "", "", ""],
      [3, 6, 2, 4],
    ]);
  });
  test("a cost on an issue, or beside a quantity of 0, is refused and not passed over", () => {
    const said = (formula: string) => (rowsOf(formula)[2] as { message: string }[])[0]?.message;
    expect(said('=YARN.STOCKLEDGER({5,2;-2,99},"average")')).toBe(
      "events row 2, unit cost, is 99; an issue takes its cost from the stock; leave it blank",
    );
    expect(said('=YARN.STOCKLEDGER({5,2;0,99},"fifo")')).toBe(
      "events row 2, unit cost, is 99; nothing came in; leave it blank",
    );
    // Desktop hosts hand a blank over as 0.
    expect(rowsOf('=YARN.STOCKLEDGER({5,2;-2,0},"average")')[2]).toEqual([3, 6, 2, 4]);
  });
  test("an issue of what the cells show leaves nothing behind", () => {
    expect(rowsOf('=YARN.STOCKLEDGER({3.3,4;-3.3000000000000003,""},"average")')[2]).toEqual([0, 0, "", 13.2]);
    expect(rowsOf('=YARN.STOCKLEDGER({3.3000000000000003,4;-3.3,""},"fifo")')[2]).toEqual([0, 0, "", 13.2]);
  });
  test("value of the stock is never quantity × a rounded average", () => {
    // 3 at 10 in all: after one goes, 20/3; the three issues sum to 10 to the last digit.
    const rows = rowsOf('=YARN.STOCKLEDGER({1,5;2,2.5;-1,"";-1,"";-1,""},"average")');
    expect(rows[3]).toEqual([2, 20 / 3, 10 / 3, 10 / 3]);
    expect(rows[5]).toEqual([0, 0, "", 10 / 3]);
  });
});

describe("SWING", () => {
  test("a row with an error comes last, a blank one is no row, a missing figure is named", () => {
    const rows = rowsOf('=YARN.SWING({"a";"b";"";"c";"d"},{1;#N/A;"";2;""},{2;5;"";9;4})');
    expect(rows).toEqual([
      ["input", "at low", "at high", "swing"],
      ["c", 2, 9, 7],
      ["a", 1, 2, 1],
      new Array(4).fill(error("#N/A")),
      new Array(4).fill(error("#VALUE!", 'lows is blank beside "d"; fill it in; a blank is not 0')),
    ]);
  });
  test("|high - low| does not ask which is higher, and 0.3 - 0.1 is 0.2", () => {
    expect(rowsOf('=YARN.SWING({"a";"b"},{0.3;5},{0.1;5})').slice(1)).toEqual([
      ["a", 0.3, 0.1, 0.2],
      ["b", 5, 5, 0],
    ]);
  });
});

describe("ORDERSIZE", () => {
  test("the need, the minimum above it and each break above both, each once", () => {
    const orders = (formula: string): unknown[] =>
      rowsOf(formula)
        .slice(1)
        .map(([order]) => order);
    expect(orders("=YARN.ORDERSIZE(50,{0;50;100},{8;6;5})")).toEqual(["need", "break at 100"]);
    expect(orders("=YARN.ORDERSIZE(20,{0;50;100},{8;6;5},,50)")).toEqual([
      "need (below the minimum)",
      "minimum",
      "break at 100",
    ]);
    expect(orders("=YARN.ORDERSIZE(70,{0;50;100},{8;6;5},,50)")).toEqual(["need", "break at 100"]);
  });
  test("an order too small to be taken has no costs, so that the least of the column is one that can be had", () => {
    expect(sheet("=MIN(INDEX(YARN.ORDERSIZE(10,{0;50},{8;7},,20),0,6))")).toBe(7);
    expect(rowsOf("=YARN.ORDERSIZE(10,{0;50},{8;7},,20)")[1]?.slice(2)).toEqual(["", "", "", ""]);
  });
});
