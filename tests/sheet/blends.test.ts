import { describe, expect, test } from "vitest";
import { blendModel, FIBRE_MODEL, matchTerms, oneShade, pads, recipeRows } from "../../src/sheet/blends";
import { solidShades } from "../../src/sheet/blends";
import { shadeList } from "../../src/sheet/shade-rows";
import { shadeRow } from "../../src/sheet/shades";
import type { Cell, Cells } from "../../src/sheet/cells";
import { LIGHTS, type Light } from "../../src/tables/lights";
import { absorptionModel } from "../../src/trade/shade/blend-models";
import { refusalOf } from "../support/refusals";

const LIGHT = LIGHTS[0] as Light;
const grey = (bands: number): Cell[] => new Array<number>(bands).fill(0.5);
const noValue: Cell = { code: "#N/A" };
const MEASURED = [grey(31), grey(31)];
/** So many solids without names. */
const solidsOf = (count: number) => ({
  of: "solids",
  count,
  names: undefined,
  blanks: new Array<boolean>(count).fill(false),
});
const shades = (argument: Record<string, Cells>) => shadeList(argument, shadeRow).shades;
const BY_LAB = [
  [50, 0, 0],
  [70, 10, 0],
];

describe("a blend model", () => {
  test("is a word, or a constant of the fibre model", () => {
    expect([blendModel("k/s", "model"), blendModel("Fiber", "model")]).toEqual([absorptionModel, FIBRE_MODEL]);
    expect(Object.keys(blendModel(1, "model"))).toEqual(Object.keys(FIBRE_MODEL));
  });

  test.each([0, -0.15, 1.01])("the constant cannot be %d", (constant) =>
    expect(refusalOf(() => blendModel(constant, "model"))).toBe(
      `#VALUE! model is ${constant}; must be a constant above 0 and at most 1, or a word`,
    ),
  );
});

describe("shades, one a row", () => {
  test("blank rows after the last are none; none at all is refused", () => {
    expect(
      shades({
        solids: [
          [50, 0, 0],
          [null, null, null],
        ],
      }),
    ).toHaveLength(1);
    expect(refusalOf(() => shades({ solids: [["", null]] }))).toBe(
      "#VALUE! solids is blank; must hold one shade a row",
    );
  });

  test("an error among the cells goes before the number of them", () => {
    expect(refusalOf(() => shades({ solids: [[noValue, 1, 2, 3]] }))).toBe("#N/A");
  });

  test("a bad one is named by its row, if there are several", () => {
    const wanted = "must be 31 or 16 bands, 400 to 700 nm, or L*, a*, b* along a row";
    expect(refusalOf(() => shades({ solids: [[50, 0]] }))).toBe(`#VALUE! solids is 2 cells wide; ${wanted}`);
    expect(
      refusalOf(() =>
        shades({
          solids: [
            [50, 0, 0],
            [50, 0, ""],
          ],
        }),
      ),
    ).toBe(`#VALUE! solids row 2 is 2 cells wide; ${wanted}`);
  });

  test("one that no surface can have is named by its row", () => {
    expect(refusalOf(() => solidShades({ solids: [...BY_LAB, [50, 200, 0]] }, LIGHT))).toBe(
      "#VALUE! solids row 3 is L*a*b* 50, 200, 0; no surface has that shade",
    );
  });

  test("solids count as measured when every one is", () => {
    expect(solidShades({ solids: MEASURED }, LIGHT).measured).toBe(true);
    expect(solidShades({ solids: [grey(31), [50, 0, 0, ...new Array<Cell>(28).fill("")]] }, LIGHT).measured).toBe(
      false,
    );
    expect(solidShades({ solids: BY_LAB }, LIGHT).measured).toBe(false);
  });
});

describe("recipes", () => {
  const read = (cells: Cells, solids: number) => {
    const { rows, items, read: readOne, name } = recipeRows({ shares: cells }, solidsOf(solids));
    return { rows, shares: items.map(([recipe]) => readOne(recipe, name)) };
  };

  test("are one along a row or down a column, or several, one a row", () => {
    expect(read([[0.25, 0.75]], 2)).toEqual({ rows: 1, shares: [[0.25, 0.75]] });
    expect(read([[0.25], [0.75]], 2)).toEqual({ rows: 1, shares: [[0.25, 0.75]] });
    expect(
      read(
        [
          [0.25, 0.75],
          [1, 0],
        ],
        2,
      ),
    ).toEqual({
      rows: 2,
      shares: [
        [0.25, 0.75],
        [1, 0],
      ],
    });
  });

  test("may miss 1 by a millionth, and are then made to sum to it", () => {
    const [shares] = read([[0.5, 0.5000009]], 2).shares as [number[]];
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 15);
    expect(shares[1] as number).toBeGreaterThan(0.5);
    expect(refusalOf(() => read([[0.5, 0.500002]], 2))).toBe(
      "#VALUE! shares is 1.000002 in all; must sum to 1 (100%); MIXROUND mends rounded shares",
    );
    expect(refusalOf(() => read([[0.5, 0.5]], 3))).toBe(
      "#VALUE! shares is 2 items long; must match solids, which has 3",
    );
  });
});

describe("pads", () => {
  const of = (shares: Cells) => pads({ shares }, { blends: BY_LAB }, solidsOf(2), LIGHT);

  test("have a recipe and a shade each", () => {
    const recipes = [
      [0.5, 0.5],
      [1, 0],
    ];
    expect(of(recipes)).toEqual(recipes.map((shares, pad) => ({ shares, lab: BY_LAB[pad] })));
  });

  test("whose recipe is left out, or has a gap, are refused", () => {
    expect(
      refusalOf(() =>
        of([
          [0.5, 0.5],
          ["", null],
        ]),
      ),
    ).toBe("#VALUE! shares is blank in part; give one recipe a pad");
    expect(
      refusalOf(() =>
        of([
          [0.5, 0.5],
          ["", 0.9],
        ]),
      ),
    ).toContain("0.9 in all; must sum to 1");
  });
});

describe("the terms of a match", () => {
  const none = { parts: null, min_share: null, model: null, step: null, max_share: null };
  const twoLights: Cells = [["D65/10", "A/10"]];
  const aimIn = (solids: Cells, light: Cells, row: Cell[]) =>
    matchTerms({ ...none, solids, light }).aim(row, "target", undefined).measured;

  test("are those of the wool fibre model, up to four solids, in daylight", () => {
    const { solids, measured, ...terms } = matchTerms({ ...none, solids: MEASURED, light: null });
    expect(terms).toMatchObject({ parts: 4, leastShare: 0, step: 0, model: FIBRE_MODEL });
    expect(terms.lights.map(({ word }) => word)).toEqual(["D65/10"]);
    expect([solids, measured]).toEqual([MEASURED, true]);
  });

  test("or those given", () => {
    const given = { parts: [[2]], min_share: [[0.05]], model: [["ks"]], step: [[0.01]], max_share: null };
    expect(matchTerms({ ...given, solids: MEASURED, light: twoLights })).toMatchObject({
      ...{ parts: 2, leastShare: 0.05, model: absorptionModel, step: 0.01 },
      lights: [{ word: "D65/10" }, { word: "A/10" }],
    });
  });

  test("L*a*b* tell of one light: several lights ask for measured solids and targets", () => {
    expect(aimIn(MEASURED, twoLights, grey(31))).toBe(true);
    expect(aimIn(BY_LAB, [["A/10"]], [50, 0, 0])).toBe(false);
    const refused = (name: string) => `#VALUE! light is 2 lights; ${name} has L*a*b*, which tell of one light only`;
    expect(refusalOf(() => aimIn(MEASURED, twoLights, [50, 0, 0]))).toBe(refused("target"));
    expect(refusalOf(() => aimIn(BY_LAB, twoLights, grey(31)))).toBe(refused("solids"));
  });
});

describe("an argument along one row", () => {
  const width = (row: readonly Cell[]) => row.length;

  test("is one row that holds something", () => {
    expect(oneShade({ target: [["", 1]] }, width)).toBe(2);
    expect(refusalOf(() => oneShade({ target: [["", null]] }, width))).toBe("#VALUE! target is blank; must be given");
    expect(refusalOf(() => oneShade({ target: [[1], [2]] }, width))).toBe("#VALUE! target is 2 rows; must be one row");
  });
});
