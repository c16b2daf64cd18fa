import { describe, expect, test } from "vitest";
import type { Cells } from "../../src/sheet/cells";
import {
  clipped,
  columnUnder,
  headingOf,
  headingsIn,
  isCalledTotal,
  isSumOf,
  listenToHeadings,
  listHeading,
  NAMES,
  placesOf,
  plainHeading,
  refuseTotal,
  refuseUnknownHeadings,
  spoken,
  tellHeadings,
  type Heading,
} from "../../src/sheet/headings";

const FURTHER = { mass_taken: ["weight", "Kilos"], unit_cost: ["price per kg"], remarks: ["notes"] };
/** Mass taken and unit cost must be there, remarks may, and a name. */
const [MASS, COST, REMARKS] = Object.keys(FURTHER).map((key) => headingOf(key, key !== "remarks", FURTHER)) as [
  Heading,
  Heading,
  Heading,
];
const KNOWN = [MASS, COST, REMARKS, NAMES];

const found = (...rows: Cells) => {
  const places = headingsIn("lots", rows, KNOWN);
  return places && Object.fromEntries(places);
};
const refused = (call: () => unknown, message: string) => expect(call).toThrow(expect.objectContaining({ message }));

describe("a heading", () => {
  test("is its key as a person says it, with the words of the trade and those of one table", () => {
    expect(spoken("regain_as_it_lies")).toBe("regain as it lies");
    expect(headingOf("density", true)).toEqual({
      ...{ key: "density", needed: true, synonyms: ["fibre density"] },
      plain: { own: "density", others: ["fibre density"] },
    });
    // A word that the key is already, or that stands twice, is none.
    expect(headingOf("fee_paid", false, { fee_paid: ["Dues", "fee paid", "Dues", "hand-money"] })).toEqual({
      ...{ key: "fee_paid", needed: false, synonyms: ["Dues", "hand-money"] },
      plain: { own: "fee paid", others: ["dues", "hand money"] },
    });
    expect(headingOf("density", true, { other: ["word"] }).synonyms).toEqual(["fibre density"]);
  });

  test("of a list is made once, and needed", () => {
    expect(listHeading("density")).toEqual(headingOf("density", true));
    expect(listHeading("density")).toBe(listHeading("density"));
    expect(listHeading("net").key).toBe("net");
  });

  test("is told to whoever listens, until nobody does", () => {
    const told: unknown[] = [];
    listenToHeadings((argument, headings) => told.push(argument, headings));
    tellHeadings("lots", KNOWN);
    listenToHeadings(undefined);
    tellHeadings("lots", []);
    expect(told).toEqual(["lots", KNOWN]);
  });

  test("is compared without case, unit, percent and dashes", () => {
    for (const written of [
      ...[
        "mass taken",
        " Mass  Taken ",
        "MASS_TAKEN",
        "mass-taken",
        "mass taken kg",
        "mass taken (kg)",
        "mass taken [kg per lot] ",
      ],
      ...[
        "mass taken %",
        "Mass taken % ",
        "mass taken in kg",
        "mass taken, kg",
        "mass taken £ / kg",
        "mass taken EUR/h",
        "mass taken  kg ",
      ],
    ])
      expect(plainHeading(written), written).toBe("mass taken");
    // A unit alone, behind two letters or behind what it is the unit of, belongs to it.
    for (const whole of [
      "kg",
      "in kg",
      "no kg",
      "price per kg",
      "cost in kg per h",
      "mass kgs",
      "mass 7 kg",
      "(kg) mass",
    ])
      expect(plainHeading(whole), whole).toBe(whole);
    expect(plainHeading("grouped kg")).toBe("grouped");
    expect(plainHeading("price per lot kg")).toBe("price per lot");
    expect(plainHeading("mass, net, kg")).toBe("mass, net");
    expect(plainHeading("loss % of input")).toBe("loss % of input");
    expect(plainHeading("ad % ")).toBe("ad");
    expect(plainHeading("cost per kg %")).toBe("cost per kg");
  });

  test("quoted with others is at most fifty letters long", () => {
    expect(clipped([" mass taken", "unit cost "])).toBe("mass taken, unit cost");
    expect(clipped(["a".repeat(30), "b".repeat(18)])).toBe(`${"a".repeat(30)}, ${"b".repeat(18)}`);
    expect(clipped(["a".repeat(30), "b".repeat(19)])).toBe(`${"a".repeat(30)}, ${"b".repeat(17)}…`);
  });

  test("stands for a column by its own name, else by another word, else in the plural", () => {
    const places = (...seen: string[]) => placesOf(MASS, seen);
    expect(places("weight", "mass taken", "kilos")).toEqual([1]);
    expect(places("weight", "mass takens")).toEqual([1]);
    expect(places("colour", "kilos", "weight")).toEqual([1, 2]);
    expect(places("weights", "weight")).toEqual([1]);
    expect(places("weightes", "shape", "weights")).toEqual([0, 2]);
    expect(places("mass", "mas taken", "")).toEqual([]);
  });
});

describe("a first row of headings", () => {
  test("puts each column in its place, in any order among others", () => {
    expect(found(["mass taken", "unit cost"], [1, 2])).toEqual({ mass_taken: 0, unit_cost: 1 });
    expect(found(["shelf", "Unit cost (EUR)", "Solid", "Notes", "MASS_TAKEN"], [1, 2, "a", "b", 3])).toEqual({
      ...{ mass_taken: 4, unit_cost: 1, remarks: 3, name: 2 },
    });
    expect(found(["Kilos", "Price per kg"], [1, 2])).toEqual({ mass_taken: 0, unit_cost: 1 });
  });

  test("has words in all its cells, of which one is a heading at least", () => {
    for (const odd of [7, null, undefined, "", "  ", true]) expect(found(["mass taken", "unit cost", odd], [1, 2, 3])).toBe(undefined); // prettier-ignore
    expect(found(["shelf", "rack"], [1, 2])).toBe(undefined);
  });

  test("gives a column its own name before another takes it for a synonym", () => {
    const [first, second] = [
      headingOf("tare_mass", true, { tare_mass: ["waste"] }),
      headingOf("waste", true, { waste: ["tare"] }),
    ];
    const places = (...head: string[]) => {
      const map = headingsIn("lots", [head, head.map(() => 1)], [first, second]);
      return map && Object.fromEntries(map);
    };
    expect(places("waste", "tare_mass")).toEqual({ tare_mass: 1, waste: 0 });
    // "waste" is the second column's own name, and with that the first has none.
    refused(() => places("shelf", "waste"), "lots is headed shelf, waste; tare mass is missing");
    // Under its own name it takes no other column under another word.
    expect(found(["mass taken", "weight", "unit cost"], [1, 2, 3])).toEqual({ mass_taken: 0, unit_cost: 2 });
  });

  test("with one that stands twice, or a needed one missing, is refused", () => {
    refused(() => found(["Mass taken", "mass_taken", "unit cost"]), "lots is headed Mass taken, mass_taken, unit cost; mass taken must stand once"); // prettier-ignore
    refused(() => found(["Weight", "kilos", "unit cost"]), "lots is headed Weight, kilos, unit cost; mass taken must stand once"); // prettier-ignore
    refused(() => found(["mass taken", "shelf"], [1, 2]), "lots is headed mass taken, shelf; unit cost is missing");
    refused(() => found(["notes", "shelf"], [1, 2]), "lots is headed notes, shelf; mass taken, unit cost is missing");
  });

  test("with a heading that is only misspelt is refused, if that column is not there", () => {
    refused(
      () => found(["mass taken", " Unit csot ", "shelf"], [1, 2, 3]),
      'lots is headed "Unit csot"; write unit cost, or another word',
    );
    refused(
      () => found(["weigt (kg)", "unit cost"], [1, 2]),
      'lots is headed "weigt (kg)"; write weight, or another word',
    );
    expect(found(["mass taken", "unit cost", "weigt"], [1, 2, 3])).toEqual({ mass_taken: 0, unit_cost: 1 });
    // A remark may have any heading, also one that is nearly that of the names.
    expect(found(["mass taken", "unit cost", "suplier"], [1, 2, 3])).toEqual({ mass_taken: 0, unit_cost: 1 });
    // What stands under its own name is not asked how near it is to another.
    const near = [headingOf("loss_first", true), headingOf("loss_fist", false)];
    expect(headingsIn("lots", [["loss first"], [1]], near)).toEqual(new Map([["loss_first", 0]]));
  });
});

describe("headings that stand elsewhere", () => {
  const TURNED = "lots is headed down its first column; must have its headings in the first row: TRANSPOSE turns it";

  test("down the first column are told to be turned", () => {
    refused(() => found(["mass taken", 1, 2], ["unit cost", 3, 4]), TURNED);
    refused(() => found(["mass taken", "unit cost"], ["unit cost", "b"], ["notes", "c"]), TURNED);
    // As many in the first row, or only one of several; a needed one that is missing; nothing beside them.
    expect(found(["mass taken", "unit cost"], ["unit cost", "b"])).toEqual({ mass_taken: 0, unit_cost: 1 });
    expect(found(["mass taken", 1], ["shelf", 3])).toBe(undefined);
    expect(found(["mass taken", 1], ["notes", 3])).toBe(undefined);
    refused(() => found(["mass taken"], ["unit cost"], [7]), "lots is headed mass taken; unit cost is missing");
    // A list of one heading has none below each other.
    expect(
      headingsIn(
        "lots",
        [
          ["mass taken", 1],
          [7, 2],
        ],
        [MASS],
      ),
    ).toBe(undefined);
  });

  test("beyond a hundred rows are data", () => {
    const long = (place: number) =>
      Array.from({ length: 120 }, (_, row) => [row === 0 ? "mass taken" : row === place ? "unit cost" : "shelf", 1]);
    refused(() => found(...long(99)), TURNED);
    expect(found(...long(100))).toBe(undefined);
  });

  test("below a title are told to be the first row", () => {
    const told = (row: number) => `lots row 1 is above the headings; begin with the headings, in row ${row}`;
    refused(() => found(["Order 7", null], ["mass taken", "unit cost"], [1, 2]), told(2));
    refused(() => found(["Order", "notes"], ["mass taken", "unit cost"], [1, 2]), told(2));
    const title = (rows: number): Cells => Array.from({ length: rows }, () => ["Order 7", null]);
    refused(() => found(...title(5), ["mass taken", "kilos", "unit cost"], [1, 2, 3]), told(6));
    expect(found(...title(6), ["mass taken", "unit cost"], [1, 2])).toBe(undefined);
    expect(found(...title(1))).toBe(undefined);
    // Not all that is needed, one of it twice, a figure among the words, or nothing that is needed.
    expect(found(...title(1), ["mass taken", "shelf"], [1, 2])).toBe(undefined);
    expect(found(...title(1), ["weight", "kilos", "unit cost"], [1, 2, 3])).toBe(undefined);
    expect(found(...title(1), ["mass taken", "unit cost", 7], [1, 2, 3])).toBe(undefined);
    expect(headingsIn("lots", [...title(1), ["notes", "shelf"], [1, 2]], [REMARKS])).toBe(undefined);
  });

  test("are told by name where none is known, in a range that must have them", () => {
    const refusing = (...rows: Cells) => refuseUnknownHeadings("lots", rows, KNOWN);
    refused(() => refusing(["shelf", "rack"], [1, 2]), "lots is headed shelf, rack; must have headings such as mass taken, unit cost"); // prettier-ignore
    expect(refusing(["shelf", "rack"])).toBe(undefined);
    expect(refusing(["shelf", 2], [1, 2])).toBe(undefined);
    expect(refusing(["shelf", "36,5"], [1, 2])).toBe(undefined);
  });
});

describe("one column of a user's table", () => {
  const under = (...rows: Cells) => columnUnder(rows, MASS);

  test("is found by its heading, with the names beside it", () => {
    expect(under(["shelf", "weight", "Item"], [1, 5, " moss "], [2, 6, null])).toEqual({
      ...{ figures: [[5], [6]], rowNames: ["moss", ""], columnNames: undefined, headed: "weight" },
    });
    // Without a column of names it is the first of words, blanks among them.
    expect(under(["mass taken", "shelf", "what", "more"], [5, 1, "moss", "a"], [6, 2, "", "b"])?.rowNames).toEqual([
      "moss",
      "",
    ]);
    expect(under(["what", "mass taken"], ["", "5"], ["slate", "6"])?.rowNames).toEqual(["", "slate"]);
    expect(under(["shelf", "Item", "mass taken"], ["a", "moss", 5])?.rowNames).toEqual(["moss"]);
    expect(under(["mass taken", "shelf"], [5, "  "], [6, "b"])?.rowNames).toBe(undefined);
    expect(under(["mass taken", "shelf"], [5, 1], [6, "b"])?.rowNames).toBe(undefined);
    expect(under(["mass taken", "shelf"], ["a", 1], ["b", 2])?.rowNames).toBe(undefined);
  });

  test("is none in a row alone, a column alone, without words in all the row, or where it stands not or twice", () => {
    expect(under(["mass taken", "what"])).toBe(undefined);
    expect(under(["mass taken"], [5])).toBe(undefined);
    expect(under(["mass taken", 7], [5, "moss"])).toBe(undefined);
    expect(under(["shelf", "what"], [5, "moss"])).toBe(undefined);
    expect(under(["weight", "kilos"], [5, 6])).toBe(undefined);
  });

  test("may be headed as names are, which then stand beside it", () => {
    const colour = headingOf("colour", true);
    expect(
      columnUnder(
        [
          ["colour", "item"],
          [5, "moss"],
        ],
        colour,
      ),
    ).toMatchObject({ figures: [[5]], rowNames: ["moss"] });
    expect(
      columnUnder(
        [
          ["what", "colour"],
          ["moss", 5],
        ],
        colour,
      ),
    ).toMatchObject({ figures: [[5]], rowNames: ["moss"] });
  });
});

describe("a total", () => {
  const CALLED = [
    ...["total", "Totals", "sum", "In all", "grand total", "Subtotal", "TOTAL:", "sum :", "Summe", "Zwischensumme"],
    ...["Gesamtsumme", "gesamt", "insgesamt", "somme", "sous-total", "totale"],
    ...["Sub-total", "sub total", "Grand-Total"],
  ];
  /** What another column may say of a thing of the table, such as its style, or a remark. */
  const FIRST = [
    ...["mean", "Average", "AVERAGE:", "overall", "Ø", "Σ", "TOTAL KG", "total cost", "Total charges (EUR)"],
    ...["Sum of the lots", "total cost checked by the works", "Sub-total cost", "grand total of the year"],
  ];
  const NOT = [
    "total loss",
    "a total",
    "summer",
    "gross total",
    "totally",
    "in allsorts",
    "total::",
    "Total eclipse",
    "Summit",
    "mean streak",
    "averaged",
  ];

  test("is known by what it is called, in any cell of its row", () => {
    for (const word of CALLED) {
      expect(isCalledTotal([7, word]), word).toBe(true);
      expect(isCalledTotal([` ${word} `, null]), word).toBe(true);
    }
    for (const word of NOT) expect(isCalledTotal([7, word, null]), word).toBe(false);
    for (const word of FIRST) {
      expect(isCalledTotal([word, 7]), word).toBe(true);
      expect(isCalledTotal([7, word]), word).toBe(false);
    }
  });

  test("among names is refused at its place", () => {
    for (const word of [...CALLED, ...FIRST])
      refused(() => refuseTotal("lots", ["moss", word], "row", 1), `lots row 3 is called ${word}; leave totals out`);
    refused(() => refuseTotal("lots", ["sum"], "item", 0), "lots item 1 is called sum; leave totals out");
    expect(refuseTotal("lots", NOT, "column", 0)).toBe(undefined);
    expect(refuseTotal("lots", undefined, "row", 0)).toBe(undefined);
  });

  test("without a name is the sum of two rows or more above it, in two columns or more", () => {
    const above = [
      [1, 10, "a", 0.1],
      [2, 20, "b", 0.2],
      [null, 30, "c", 0],
    ];
    const sum = (row: unknown[], places = [0, 1, 3]) => isSumOf(above, row, places);
    expect(sum([3, 60, "", 7])).toBe(true);
    expect(sum([3, 61, "", 0.3])).toBe(true);
    expect(sum([3, 60, "", 7], [0])).toBe(false);
    expect(sum([3, 61, "", 7])).toBe(false);
    expect(sum([3 + 2e-9, 60 - 5e-8, "", 7])).toBe(true);
    expect(sum([3 + 4e-9, 60, "", 7])).toBe(false);
    expect(sum(["3", 60, "", 7])).toBe(false);
    // What is no number adds nothing.
    expect(isSumOf([["a", 1], [2, 1], [3, 1]], [5, 3], [0, 1])).toBe(true); // prettier-ignore
    // Of one row, or of nothing, no sum is told.
    expect(isSumOf(above.slice(0, 1), [1, 10, "a", 0.1], [0, 1, 3])).toBe(false);
    expect(isSumOf([[0, 0], [0, 0]], [0, 0], [0, 1])).toBe(false); // prettier-ignore
    // Amounts may be below 0.
    expect(isSumOf([[-1, -2], [-1, -2]], [-2, -4], [0, 1])).toBe(true); // prettier-ignore
    expect(isSumOf([[-1, -2], [-1, -2]], [-9, -9], [0, 1])).toBe(false); // prettier-ignore
  });
});
