import { describe, expect, test } from "vitest";
import * as read from "../../src/sheet/arguments";
import { listenToHeadings } from "../../src/sheet/headings";
import { anyNumber, blankIs, positive, text } from "../../src/sheet/kinds";
import { eachOf } from "../../src/sheet/lists";
import { Place, refuse } from "../../src/trade/refusal";
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

  test("texts without a number below the first are no list with a heading", () => {
    expect(refusalOf(() => read.list({ m: [["Mass"], ["Price"]] }, positive))).toBe(
      '#VALUE! m item 1 is text "Mass"; must be a number above 0',
    );
    expect(refusalOf(() => read.list({ m: [["Mass"]] }, positive))).toBe(
      '#VALUE! m is text "Mass"; must be a number above 0',
    );
    expect(read.list({ m: [["Mass"], [5]] }, text)).toEqual(["Mass", "5"]);
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

  test("what is said of an entry later says the same row", () => {
    const later = () => {
      read.matrix({ m: [[1, 2], [3, 4]] }, positive); // prettier-ignore
      refuse(new Place("m", 1), "odd", "not that");
    };
    expect(refusalOf(later)).toBe("#VALUE! m row 2 is odd; not that");
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

describe("a table with its headings", () => {
  const columns = { material: text, unit_price: positive, mass: blankIs<number | undefined>(positive, undefined) };
  const traits = { adding: ["unit_price", "mass"] };
  const head = ["Mass", "Remark", "Material", "Unit price"];
  const wool = [2, "as ever", "wool", 9];

  test("has them in any order among others, and may lack those that may be blank", () => {
    expect(read.table({ t: [head, wool] }, columns)).toEqual([{ material: "wool", unit_price: 9, mass: 2 }]);
    expect(read.table({ t: [head.slice(1), wool.slice(1)] }, columns)).toEqual([
      { material: "wool", unit_price: 9, mass: undefined },
    ]);
  });

  test("must hold rows below them", () => {
    expect(refusalOf(() => read.table({ t: [head] }, columns))).toBe(
      "#VALUE! t is headings only; must hold rows below them",
    );
    expect(refusalOf(() => read.table({ t: [head, [null, "", null, null]] }, columns))).toContain("headings only");
  });

  test("whose headings are other words says which it must have; a text that reads as a number is no heading", () => {
    const unknown = "#VALUE! t is headed Fibre, Rate; must have headings such as material, unit price";
    expect(refusalOf(() => read.table({ t: [["Fibre", "Rate"], ["wool", 9]] }, columns))).toBe(unknown); // prettier-ignore
    expect(refusalOf(() => read.table({ t: [["Fibre"], ["wool"]] }, columns))).toContain("t is headed Fibre; must"); // prettier-ignore
    // As wide as all its columns, the last of which may be blank.
    expect(refusalOf(() => read.table({ t: [["Fibre", "Rate", "Kilos"], ["wool", 9, 2]] }, columns))).toContain("t is headed"); // prettier-ignore
    expect(refusalOf(() => read.table({ t: [["wool", "9,50"], ["silk", 30]] }, columns))).toContain("t row 1, unit price, is text"); // prettier-ignore
  });

  test("counts them among its rows, in what it says of a cell and of an entry", () => {
    const rows = [head, wool, [null, null, null, null], [1, "", "silk", 30]];
    const later = (index: number) => () => {
      read.table({ t: rows }, columns);
      refuse(new Place("t", index, "mass"), "9", "not that");
    };
    expect(refusalOf(later(0))).toBe("#VALUE! t row 2, mass, is 9; not that");
    expect(refusalOf(later(1))).toBe("#VALUE! t row 4, mass, is 9; not that");
    const byRow = () => {
      read.tableRows({ t: rows }, columns);
      refuse(new Place("t", 1, "mass"), "9", "not that");
    };
    expect(refusalOf(byRow)).toBe("#VALUE! t row 3, mass, is 9; not that");
    const bad = [head, wool, [1, "", "silk", -30]];
    expect(refusalOf(() => read.table({ t: bad }, columns))).toContain("t row 3, unit price, is -30");
  });

  test("tells the build which it takes, but for those that one call alone has", () => {
    const told: string[] = [];
    listenToHeadings((argument, headings) => told.push(argument, ...headings.map(({ key }) => key)));
    try {
      read.table({ t: [head, wool] }, columns);
      read.table({ u: [head, wool] }, columns, { named: true, own: ["material", "mass"] });
    } finally {
      listenToHeadings(undefined);
    }
    expect(told).toEqual(["t", "material", "unit_price", "mass", "u", "unit_price", "name"]);
  });

  test.each([
    ["without headings", [], 4],
    ["below headings", [["Material", "Unit price", "Mass"]], 5],
  ])("a totals row is refused %s, by its word or by its figures", (_, headings, row) => {
    const rows = [["wool", 12.5, 2.5], ["silk", 30.25, 1.25], ["mohair", 21, 4]]; // prettier-ignore
    const called = [...headings, ...rows, ["Total", 63.75, null]];
    expect(refusalOf(() => read.table({ t: called }, columns))).toBe(
      `#VALUE! t row ${row} is a totals row; leave it out: it would count everything twice`,
    );
    const summed = [...headings, ...rows, ["all", 63.75, 7.75]];
    expect(refusalOf(() => read.table({ t: summed }, columns, traits))).toBe(
      `#VALUE! t row ${row} is the sum of the rows above; leave the totals row out`,
    );
    // Where nobody said that the columns add up, and where only one does, it is a row like others.
    expect(read.table({ t: summed }, columns)).toHaveLength(4);
    expect(read.table({ t: [...headings, ...rows, ["all", 63.75, 7]] }, columns, traits)).toHaveLength(4);
    expect(read.table({ t: [...headings, ["wool", 12.5, 2.5], ["all", 12.5, 2.5]] }, columns, traits)).toHaveLength(2); // prettier-ignore
  });
});

describe("a table whose rows may have names", () => {
  const columns = { first: positive, second: blankIs<number | undefined>(positive, undefined) };
  const inPlace = (t: unknown[][]) => read.tableInPlace({ t }, columns, { named: true });

  test("has them in a first column of texts, or under a heading", () => {
    const rows = [{ first: 1, second: 2 }, { first: 3, second: undefined }]; // prettier-ignore
    expect(inPlace([["a", 1, 2], ["b", 3, null]])).toEqual({ rows, blanks: [false, false], names: ["a", "b"] }); // prettier-ignore
    expect(inPlace([["a", 1], [null, 3]])).toMatchObject({ names: ["a", ""] }); // prettier-ignore
    expect(inPlace([["Second", "Name", "First"], [2, "a", 1], [null, 7, 3]])).toMatchObject({ rows, names: ["a", "7"] }); // prettier-ignore
    expect(inPlace([["a", 1, 2], [null, null, null], ["b", 3, null]])).toEqual({ rows, blanks: [false, true, false], names: ["a", "b"] }); // prettier-ignore
  });

  test("may do without", () => {
    expect(inPlace([[1, 2], [3, null]])).toMatchObject({ names: undefined }); // prettier-ignore
    expect(read.tableInPlace({ t: [[1, 2]] }, columns)).toMatchObject({ names: undefined });
    // And where they may have none, a table of the same columns takes no first column of texts.
    expect(refusalOf(() => read.tableInPlace({ t: [["a", 1, 2]] }, columns))).toBe(
      "#VALUE! t is 3 columns wide; give 1 to 2: first, second",
    );
  });

  test("a number written as text, or a blank text, is no name", () => {
    expect(refusalOf(() => inPlace([["36,5", 2]]))).toContain('t row 1, first, is text "36,5"');
    expect(refusalOf(() => inPlace([["36,5", 1, 2]]))).toBe("#VALUE! t is 3 columns wide; give 1 to 2: first, second");
    expect(refusalOf(() => inPlace([["  ", 1, 2]]))).toContain("3 columns wide");
  });

  test("says where a name is wrong", () => {
    const bad = [["Name", "First"], ["a", 1], [true, 2]]; // prettier-ignore
    expect(refusalOf(() => inPlace(bad))).toBe("#VALUE! t row 3, name, is TRUE; must be text");
  });
});

describe("a row of zeros, as some hosts hand blank cells over,", () => {
  const blankRows = (columns: Record<string, typeof anyNumber | typeof text>, row: unknown[], traits = {}) =>
    read.tableRows({ t: [row, row.map(() => 1)] }, columns, traits)[0]?.blank;

  test("is blank where a column that must be filled takes no 0, or is one of texts", () => {
    expect(blankRows({ mass: positive, price: anyNumber }, [0, 0])).toBe(true);
    expect(blankRows({ material: text, price: anyNumber }, [0, 0])).toBe(true);
    expect(blankRows({ material: text, price: anyNumber }, [0, null])).toBe(true);
    const nothing = read.tableInPlace({ t: [[0, 0]] }, { mass: positive, price: anyNumber });
    expect(nothing).toEqual({ rows: [], blanks: [true], names: undefined });
  });

  test("is one of figures where every column takes 0, unless the table says that zeros say nothing", () => {
    expect(blankRows({ mass: anyNumber, price: anyNumber }, [0, 0])).toBe(false);
    expect(blankRows({ mass: anyNumber, price: anyNumber }, [0, 0], { zerosAreBlank: true })).toBe(true);
    expect(blankRows({ mass: anyNumber, price: anyNumber }, [0, null])).toBe(false);
  });

  test("says nothing by a column that may be blank", () => {
    expect(blankRows({ price: anyNumber, mass: blankIs(positive, 1) }, [0, 0])).toBe(false);
    expect(blankRows({ price: anyNumber, mass: blankIs(text, "") as never }, [0, 0])).toBe(false);
  });

  test("is none where any other value stands in it", () => {
    expect(blankRows({ mass: positive, price: anyNumber }, [0, 5])).toBe(false);
    expect(blankRows({ mass: positive, price: anyNumber }, [null, 0])).toBe(false);
    expect(blankRows({ material: text, price: anyNumber }, [0, "x"])).toBe(false);
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
