import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Cell, Cells } from "../../src/sheet/cells";
import { anyNumber, blankIs, notNegative, share } from "../../src/sheet/kinds";
import {
  alongside,
  block,
  eachAlong,
  likeList,
  namedList,
  namedMatrix,
  namedTogether,
  orderOf,
  withNames,
} from "../../src/sheet/names";
import { list } from "../../src/sheet/arguments";
import { inWords } from "../../src/sheet/places";
import { at, Refusal } from "../../src/trade/refusal";
import { refusalOf } from "../support/refusals";

const name = fc.constantFrom("natural", "moss green", "shade 12", "Nr. 7", "A", "0417 x");
const size = fc.integer({ min: 1, max: 5 });
const figures = (cell: fc.Arbitrary<Cell>) =>
  fc
    .tuple(size, size)
    .chain(([rows, columns]) =>
      fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
    );
const number = fc.double({ min: 0, max: 1, noNaN: true });
const NO_NAMES = { rowNames: undefined, columnNames: undefined, above: 0, before: 0 };

describe("the names of a range", () => {
  test("are none where there are only numbers and blanks, so a first row of data is never taken for headings", () => {
    fc.assert(
      fc.property(figures(fc.oneof(number, fc.constantFrom<Cell>(null, "", undefined, 45000, 0))), (cells) => {
        expect(block({ a: cells }, anyNumber)).toEqual({ name: "a", figures: cells, ...NO_NAMES });
      }),
    );
  });

  test("are none where a number, a date or a blank stands among the words of the first row", () => {
    fc.assert(
      fc.property(
        fc.array(name, { minLength: 2, maxLength: 5 }),
        fc.nat(),
        fc.constantFrom<Cell>(7, 45000, "", null),
        (head, at, odd) => {
          // At the first place a blank is the corner over names, and so it is no odd one unless there are none.
          const place = 1 + (at % (head.length - 1));
          const first = head.map((word, column): Cell => (column === place ? odd : word));
          const data = head.map(() => 0.5);
          expect(block({ a: [first, data] }, anyNumber).above).toBe(0);
        },
      ),
    );
  });

  test("come off the first column and the first row, and nothing else does", () => {
    fc.assert(
      fc.property(
        figures(number),
        fc.boolean(),
        fc.boolean(),
        fc.constantFrom<Cell>("recipe", "", null),
        fc.infiniteStream(name),
        (cells, before, above, corner, names) => {
          const take = (): string => names.next().value as string;
          const rowNames = cells.map(take);
          const columnNames = (cells[0] as Cell[]).map(take);
          let given: Cells = cells;
          if (before) given = given.map((row, place) => [rowNames[place], ...row]);
          if (above) given = [[...(before ? [corner] : []), ...columnNames], ...given];
          expect(block({ a: given }, anyNumber)).toEqual({
            name: "a",
            figures: cells,
            rowNames: before ? rowNames : undefined,
            columnNames: above ? columnNames : undefined,
            above: above ? 1 : 0,
            before: before ? 1 : 0,
          });
        },
      ),
    );
  });

  test("are no texts that read as numbers, in a range of nothing but such texts", () => {
    const texts = [
      ["0,5", "0,5"],
      ["1", "0"],
    ];
    expect(block({ a: texts }, share)).toEqual({ name: "a", figures: texts, ...NO_NAMES });
  });

  test("are no words that the figures may be", () => {
    const none = [
      ["none", "none"],
      [1, 2],
    ];
    const orNone = (cell: Cell, argument: string): unknown => (cell === "none" ? undefined : anyNumber(cell, argument));
    expect(block({ limits: none }, orNone)).toEqual({ name: "limits", figures: none, ...NO_NAMES });
  });

  test("a single column of texts is no column of names", () => {
    expect(block({ a: [["x"], ["y"]] }, anyNumber).rowNames).toBeUndefined();
    expect(block({ a: [["x"], [2]] }, anyNumber)).toMatchObject({ columnNames: ["x"], figures: [[2]] });
  });
});

describe("the smallest ranges and the least names", () => {
  const of = (cells: Cells) => block({ a: cells }, anyNumber);

  test("spaces are no name, and those around a name are no part of it", () => {
    expect(of([["  ", 0.5], ["x", 0.4]]).rowNames).toBeUndefined(); // prettier-ignore
    expect(of([[" moss ", 0.5], ["x", 0.4]]).rowNames).toEqual(["moss", "x"]); // prettier-ignore
  });

  test("a single row of words is no heading of nothing, and a blank is one only over the names", () => {
    expect(of([["x", "y"]])).toMatchObject({ figures: [["y"]], rowNames: ["x"], columnNames: undefined });
    expect(of([["", "black", ""], ["moss", 0.6, 0.4]]).columnNames).toBeUndefined(); // prettier-ignore
    expect(of([["", "black", "blue"], ["moss", 0.6, 0.4]]).columnNames).toEqual(["black", "blue"]); // prettier-ignore
  });

  test("a number of a lot begins with 0, whatever stands before it; no other text that reads as a number is a name", () => {
    expect(of([[" 0417", 1], ["0418", 2]]).rowNames).toEqual(["0417", "0418"]); // prettier-ignore
    expect(of([["105", 1], ["207", 2]]).rowNames).toBeUndefined(); // prettier-ignore
  });

  test("a matrix with a blank in each row is not blank; a blank in a lone column is a missing figure", () => {
    const zero = blankIs(anyNumber, 0);
    expect(namedMatrix({ a: [[1, null], [null, 2]] }, zero).values).toEqual([[1, 0], [0, 2]]); // prettier-ignore
    expect(refusalOf(() => namedMatrix({ a: [[1], [null], [2]] }, anyNumber))).toContain("a row 2, column 1 is blank");
  });

  test("one figure under a word has that name; several have none", () => {
    expect(namedList({ a: [["black"], [0.5]] }, share, "share").along.names).toEqual(["black"]);
    expect(namedList({ a: [["black"], [0.5], [0.4]] }, share, "share").along.names).toBeUndefined();
    expect(
      namedList(
        {
          a: [
            ["black", "blue"],
            [0.5, 0.4],
          ],
        },
        share,
        "share",
      ).along.names,
    ).toEqual(["black", "blue"]);
    expect(refusalOf(() => namedList({ a: [["red", "blue"], [1, 2], [3, 4]] }, anyNumber, "mass"))).toContain("a is headed red, blue; must be one column of figures"); // prettier-ignore
  });

  describe("beside two things", () => {
    const to = { of: "solids", count: 2, names: ["moss", "slate"], blanks: [false, false] };
    const beside = (cells: Cells, others?: "refused", kind = blankIs<number | undefined>(anyNumber, undefined)) =>
      alongside({ price: cells }, kind, "price", to, others);

    test("one figure under a word that is none of their names is one for all", () => {
      expect(beside([["price each"], [5]])).toEqual({ price: [[5]] });
      expect(beside([["Moss"], [5]])).toEqual({ price: [[5, null]] });
    });

    test("a name that is only misspelt is refused where another would be left to its default", () => {
      expect(refusalOf(() => beside([["moss", 5], ["slaet", 6]]))).toContain('price is with "slaet" in it'); // prettier-ignore
      expect(beside([["moss", 5], ["slate", 6], ["flint", 7]])).toEqual({ price: [[5, 6]] }); // prettier-ignore
    });

    test("a figure without a name is no unknown name", () => {
      expect(beside([["moss", 5], ["", 7], ["slate", 6]], "refused")).toEqual({ price: [[5, 6]] }); // prettier-ignore
      expect(refusalOf(() => beside([["moss", 5], ["flint", 7], ["slate", 6]], "refused"))).toContain('with "flint" in it'); // prettier-ignore
    });

    test("names that stop short of theirs are too few", () => {
      expect(refusalOf(() => orderOf("price", ["moss"], to))).toContain('price is without "slate"');
    });

    test("figures without names stay as they lie, and so do named ones beside things without names", () => {
      expect(beside([[1], [2]])).toEqual({ price: [[1], [2]] });
      const unnamed = { ...to, names: undefined };
      expect(alongside({ price: [["moss", 5], ["slate", 6]] }, anyNumber, "price", unnamed)).toEqual({ price: [[5, 6]] }); // prettier-ignore
    });
  });
});

describe("a matrix with names", () => {
  const cells: Cells = [
    ["", "natural", "moss"],
    ["Alba", 0.5, 0.5],
    ["", "", ""],
    ["Brae", 1, 0],
    [null, null, null],
  ];

  test("leaves out blank rows, keeps their places and says where a row lies", () => {
    const table = namedMatrix({ recipes: cells }, share);
    expect(table.values).toEqual([
      [0.5, 0.5],
      [1, 0],
    ]);
    expect(table.rows).toEqual({ of: "recipes", count: 2, names: ["Alba", "Brae"], blanks: [false, true, false] });
    expect(table.columns).toMatchObject({ count: 2, names: ["natural", "moss"] });
    const where = (row: number, column?: number) =>
      inWords(new Refusal("argument", at("recipes", row, column), "odd", "mend it"));
    expect([where(0), where(1), where(1, 1)]).toEqual([
      "recipes row 2 is odd; mend it",
      "recipes row 4 is odd; mend it",
      "recipes row 4, column 3 is odd; mend it",
    ]);
  });

  test("names the cell as it lies in the range", () => {
    const bad = cells.map((row) => [...row]);
    (bad[3] as Cell[])[2] = 7;
    expect(refusalOf(() => namedMatrix({ recipes: bad }, share))).toContain("recipes row 4, column 3 is 7");
    expect(refusalOf(() => namedMatrix({ recipes: [[null]] }, share))).toBe(
      "#VALUE! recipes is blank; must hold at least one row",
    );
  });

  test("is refused with a totals row or column", () => {
    expect(refusalOf(() => namedMatrix({ recipes: [...cells.slice(0, 4), ["Total", 1.5, 0.5]] }, share))).toBe(
      "#VALUE! recipes row 5 is called Total; leave totals out",
    );
    expect(
      refusalOf(() =>
        namedMatrix({ recipes: cells.slice(0, 2).map((row, at) => [...row, at === 0 ? "sum" : 1]) }, share),
      ),
    ).toBe("#VALUE! recipes column 4 is called sum; leave totals out");
  });
});

describe("a list with names", () => {
  const read = (cells: Cells) => {
    const { figures, along, across } = namedList({ shares: cells }, share, "share");
    return { values: list(figures, share), names: along.names, blanks: along.blanks, across };
  };
  const named = { values: [0.6, 0.4], names: ["natural", "moss"] };

  test("lies in a column or in a row, with or without a heading", () => {
    expect(read([["natural", 0.6], ["moss", 0.4]])).toMatchObject({ ...named, across: false }); // prettier-ignore
    expect(read([["natural", "moss"], [0.6, 0.4]])).toMatchObject({ ...named, across: true }); // prettier-ignore
    expect(read([["solid", "share"], ["natural", 0.6], ["moss", 0.4]])).toMatchObject(named); // prettier-ignore
    expect(read([["", "natural", "moss"], ["Alba", 0.6, 0.4]])).toMatchObject(named); // prettier-ignore
  });

  test("is found in a table of the user's own by its heading", () => {
    const table = [
      ["Remark", "Share (%)", "Colour", "Price"],
      ["", 0.6, "natural", 12],
      ["new lot", 0.4, "moss", 14],
    ];
    expect(read(table)).toMatchObject(named);
    expect(read(table.map((row) => [row[1], row[0]] as Cell[])).names).toEqual(["", "new lot"]);
  });

  test("leaves out what is blank with its name; a name without a figure is not", () => {
    expect(read([["natural", 0.6], ["", ""], ["moss", 0.4]])).toMatchObject({ ...named, blanks: [false, true, false] }); // prettier-ignore
    expect(refusalOf(() => read([["natural", 0.6], ["moss", ""], ["flint", 0.4]]))).toContain("item 2 is blank"); // prettier-ignore
  });

  test("without names stays as it is, a block in reading order", () => {
    expect(read([[0.25, 0.25], [0.25, 0.25]])).toMatchObject({ values: [0.25, 0.25, 0.25, 0.25], names: undefined }); // prettier-ignore
  });

  test("may not be a block with names, and holds no total", () => {
    expect(
      refusalOf(() =>
        read([
          ["a", 0.25, 0.25],
          ["b", 0.25, 0.25],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! shares is a block with names; must be one column of figures beside its names, or one headed share",
    );
    expect(
      refusalOf(() =>
        read([
          ["natural", 0.6],
          ["moss", 0.4],
          ["In all", 1],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      "#VALUE! shares item 3 is called In all; leave totals out",
    );
  });

  test("gives results back as it lies", () => {
    const laid = (cells: Cells) => likeList(namedList({ shares: cells }, share, "share"), [10, 20]);
    expect(laid([["natural", 0.6], ["", ""], ["moss", 0.4]])).toEqual([["natural", 10], ["", ""], ["moss", 20]]); // prettier-ignore
    expect(laid([["natural", "moss"], [0.6, 0.4]])).toEqual([["natural", "moss"], [10, 20]]); // prettier-ignore
    expect(laid([[0.6, 0.4]])).toEqual([[10, 20]]);
  });
});

describe("a list along other things", () => {
  const to = { of: "recipes", count: 2, names: ["Alba", "Brae"], blanks: [false, true, false] };
  const read = (cells: Cells, along = to) =>
    list(alongside({ quantities: cells }, notNegative, "quantity", along), notNegative);

  test("goes by the names, in any order and spelling", () => {
    expect(read([["brae ", 20], ["ALBA", 10]])).toEqual([10, 20]); // prettier-ignore
    expect(
      refusalOf(() =>
        read([
          ["Brae", 20],
          ["Cairn", 10],
        ]),
      ),
    ).toBe(
      // prettier-ignore
      '#VALUE! quantities is without "Alba"; must have the names of recipes, or none',
    );
    expect(refusalOf(() => read([["Brae", 20], ["Brae", 10]]))).toContain('is "Brae" twice'); // prettier-ignore
  });

  test("passes over names that the others have not, unless they must all be there", () => {
    const wide: Cells = [["Brae", 20], ["Alba", 1], ["Cairn", 10]]; // prettier-ignore
    expect(read(wide)).toEqual([1, 20]);
    expect(
      refusalOf(() => alongside({ quantities: wide }, notNegative, "quantity", to, "refused")),
    ).toBe('#VALUE! quantities is with "Cairn" in it; must have the names of recipes, or none'); // prettier-ignore
  });

  test("takes the default for a name that is not there only where a blank has one", () => {
    const maybe = blankIs(share, 0.25);
    expect(eachAlong({ most: [["brae", 0.5]] }, maybe, 1, "most", to)).toEqual([0.25, 0.5]);
    expect(refusalOf(() => eachAlong({ most: [["brae", 0.5]] }, share, 1, "most", to))).toContain('without "Alba"');
  });

  test("equal names are no matter while the order is the same", () => {
    const twins = { ...to, names: ["natural", "natural"] };
    expect(orderOf("stock", ["natural", "Natural"], twins)).toEqual([0, 1]);
    expect(refusalOf(() => orderOf("stock", ["Brae", "Brae"], { ...to, names: ["Brae", "Alba"] }))).toBe(
      '#VALUE! stock is "Brae" twice; give every name once',
    );
  });

  test("without names leaves out the blank places of the others, where nothing may stand", () => {
    expect(read([[10], [null], [20]])).toEqual([10, 20]);
    expect(read([[10], [0], [20]])).toEqual([10, 20]);
    expect(read([[10], [20]])).toEqual([10, 20]);
    expect(refusalOf(() => read([[10], [5], [20]]))).toBe(
      "#VALUE! quantities item 2 is 5; must be blank as in recipes",
    );
  });

  test("may be one cell for all, or left out", () => {
    expect(eachAlong({ regains: [[0.1]] }, share, 0, "regain", to)).toEqual([0.1, 0.1]);
    expect(eachAlong({ regains: null }, share, 0, "regain", to)).toEqual([0, 0]);
    expect(eachAlong({ regains: [["Brae", 0.2], ["Alba", 0.1]] }, share, 0, "regain", to)).toEqual([0.1, 0.2]); // prettier-ignore
  });
});

describe("lists that belong together", () => {
  const price = (cells: Cells | null, leftOut?: number) =>
    namedTogether<{ mass: number; price: number }>({
      mass: [{ masses: [["Alba", 1], ["Brae", 2]] }, notNegative, "mass"], // prettier-ignore
      price: [{ prices: cells }, notNegative, "price", ...(leftOut === undefined ? [] : ([leftOut] as const))] as never,
    }).items;

  test("are one object an item, by their names or in their order", () => {
    const both = [{ mass: 1, price: 5 }, { mass: 2, price: 6 }]; // prettier-ignore
    expect(price([[5, 6]])).toEqual(both);
    expect(price([["Brae", 6], ["Cairn", 7], ["Alba", 5]])).toEqual(both); // prettier-ignore
    expect(price(null, 1)).toEqual([{ mass: 1, price: 1 }, { mass: 2, price: 1 }]); // prettier-ignore
  });

  test("must be of one length, and all there", () => {
    expect(refusalOf(() => price(null))).toContain("prices is blank");
    expect(refusalOf(() => price([[5]], 1))).toBe("#VALUE! prices is 1 item long; must match masses, which has 2");
  });
});

describe("a list beside what is none of it", () => {
  const listed = (cells: Cells) => namedList({ masses: cells }, notNegative, "mass");

  test("is not read with the numbers of its rows", () => {
    const numbered: Cells = [[1, 500], [2, 300], [3, 200], [null, null]]; // prettier-ignore
    expect(refusalOf(() => listed(numbered))).toBe(
      "#VALUE! masses is numbered in its first column; leave that column out",
    );
    // A block of figures, two rows, or figures that count up are as usual as any.
    for (const cells of [
      [
        [1, 5],
        [2, 3],
      ],
      [[1], [2], [3]],
      [[1, 2, 3]],
      [
        [2, 5],
        [3, 4],
        [4, 3],
      ],
      [
        [1, 5],
        [2, 3],
        [4, 1],
      ],
    ]) {
      // prettier-ignore
      expect(listed(cells as Cells).along.count).toBe(cells.flat().length);
    }
  });

  test("has no total without a name at its foot; without figures it is a spare row", () => {
    const kept: Cells = [["Alba", 12], ["Brae", 8]]; // prettier-ignore
    expect(refusalOf(() => listed([...kept, [null, 20]]))).toContain("masses item 3 is the sum of the items above");
    expect(listed([...kept, [null, null]]).along.names).toEqual(["Alba", "Brae"]);
    expect(listed([...kept, ["Cairn", 20]]).along.names).toEqual(["Alba", "Brae", "Cairn"]);
    expect(listed([...kept, [null, 21]]).along.names).toEqual(["Alba", "Brae", ""]);
  });

  test("is matched by the numbers of lots too, numbers here and texts there", () => {
    const nets: Cells = [["lot", "net"], [101, 12], [102, 14]]; // prettier-ignore
    const to = namedList({ nets }, notNegative, "net").along;
    expect(to.names).toEqual(["101", "102"]);
    for (const yields of [
      [
        ["lot", "yield"],
        [102, 0.6],
        [101, 0.7],
      ],
      [
        ["yield", "lot"],
        [0.6, "102"],
        [0.7, "101"],
      ],
    ]) {
      // prettier-ignore
      expect(list(alongside({ yields }, share, "yield", to), share)).toEqual([0.7, 0.6]);
    }
  });
});

test("results carry the names before and above them", () => {
  expect(withNames([[1, 2]], ["Alba"], ["natural", "moss"])).toEqual([
    ["", "natural", "moss"],
    ["Alba", 1, 2],
  ]);
  expect(withNames([[1, 2]], undefined, ["natural", "moss"])).toEqual([
    ["natural", "moss"],
    [1, 2],
  ]);
  expect(withNames([[1, 2]], undefined, undefined)).toEqual([[1, 2]]);
});
