import { describe, expect, test } from "vitest";
import * as read from "../../src/sheet/arguments";
import { blankIs, positive, text } from "../../src/sheet/kinds";
import { eachOf } from "../../src/sheet/lists";
import { refusalOf } from "../support/refusals";

const NA = { code: "#N/A", message: "from the cell" };

describe("an argument under its own name", () => {
  test.each([
    [null, [[null]]],
    [undefined, [[null]]],
    [[], [[null]]],
    [[[1, 2]], [[1, 2]]],
    [5, [[5]]],
  ])("of %j", (cells, rows) => expect(read.nameOf({ mass: cells as never })).toEqual(["mass", rows]));
});

describe("one cell of a kind", () => {
  test("is read by it; an error value goes out as it came; another object is refused", () => {
    expect(read.readCell(3, "mass", positive)).toBe(3);
    expect(refusalOf(() => read.readCell(NA, "mass", positive))).toBe("#N/A from the cell");
    expect(refusalOf(() => read.readCell({}, "mass", positive))).toBe(
      "#VALUE! mass is not a plain value; must be a number above 0",
    );
    expect(refusalOf(() => read.readCell(null, "mass", positive))).toContain("mass is blank");
    // Text is no object to look for an error in.
    expect(read.readCell("#N/A", "mass", text)).toBe("#N/A");
  });
});

describe("an argument read item by item", () => {
  const matrix = [
    [1, 2, 3],
    [4, 5, 6],
  ];

  test("knows its name, shape and items, and has a fallback only when it may be left out", () => {
    const column = read.required({ mass: matrix }, positive);
    expect([column.name, column.rows, column.columns, column.items]).toEqual(["mass", 2, 3, matrix]);
    expect(column.fallback).toBeUndefined();
    expect(read.optional({ mass: null }, positive, 9).fallback).toEqual({ value: 9 });
    expect(read.optional({ mass: matrix }, positive, 9)).toMatchObject({ name: "mass", rows: 2, columns: 3 });
    expect(read.optional({ mass: null }, positive, undefined).fallback).toEqual({ value: undefined });
  });

  test("reads its items by its kind and name", () => {
    const column = read.required({ mass: matrix }, positive);
    expect(column.read(5, "mass")).toBe(5);
    expect(refusalOf(() => column.read(-5, "mass"))).toContain("mass is -5");
    expect(refusalOf(() => column.read(NA, "mass"))).toBe("#N/A from the cell");
    expect(refusalOf(() => column.read("x", "mass"))).toContain('mass is text "x"');
  });
});

describe("an argument of a single cell", () => {
  test.each([[[[5]]], [[5]], [5]])("%j is read", (cells) => expect(read.one({ m: cells as never }, positive)).toBe(5));

  test.each([
    [[[5, 6]], "1×2 cells"],
    [[[5], [6]], "2×1 cells"],
    [[[5, null]], "1×2 cells"],
  ])("%j is refused by its shape", (cells, shape) => {
    expect(refusalOf(() => read.one({ m: cells }, positive))).toBe(`#VALUE! m is ${shape}; must be a single cell`);
  });

  test("must be given", () => {
    for (const blank of [null, undefined, [[""]], [[null]]]) {
      expect(refusalOf(() => read.one({ m: blank }, positive))).toBe("#VALUE! m is blank; must be given");
    }
  });

  test("takes its fallback only when it is left out", () => {
    expect(read.oneOr({ m: null }, positive, "none")).toBe("none");
    expect(read.oneOr({ m: [[""]] }, positive, "none")).toBe("none");
    expect(read.oneOr({ m: [[3]] }, positive, "none")).toBe(3);
    expect(refusalOf(() => read.oneOr({ m: [[null, null]] }, positive, "none"))).toContain("m is 1×2 cells");
  });
});

describe("a list", () => {
  const mayBlank = blankIs(positive, 0);

  test("is taken in reading order, without the blanks after its last item", () => {
    const cells = [[1, 2], [3, null], ["", undefined]]; // prettier-ignore
    expect(read.list({ m: cells }, positive)).toEqual([1, 2, 3]);
    expect(read.list({ m: [[7]] }, positive)).toEqual([7]);
  });

  test("refuses a blank between items, which is no zero, unless a blank means something", () => {
    expect(refusalOf(() => read.list({ m: [[1, null, 3]] }, positive))).toBe(
      "#VALUE! m item 2 is blank; fill it in; a blank is not 0",
    );
    expect(read.list({ m: [[1, null, 3, null]] }, mayBlank)).toEqual([1, 0, 3]);
  });

  test("a heading before numbers is told as one; a number typed as text is not", () => {
    expect(refusalOf(() => read.list({ m: [["Mass (kg)"], [1], [2]] }, positive))).toBe(
      '#VALUE! m item 1 is text "Mass (kg)"; leave the heading out',
    );
    expect(refusalOf(() => read.list({ m: [["36,5"], [1], [2]] }, positive))).toBe(
      '#VALUE! m item 1 is text "36,5"; must be a number above 0; NUMBERVALUE(…,",",".") makes it one',
    );
  });

  test("names the item that is wrong, or the argument alone when it is one cell", () => {
    expect(refusalOf(() => read.list({ m: [[1], [-3]] }, positive))).toContain("m item 2 is -3");
    expect(refusalOf(() => read.list({ m: [[-3], [null]] }, positive))).toContain("m item 1 is -3");
    expect(refusalOf(() => read.list({ m: [[-3]] }, positive))).toContain("m is -3");
    expect(refusalOf(() => read.list({ m: [[1], [NA]] }, positive))).toBe("#N/A from the cell");
  });

  test("must hold something", () => {
    for (const blank of [null, [[""]], [[null], [null]]]) {
      expect(refusalOf(() => read.list({ m: blank }, positive))).toBe(
        "#VALUE! m is blank; must hold at least one value",
      );
    }
  });

  test("takes its fallback only when it is left out", () => {
    expect(read.listOr({ m: null }, positive, "none")).toBe("none");
    expect(read.listOr({ m: [[4, 5]] }, positive, "none")).toEqual([4, 5]);
    expect(refusalOf(() => read.listOr({ m: [[null, null]] }, positive, "none"))).toContain("m is blank");
  });
});

describe("a matrix", () => {
  test("is taken whole, without the blank rows after its last", () => {
    expect(read.matrix({ m: [[1, 2], [3, 4], [null, ""]] }, positive)).toEqual([[1, 2], [3, 4]]); // prettier-ignore
  });

  test("names the cell that is wrong or blank", () => {
    expect(refusalOf(() => read.matrix({ m: [[1, 2], [3, -4]] }, positive))).toContain("m row 2, column 2 is -4"); // prettier-ignore
    expect(refusalOf(() => read.matrix({ m: [[1, null]] }, positive))).toBe(
      "#VALUE! m row 1, column 2 is blank; fill it in; a blank is not 0",
    );
    expect(refusalOf(() => read.matrix({ m: [[null, null], [1, 2]] }, positive))).toContain("m row 1, column 1 is blank"); // prettier-ignore
    expect(read.matrix({ m: [[1, null]] }, blankIs(positive, 0))).toEqual([[1, 0]]);
  });

  test("must hold something", () => {
    expect(refusalOf(() => read.matrix({ m: [[null, ""]] }, positive))).toBe(
      "#VALUE! m is blank; must hold at least one row",
    );
  });
});

describe("a table", () => {
  const columns = { material: text, unit_price: positive, mass: blankIs<number | undefined>(positive, undefined) };
  const cells = [["wool", 9, 2], ["silk", 30, null], [null, "", null]]; // prettier-ignore

  test("is one object a row, without the blank rows after its last", () => {
    expect(read.table({ t: cells }, columns)).toEqual([
      { material: "wool", unit_price: 9, mass: 2 },
      { material: "silk", unit_price: 30, mass: undefined },
    ]);
  });

  test("may be without the columns at the right that may be blank", () => {
    expect(read.table({ t: [["wool", 9]] }, columns)).toEqual([{ material: "wool", unit_price: 9, mass: undefined }]);
  });

  test("of another width is refused with its columns as a person says them", () => {
    for (const [row, came] of [
      [["wool"], "1 column"],
      [["wool", 9, 2, 1], "4 columns"],
    ] as const) {
      expect(refusalOf(() => read.table({ t: [[...row]] }, columns))).toBe(
        `#VALUE! t is ${came} wide; give 2 to 3: material, unit price, mass`,
      );
    }
    const { material, unit_price } = columns;
    expect(refusalOf(() => read.table({ t: [["wool"]] }, { material, unit_price }))).toBe(
      "#VALUE! t is 1 column wide; give 2: material, unit price",
    );
  });

  test("names the row and column that is wrong or blank", () => {
    expect(refusalOf(() => read.table({ t: [["wool", 9], ["silk", -1]] }, columns))).toBe(
      "#VALUE! t row 2, unit price, is -1; must be a number above 0",
    ); // prettier-ignore
    expect(refusalOf(() => read.table({ t: [["wool", null]] }, columns))).toBe(
      "#VALUE! t row 1, unit price, is blank; fill it in; a blank is not 0",
    );
    expect(refusalOf(() => read.table({ t: [[null, null, null]] }, columns))).toBe(
      "#VALUE! t is blank; must hold the columns material, unit price, mass",
    );
  });

  test("of columns that may all be blank may be one column wide", () => {
    const loose = { first: blankIs(positive, 0), second: blankIs(positive, 0) };
    expect(read.table({ t: [[5]] }, loose)).toEqual([{ first: 5, second: 0 }]);
  });

  test("row by row keeps a bad row from spoiling those before it", () => {
    const [first, blank, bad] = read.tableRows({ t: [["wool", 9, 1], [null, "", undefined], ["silk", NA, 1]] }, columns); // prettier-ignore
    expect(first).toMatchObject({ row: 1, blank: false });
    expect(first?.read()).toEqual({ material: "wool", unit_price: 9, mass: 1 });
    expect(blank).toMatchObject({ row: 2, blank: true });
    expect(bad).toMatchObject({ row: 3, blank: false });
    expect(refusalOf(() => bad?.read())).toBe("#N/A from the cell");
  });

  test("a row is blank only when all its cells are", () => {
    const rows = [["wool", 9, null], [null, 9, 2], [null, null, null], ["silk", 1, 1]]; // prettier-ignore
    expect(read.tableRows({ t: rows }, columns).map(({ blank }) => blank)).toEqual([false, false, true, false]);
  });
});

describe("lists that belong together", () => {
  test("must be of one length", () => {
    expect(() => read.sameLength("masses", 3, "prices", 3)).not.toThrow();
    expect(refusalOf(() => read.sameLength("masses", 3, "prices", 2))).toBe(
      "#VALUE! prices is 2 items long; must match masses, which has 3",
    );
  });

  test("an optional one beside a list is left out, one for all, or one each", () => {
    const each = (cells: unknown[][] | null) => eachOf({ losses: cells }, positive, 7, "masses", 3);
    expect(each(null)).toEqual([7, 7, 7]);
    expect(each([[2]])).toEqual([2, 2, 2]);
    expect(each([[1], [2], [3]])).toEqual([1, 2, 3]);
    expect(each([[1, 2, 3, null, ""]])).toEqual([1, 2, 3]);
    for (const [cells, length] of [
      [[[1, 2]], 2],
      [[[1, 2, 3, 4]], 4],
      [[[1, 2, 3, null, 4]], 5],
    ] as const) {
      expect(refusalOf(() => each(cells as never))).toBe(
        `#VALUE! losses is ${length} items long; must be one cell or one per item of masses, 3`,
      );
    }
    expect(refusalOf(() => each([[1, null, 3]]))).toBe("#VALUE! losses item 2 is blank; fill it in; a blank is not 0");
    expect(refusalOf(() => each([[1, 2, -3]]))).toContain("losses item 3 is -3");
    expect(refusalOf(() => each([[-3]]))).toContain("losses is -3");
    expect(eachOf({ losses: [[1, null, 3]] }, blankIs(positive, 0), 7, "masses", 3)).toEqual([1, 0, 3]);
  });
});
