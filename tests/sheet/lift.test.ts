import { describe, expect, test } from "vitest";
import { optional, required } from "../../src/sheet/arguments";
import { shadeColumn } from "../../src/sheet/shade-rows";
import { anyNumber, positive } from "../../src/sheet/kinds";
import { cellOrError, finite, finiteRows, lift, liftRows } from "../../src/sheet/lift";
import { refuse } from "../../src/trade/refusal";
import { refusalOf } from "../support/refusals";

const NA = { code: "#N/A" };
const column = [[1], [2], [3]];
const row = [[10, 20]];
const matrix = [
  [1, 2],
  [3, 4],
  [5, 6],
];
const add = (a: number, b: number): number => a + b;
const sums = (a: unknown, b: unknown) =>
  lift(add, required({ a: a as never }, anyNumber), required({ b: b as never }, anyNumber));

describe("shapes that broadcast", () => {
  test.each<[string, unknown, unknown, number[][]]>([
    ["one cell with one cell", [[1]], [[2]], [[3]]],
    ["bare values", 1, 2, [[3]]],
    ["a column with one cell", column, [[5]], [[6], [7], [8]]],
    ["one cell with a row", [[5]], row, [[15, 25]]],
    ["equal columns", column, column, [[2], [4], [6]]],
    ["equal matrices", matrix, matrix, [[2, 4], [6, 8], [10, 12]]], // prettier-ignore
    ["a matrix with one cell", matrix, [[1]], [[2, 3], [4, 5], [6, 7]]], // prettier-ignore
    ["a matrix with a matching column", matrix, column, [[2, 3], [5, 6], [8, 9]]], // prettier-ignore
    ["a row with a matching matrix", row, matrix, [[11, 22], [13, 24], [15, 26]]], // prettier-ignore
    ["a column with a row", column, row, [[11, 21], [12, 22], [13, 23]]], // prettier-ignore
    ["a column with a row as long", column, [[1, 2, 3]], [[2, 3, 4], [3, 4, 5], [4, 5, 6]]], // prettier-ignore
  ])("%s", (_, a, b, wanted) => {
    expect(sums(a, b)).toEqual(wanted);
    expect(sums(b, a)).toEqual(wanted);
  });

  test.each([
    ["a column with a longer one", column, [[1], [2], [3], [4]], "a is 3×1; must be one cell or match b, which is 4×1"],
    ["a matrix with another column", matrix, [[1], [2]], "b is 2×1; must be one cell or match a, which is 3×2"],
    ["a matrix with another row", matrix, [[1, 2, 3]], "b is 1×3; must be one cell or match a, which is 3×2"],
    ["a matrix with one as large, turned", matrix, [[1, 2, 3], [4, 5, 6]], "a is 3×2; must be one cell or match b, which is 2×3"], // prettier-ignore
    ["a matrix with a narrower one", matrix, [[1, 2], [3, 4]], "b is 2×2; must be one cell or match a, which is 3×2"], // prettier-ignore
  ])("%s is refused with both shapes", (_, a, b, message) => {
    expect(refusalOf(() => sums(a, b))).toBe(`#VALUE! ${message}`);
  });

  test("a column against a row, with blanks and faults in both, is what its cells give one by one", () => {
    const down = [[1], [null], ["x"], [NA], [1e308], [-0]];
    const along = [[1, null, "y", { code: "#REF!" }, 1e308, -0]];
    const alone = (a: unknown, b: unknown): unknown => sums([[a], [a]], [[b], [b]])[0]?.[0];
    const table = down.map(([a]) => (along[0] as unknown[]).map((b) => alone(a, b)));
    expect(sums(down, along)).toEqual(table);
    expect(sums(along, down)).toEqual(down.map(([b]) => (along[0] as unknown[]).map((a) => alone(a, b))));
  });

  test("a column against a row of more cells than anyone wants is refused before it is begun", () => {
    const long = Array.from({ length: 10_000 }, () => [1]);
    const wide = [Array.from({ length: 501 }, () => 1)];
    expect(refusalOf(() => sums(long, wide))).toBe(
      "#NUM! a is crossed with b 10000×501, 5010000 cells, each the work of 2; at most 1048576 in one call",
    );
  });

  test("a matrix of too many cells is not called crossed, by whatever it is met", () => {
    const large = Array.from({ length: 10_000 }, () => new Array<number>(501).fill(1));
    const one = /^#NUM! a is 10000×501, 5010000 cells/;
    expect(refusalOf(() => sums(large, [[1]]))).toMatch(one);
    expect(refusalOf(() => sums(large, large.map(() => [1])))).toMatch(one); // prettier-ignore
    expect(refusalOf(() => sums(large, [large[0]]))).toMatch(one);
    expect(refusalOf(() => sums(large.map(() => [1]), large))).toMatch(one); // prettier-ignore
    expect(refusalOf(() => sums([large[0]], large))).toMatch(/^#NUM! b is 10000×501, 5010000 cells/);
  });

  test("hands the arguments over in their order, however many there are", () => {
    const named = (index: number, cells: unknown) => required({ [`a${index}`]: cells as never }, anyNumber);
    for (let count = 1; count <= 6; count++) {
      const seen: unknown[][] = [];
      const note = (...values: number[]): number => seen.push(values.slice(0, count));
      const wanted = Array.from({ length: count }, (_, index) => index + 1);
      lift(note, ...wanted.map((value, index) => named(index, [[value]])));
      lift(note, ...wanted.map((value, index) => named(index, index === count - 1 ? [[value], [9]] : [[value]])));
      expect(seen).toEqual([wanted, wanted, [...wanted.slice(0, -1), 9]]);
    }
  });
});

describe("blanks and errors", () => {
  const withDefault = (a: unknown, b: unknown) =>
    lift(add, required({ a: a as never }, positive), optional({ b: b as never }, positive, 100));

  test("a blank of a required argument leaves its place blank; of an optional one it means the default", () => {
    expect(sums([[1], [null], [""], [undefined], [0]], [[1]])).toEqual([[2], [""], [""], [""], [1]]);
    expect(withDefault(column, [[1], [null], [""]])).toEqual([[2], [102], [103]]);
    expect(withDefault(column, null)).toEqual([[101], [102], [103]]);
    expect(withDefault([[null, 1], [1, 1]], [[null], [2]])).toEqual([["", 101], [3, 3]]); // prettier-ignore
  });

  test("a blank single cell of a required argument is refused for the whole call", () => {
    expect(refusalOf(() => sums([[null]], column))).toBe("#VALUE! a is blank; must be given");
    expect(refusalOf(() => sums(column, [[""]]))).toBe("#VALUE! b is blank; must be given");
  });

  test("one bad item is an error in its own place, code and message", () => {
    const results = withDefault([[1], [-2], ["x"], [NA], [5]], [[1]]);
    expect(results[0]).toEqual([2]);
    expect(results[1]?.[0]).toMatchObject({ code: "#VALUE!", message: "a is -2; must be a number above 0" });
    expect(results[2]?.[0]).toMatchObject({ code: "#VALUE!", message: 'a is text "x"; must be a number above 0' });
    expect(results[3]?.[0]).toMatchObject({ code: "#N/A" });
    expect(results[4]).toEqual([6]);
  });

  test("the first of a column or a row is no exception", () => {
    expect(sums([[null], [2]], [[1]])).toEqual([[""], [3]]);
    expect(sums([["", 2]], [[1]])).toEqual([["", 3]]);
    expect(sums([["x"], [2]], [[1]])).toMatchObject([[{ code: "#VALUE!" }], [3]]);
    expect(sums([[NA, 2]], [[1]])).toMatchObject([[{ code: "#N/A" }, 3]]);
  });

  test("a bad single cell is the whole call's", () => {
    expect(refusalOf(() => withDefault([[-2]], column))).toBe("#VALUE! a is -2; must be a number above 0");
    expect(refusalOf(() => withDefault(column, [[NA]]))).toBe("#N/A");
  });

  test("the calculation's refusal is in its own place too", () => {
    const picky = (a: number): number => (a === 2 ? refuse("a", "2", "not that") : a);
    expect(lift(picky, required({ a: column }, anyNumber))).toMatchObject([
      [1],
      [{ message: "a is 2; not that" }],
      [3],
    ]);
    expect(lift(picky, required({ a: [[1, 2]] }, anyNumber))).toMatchObject([[1, { message: "a is 2; not that" }]]);
    expect(refusalOf(() => lift(picky, required({ a: [[2]] }, anyNumber)))).toContain("a is 2");
  });

  test("what a cell cannot hold is #NUM! in its own place, and minus zero is zero", () => {
    const results = sums([[1e308], [-0], [1]], [[1e308], [-0], [-1]]);
    expect(results[0]?.[0]).toMatchObject({
      code: "#NUM!",
      message: "the result is beyond what a cell can hold; check the size of the arguments",
    });
    expect(Object.is(results[1]?.[0], 0)).toBe(true);
    expect(results[2]).toEqual([0]);
    expect(refusalOf(() => sums([[1e308]], [[1e308]]))).toContain("#NUM!");
  });
});

describe("a result that is a row", () => {
  const pair = (a: number, b: number): number[] => [a + b, a - b];
  const pairs = (a: unknown, b: unknown) =>
    liftRows(2, pair, required({ a: a as never }, positive), required({ b: b as never }, positive));

  test("stands beside each item", () => {
    expect(pairs([[3]], [[1]])).toEqual([[4, 2]]);
    expect(pairs(column, [[1]])).toEqual([[2, 0], [3, 1], [4, 2]]); // prettier-ignore
  });

  test("is blank, or the same error in every cell, where its item is", () => {
    const results = pairs([[3], [null], [-1], [NA]], [[1]]);
    expect(results.slice(0, 2)).toEqual([[4, 2], ["", ""]]); // prettier-ignore
    expect(results[2]).toHaveLength(2);
    for (const cell of results[2] as unknown[]) expect(cell).toMatchObject({ code: "#VALUE!" });
    expect(results[3]).toHaveLength(2);
    for (const cell of results[3] as unknown[]) expect(cell).toMatchObject({ code: "#N/A" });
  });

  test("holds nothing that a cell cannot hold", () => {
    expect(refusalOf(() => pairs([[1e308]], [[1e308]]))).toContain("#NUM!");
    expect(pairs([[1e308], [3]], [[1e308], [3]])).toMatchObject([
      [{ code: "#NUM!" }, { code: "#NUM!" }],
      [6, 0],
    ]);
  });

  test("is refused before it is begun where it is more cells than anyone wants", () => {
    const long = Array.from({ length: 600_000 }, () => [1]);
    let calls = 0;
    const many = () => liftRows(4, (a: number) => [a, ++calls, a, a], required({ a: long }, positive));
    expect(refusalOf(many)).toMatch(/^#NUM! a is 600000 rows for 4 columns of results, 2400000 cells/);
    expect(calls).toBe(0);
    const second = () => liftRows(4, pair, required({ a: [[1]] }, positive), required({ b: long }, positive));
    expect(refusalOf(second)).toMatch(/^#NUM! b is 600000 rows for 4 columns/);
  });

  test("leaves no room for items side by side", () => {
    expect(refusalOf(() => pairs([[1]], row))).toBe(
      "#VALUE! b is 2 columns wide; must be one column, because each result is a row",
    );
    expect(refusalOf(() => pairs(matrix, [[1]]))).toContain("a is 2 columns wide");
  });

  test("may come from items that are rows themselves; a row of blanks is a blank item", () => {
    const total = (cells: readonly unknown[]): number => (cells as number[]).reduce((sofar, cell) => sofar + cell, 0);
    const read = (cells: unknown[][]) =>
      lift(
        total,
        shadeColumn({ lab: cells }, (cellsOfRow) => cellsOfRow),
      );
    expect(read(matrix)).toEqual([[3], [7], [11]]);
    expect(read([[1, 2], [null, ""], [5, 6]])).toEqual([[3], [""], [11]]); // prettier-ignore
    expect(refusalOf(() => read([[null, ""]]))).toBe("#VALUE! lab is blank; must be given");
    expect(read([[null, 2], [1, 2]])).toEqual([[2], [3]]); // prettier-ignore
  });
});

describe("what a cell can hold", () => {
  test("passes text, truth and finite numbers", () => {
    expect(["x", true, 1.5, -1e308].map(finite)).toEqual(["x", true, 1.5, -1e308]);
    expect(finiteRows([["head", 1], [true, -2]])).toEqual([["head", 1], [true, -2]]); // prettier-ignore
  });

  test.each([NaN, Infinity, -Infinity])("refuses %d", (value) => {
    expect(refusalOf(() => finite(value))).toContain("#NUM! the result is beyond");
    expect(refusalOf(() => finiteRows([["x"], [value]]))).toContain("#NUM!");
    expect(cellOrError(() => value)).toMatchObject({ code: "#NUM!" });
  });

  test("is no minus zero", () => {
    expect(Object.is(finite(-0), 0)).toBe(true);
    expect(Object.is(finiteRows([[-0]])[0]?.[0], 0)).toBe(true);
    expect(
      Object.is(
        cellOrError(() => -0),
        0,
      ),
    ).toBe(true);
  });

  test("is an error where one cell of a table cannot be worked out", () => {
    expect(cellOrError(() => 5)).toBe(5);
    expect(cellOrError(() => refuse("x", "y", "z"))).toMatchObject({ code: "#VALUE!", message: "x is y; z" });
  });
});
