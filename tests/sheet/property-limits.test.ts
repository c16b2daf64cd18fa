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
