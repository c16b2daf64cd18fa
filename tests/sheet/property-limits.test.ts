import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Cells } from "../../src/sheet/cells";
import { propertyLimits } from "../../src/sheet/property-limits";
import { refusalOf } from "../support/refusals";

const FREE: Cells = [
  ["none", "none"],
  ["none", "none"],
];
const priced = (count: number) => ({ of: "prices", count, names: undefined, blanks: [] });
const limitsOf = (properties: Cells, limits: Cells, weighting: Cells | null = null, cvs: Cells | null = null) =>
  propertyLimits({ properties }, { limits }, { weighting }, { cvs }, priced(properties.length)).kept;

const WOOLS = [
  [20, 0.01],
  [24, 0.02],
];

describe("limits of properties", () => {
  test("none, in any case, and a blank are no limit; a number is one", () => {
    const limits = [
      [" NONE ", 0.01],
      [22, ""],
    ];
    expect(limitsOf(WOOLS, limits)).toEqual([
      { values: [20, 24], weights: [1, 1], least: -Infinity, most: 22 },
      { values: [0.01, 0.02], weights: [1, 1], least: 0.01, most: Infinity },
    ]);
  });

  test("a wholly blank row of limits is none", () => {
    expect(
      limitsOf(WOOLS, [
        [20, 0],
        [null, ""],
      ]).map(({ most }) => most),
    ).toEqual([Infinity, Infinity]);
  });

  test("a mean by length weighs a component by its length, mass over d²(1 + cv²)", () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 40 }), fc.integer({ min: 0, max: 100 }), (micron, percent) => {
        const cv = percent / 100;
        const [fineness] = limitsOf([[micron], [20]], [["none"], ["none"]], [["length"]], [[cv], [0]]);
        const [weight, other] = fineness?.weights as [number, number];
        expect((weight / other) * ((micron / 20) ** 2 * (1 + cv ** 2))).toBeCloseTo(1, 12);
      }),
    );
  });

  test.each<[string, () => unknown, string]>([
    [
      "a fineness of 0 by length",
      () => limitsOf([[20], [0]], [["none"], ["none"]], [["length"]]),
      "properties row 2, column 1 is 0; must be above 0 by length",
    ],
    [
      "another word than none",
      () => limitsOf(WOOLS, [["free", "none"], FREE[1] as string[]]),
      'limits row 1, column 1 is text "free"; must be a number, or none for no limit',
    ],
    [
      "a third row of limits",
      () => limitsOf(WOOLS, [...FREE, [1, 1]]),
      "limits is 3 rows long; must be two rows, minimum and maximum",
    ],
    [
      "one row of limits",
      () => limitsOf(WOOLS, [[1, 1]]),
      "limits is 1 row long; must be two rows, minimum and maximum",
    ],
    [
      "limits of another width",
      () => limitsOf(WOOLS, [["none"], ["none"]]),
      "limits is 1 column wide; must have one column per property, 2",
    ],
    [
      "a weighting too many",
      () => limitsOf(WOOLS, FREE, [["mass", "mass", "length"]]),
      "weighting is 3 items long; must be one cell or one per item of properties' columns, 2",
    ],
    [
      "a cv too many",
      () => limitsOf(WOOLS, FREE, [["length"]], [[0.2], [0.2], [0.2]]),
      "cvs is 3 items long; must be one cell or one per item of prices, 2",
    ],
    [
      "components without properties",
      () => propertyLimits({ properties: WOOLS }, { limits: FREE }, { weighting: null }, { cvs: null }, priced(3)),
      "properties is 2 rows long; must have one row per price, 3",
    ],
  ])("%s is refused", (_, call, message) => expect(refusalOf(call)).toBe(`#VALUE! ${message}`));
});

describe("limits with names", () => {
  const NAMED: Cells = [["", "micron", "vm"], ["north", 20, 0.01], ["south", 24, 0.02]]; // prettier-ignore
  const boundsOf = (limits: Cells, properties = NAMED) =>
    propertyLimits({ properties }, { limits }, { weighting: null }, { cvs: null }, priced(2)).kept.map((one) => [one.least, one.most]); // prettier-ignore
  const [NONE, ALL] = [-Infinity, Infinity];

  test("the components are named by their properties where prices have no names, and told by those where both have", () => {
    const of = (names: string[] | undefined) =>
      propertyLimits({ properties: NAMED }, { limits: FREE }, { weighting: null }, { cvs: null }, { ...priced(2), names }); // prettier-ignore
    expect(of(undefined).names).toEqual(["north", "south"]);
    expect(of(undefined).kept[0]?.values).toEqual([20, 24]);
    expect(of(["south", "north"]).names).toEqual(["south", "north"]);
    expect(of(["south", "north"]).kept[0]?.values).toEqual([24, 20]);
  });

  test("stand under the names of properties, some or all, in any order; without names on both sides by their places", () => {
    const turned = [["vm", "micron"], [0.001, 18], [0.03, 23]]; // prettier-ignore
    expect(boundsOf(turned)).toEqual([[18, 23], [0.001, 0.03]]); // prettier-ignore
    const some = [["", "micron"], ["least", 18], ["most", 23]]; // prettier-ignore
    expect(boundsOf(some)).toEqual([[18, 23], [NONE, ALL]]); // prettier-ignore
    expect(boundsOf(turned, WOOLS)).toEqual([[0.001, 0.03], [18, 23]]); // prettier-ignore
    expect(boundsOf(turned.slice(1))).toEqual([[0.001, 0.03], [18, 23]]); // prettier-ignore
    expect(refusalOf(() => boundsOf([["vm", "colour"], [0.001, 18], [0.03, 23]]))).toMatch(/limits.*"colour"/); // prettier-ignore
  });

  test("are the other way round where the first row is named for the greatest", () => {
    const rows = (first: string, second: string): Cells => [["", "micron", "vm"], [first, 23, 0.03], [second, 18, 0.001]]; // prettier-ignore
    for (const word of ["max", "Maximum", "at most", "upper"])
      expect(boundsOf(rows(word, "least"))).toEqual([[18, 23], [0.001, 0.03]]); // prettier-ignore
    expect(boundsOf(rows("least", "most"))).toEqual([[23, 18], [0.03, 0.001]]); // prettier-ignore
  });

  test("are named by their place in the range where they are in doubt", () => {
    const below = NAMED.map((row) => row.map((cell) => (typeof cell === "number" ? -cell : cell)));
    const doubted = (first: string, ...cells: Cells) =>
      refusalOf(() => boundsOf([["", "vm", "micron"], [first, ...(cells[0] as Cells[0])], ["other", ...(cells[1] as Cells[0])]], below)); // prettier-ignore
    expect(doubted("least", ["none", 0], ["none", "none"])).toContain("limits row 2, column 3 is 0, as a blank");
    expect(doubted("least", [0, "none"], ["none", "none"])).toContain("limits row 2, column 2 is 0, as a blank");
    expect(doubted("least", ["none", "free"], ["none", 1])).toContain('limits row 2, column 3 is text "free"');
    expect(doubted("max", ["none", "none"], ["none", 0])).toContain("limits row 3, column 3 is 0, as a blank");
  });

  test("are two rows, not one under a heading, and not two columns", () => {
    const one = [["micron", "vm"], ["none", 1]]; // prettier-ignore
    expect(refusalOf(() => boundsOf(one))).toBe("#VALUE! limits is 1 row long; must be two rows, minimum and maximum");
    const three = [[20, 0.01, 60], [24, 0.02, 70]]; // prettier-ignore
    const refused = (limits: Cells) => refusalOf(() => limitsOf(three, limits));
    const said = "#VALUE! limits is 3 rows long; must be two rows, minimum and maximum";
    expect(refused([[18, 22], [0, 1], [50, 80]])).toBe(`${said}: TRANSPOSE turns it`); // prettier-ignore
    expect(refused([[18, 22, 1], [0, 1, 1], [50, 80, 1]])).toBe(said); // prettier-ignore
    expect(refusalOf(() => limitsOf(WOOLS, [["", ""], [null, ""]]))).toBe("#VALUE! limits is blank; must hold at least one row"); // prettier-ignore
  });
});

describe("a limit of 0 may be a blank that some hosts hand over as 0", () => {
  const only = (values: number[], least: string | number, most: string | number) =>
    limitsOf(
      values.map((value) => [value]),
      [[least], [most]],
    );
  const doubt = "is 0, as a blank cell may arrive; write none, or 1E-9 for a limit of 0";

  test("so it is refused where it would bind", () => {
    expect(refusalOf(() => only([-1, 2], 0, "none"))).toBe(`#VALUE! limits row 1, column 1 ${doubt}`);
    expect(refusalOf(() => only([-1, 2], "none", 0))).toBe(`#VALUE! limits row 2, column 1 ${doubt}`);
  });

  test("and taken where it cannot", () => {
    expect(only([0, 2], 0, "none")).toMatchObject([{ least: 0, most: Infinity }]);
    expect(only([-2, 0], "none", 0)).toMatchObject([{ least: -Infinity, most: 0 }]);
  });
});
