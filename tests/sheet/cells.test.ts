import { describe, expect, test } from "vitest";
import { inReadingOrder, isBlank, isOmitted, rowsOf, shapeOf, shown } from "../../src/sheet/cells";
import { asColumn, columnOf, inShapeOf } from "../../src/sheet/shape";

describe("a blank", () => {
  test.each([[null], [undefined], [""]])("is %j", (cell) => expect(isBlank(cell)).toBe(true));

  test.each([[0], [false], [" "], ["x"], [[]], [{}]])("is not %j", (cell) => expect(isBlank(cell)).toBe(false));
});

describe("an argument left out", () => {
  test.each([[null], [undefined], [""], [[]], [[[]]], [[[null]]], [[[undefined]]], [[[""]]]])("is %j", (cells) =>
    expect(isOmitted(cells)).toBe(true),
  );

  // A range of blanks was pointed at, so it is not left out; a bare list is no single cell.
  test.each([
    [0],
    ["x"],
    [[[0]]],
    [[["x"]]],
    [[[null, null]]],
    [[["", 1]]],
    [[[null], [null]]],
    [[[null], [1]]],
    [[null]],
  ])("is not %j", (cells) => expect(isOmitted(cells)).toBe(false));
});

describe("rows of cells", () => {
  test.each([
    ["a bare value", 5, [[5]]],
    ["nothing", null, [[null]]],
    ["an empty range", [], [[null]]],
    ["an empty row", [[]], [[null]]],
    ["a bare list", [1, 2], [[1, 2]]],
    ["a matrix", [[1, 2], [3, 4]], [[1, 2], [3, 4]]], // prettier-ignore
  ])("from %s", (_, cells, rows) => expect(rowsOf(cells)).toEqual(rows));

  test("are read row by row", () => {
    expect(inReadingOrder([[1, 2], [3], [4, 5]])).toEqual([1, 2, 3, 4, 5]);
    expect(inReadingOrder([])).toEqual([]);
  });

  test("a column of 300,000 is read without exhausting the stack", () => {
    const long = new Array(300_000).fill(0).map((_, row) => [row]);
    expect(inReadingOrder([inReadingOrder(long)])).toHaveLength(300_000);
  });
});

describe("what messages quote of a cell", () => {
  test.each([
    [null, "blank"],
    [undefined, "blank"],
    ["", "blank"],
    ["abc", 'text "abc"'],
    ["x".repeat(24), `text "${"x".repeat(24)}"`],
    ["y".repeat(25), `text "${"y".repeat(23)}…"`],
    [true, "TRUE"],
    [false, "FALSE"],
    [-1.5, "-1.5"],
    [0, "0"],
    [NaN, "not a number"],
    [-Infinity, "not a number"],
    [{ code: "x" }, "not a plain value"],
    [() => 1, "not a plain value"],
  ])("%j is %s", (cell, words) => expect(shown(cell)).toBe(words));

  test("a shape is rows by columns", () => expect(shapeOf(3, 2)).toBe("3×2"));
});

describe("the shape of a result", () => {
  test("is that of the list, in reading order, blank after its last item", () => {
    expect(inShapeOf({ list: [[9, 9], [9, 9]] }, [1, 2, 3])).toEqual([[1, 2], [3, ""]]); // prettier-ignore
    expect(inShapeOf({ list: [[9], [9], [null], [null]] }, ["a", "b"])).toEqual([["a"], ["b"], [""], [""]]);
    expect(inShapeOf({ list: 9 as never }, [7])).toEqual([[7]]);
  });

  test("of a column is one cell a row", () => expect(asColumn([1, "x", true])).toEqual([[1], ["x"], [true]]));

  test("never holds minus zero, and what a cell cannot hold is refused", () => {
    expect(Object.is(inShapeOf({ list: [[1]] }, [-0])[0]?.[0], 0)).toBe(true);
    expect(Object.is(asColumn([-0])[0]?.[0], 0)).toBe(true);
    expect(() => inShapeOf({ list: [[1]] }, [NaN])).toThrow("beyond what a cell can hold");
    expect(() => asColumn([Infinity])).toThrow("beyond what a cell can hold");
  });

  test("of a list in any direction becomes a column", () => {
    expect(columnOf([[1, 2], [3, 4]])).toEqual([[1], [2], [3], [4]]); // prettier-ignore
    expect(columnOf(null)).toEqual([[null]]);
  });
});
