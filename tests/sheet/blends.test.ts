import { describe, expect, test } from "vitest";
import {
  blendModel,
  FIBRE_MODEL,
  matchTerms,
  oneRecipe,
  oneShade,
  pads,
  recipeRows,
  solidShades,
} from "../../src/sheet/blends";
import { shadeList } from "../../src/sheet/shade-rows";
import { shadeRow } from "../../src/sheet/shades";
import type { Cell, Cells } from "../../src/sheet/cells";
import { LIGHTS, type Light } from "../../src/tables/lights";
import type { Along } from "../../src/sheet/names";
import { absorptionModel } from "../../src/trade/shade/blend-models";
import { searchEffort } from "../../src/trade/shade/search-size";
import { refusalOf } from "../support/refusals";

const LIGHT = LIGHTS[0] as Light;
const grey = (bands: number): Cell[] => new Array<number>(bands).fill(0.5);
const noValue: Cell = { code: "#N/A" };
const MEASURED = [grey(31), grey(31)];
/** So many solids without names. */
const solidsOf = (count: number): Along => ({
  of: "solids",
  count,
  names: undefined,
  blanks: new Array<boolean>(count).fill(false),
});
/** Two solids in a range of three rows, the middle one blank. */
const WITH_GAP: Along = { ...solidsOf(2), blanks: [false, true, false] };
const named = (...names: string[]): Along => ({ ...solidsOf(names.length), names });
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

/** What is read of recipes for these solids. */
function readFor(cells: Cells, solids: Along) {
  const { rows, items, read, name, names } = recipeRows({ shares: cells }, solids);
  return { rows, shares: items.map(([recipe]) => read(recipe, name)), names };
}

describe("recipes", () => {
  const read = (cells: Cells, solids: number) => {
    const { rows, shares } = readFor(cells, solidsOf(solids));
    return { rows, shares };
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

describe("recipes with names", () => {
  const refused = (cells: Cells, solids: Along) => refusalOf(() => readFor(cells, solids));

  test("are put in the order of the solids by name, where both have names", () => {
    const cells = [
      ["", "Ash", "Moss"],
      ["North", 0.25, 0.75],
      ["South", 1, 0],
    ];
    const names = ["North", "South"];
    const turned = [[0.75, 0.25], [0, 1]]; // prettier-ignore
    expect(readFor(cells, named("Moss", "Ash"))).toEqual({ rows: 2, shares: turned, names });
    expect(readFor(cells, named("Moss", "Sky", "Ash")).shares).toEqual([[0.75, 0, 0.25], [0, 0, 1]]); // prettier-ignore
    expect(readFor(cells, solidsOf(2))).toEqual({ rows: 2, shares: [[0.25, 0.75], [1, 0]], names }); // prettier-ignore
  });

  test("down a column have names of solids beside them, and none of their own", () => {
    const down = [["Ash", 0.25], ["Moss", 0.75]]; // prettier-ignore
    expect(readFor(down, named("Moss", "Ash"))).toEqual({ rows: 1, shares: [[0.75, 0.25]], names: undefined });
  });

  test("of the only solid are recipes, one a row, also a single one", () => {
    const names = ["North", "South", "West"];
    const rows = names.map((name) => [name, 1]);
    expect(readFor(rows, named("Ash"))).toEqual({ rows: 3, shares: [[1], [1], [1]], names });
    expect(readFor(rows.slice(0, 1), named("Ash"))).toEqual({ rows: 1, shares: [[1]], names: ["North"] });
  });

  test("a total among them is refused, with its place in the range", () => {
    const row = [["", "Ash", "Moss"], ["North", 0.5, 0.5], ["Total", 0.5, 0.5]]; // prettier-ignore
    expect(refused(row, solidsOf(2))).toMatch(/^#VALUE! shares row 3 /);
    expect(refused(row, solidsOf(2))).toMatch(/otal/);
    const column = [["", "Ash", "Total"], ["North", 1, 1], ["South", 1, 1]]; // prettier-ignore
    expect(refused(column, solidsOf(2))).toMatch(/^#VALUE! shares column 3 /);
    expect(refused(column.map((cells) => cells.slice(1)), solidsOf(2))).toMatch(/^#VALUE! shares column 2 /); // prettier-ignore
  });

  test("one that does not sum to 1 is named by its row in the range, where there are several", () => {
    const rest = "is 0.9 in all; must sum to 1 (100%); MIXROUND mends rounded shares";
    const rows = [[0.25, 0.75], [0.5, 0.4]]; // prettier-ignore
    expect(refused(rows, solidsOf(2))).toBe(`#VALUE! shares row 2 ${rest}`);
    expect(refused([["Ash", "Moss"], ...rows], solidsOf(2))).toBe(`#VALUE! shares row 3 ${rest}`);
    expect(refused(rows.slice(1), solidsOf(2))).toBe(`#VALUE! shares ${rest}`);
  });

  test("with one row a solid are to be turned; with another number of cells their number is told", () => {
    const turned = [[0.5, 1, 0.25], [0.5, 0, 0.75]]; // prettier-ignore
    expect(refused(turned, solidsOf(2))).toBe(
      "#VALUE! shares is 2×3; must have one column a solid, 2: TRANSPOSE turns it",
    );
    const wide = [0, 1, 2].map(() => [0.25, 0.25, 0.25, 0.25]);
    expect(refused(wide, solidsOf(2))).toBe("#VALUE! shares is 4 items long; must match solids, which has 2");
  });

  test("may leave a blank, or nothing, where a solid is blank, and blanks behind the last", () => {
    const both = [[0.5, 0.5], [0, 1]]; // prettier-ignore
    const { shares } = readFor([[0.5, "", 0.5], [0, 0, 1]], WITH_GAP); // prettier-ignore
    expect(shares).toEqual(both);
    expect(readFor(both, WITH_GAP).shares).toEqual(both);
    expect(refused([[0.5, 0.2, 0.3]], WITH_GAP)).toContain("shares is 3 items long");
    expect(readFor([[0.5, 0.5, ""]], solidsOf(2)).shares).toEqual([[0.5, 0.5]]);
  });

  test("where one is asked for it is one, with something in it", () => {
    const one = (cells: Cells) => oneRecipe({ shares: cells }, solidsOf(2));
    expect(one([["", 1]])).toEqual([0, 1]);
    expect(refusalOf(() => one([["", null]]))).toBe("#VALUE! shares is blank; must be given");
    expect(refusalOf(() => one([[0.5, 0.5], [1, 0]]))).toBe("#VALUE! shares is 2 recipes; must be one"); // prettier-ignore
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

  test("belong together by their names where both have some, else by their places, blank ones left out", () => {
    const recipes = [["one", 0.5, 0.5], ["two", 1, 0]]; // prettier-ignore
    const bare = recipes.map((row) => row.slice(1));
    const turned = [["two", 50, 0, 0], ["one", 70, 10, 0]]; // prettier-ignore
    const shares = (given: Cells, blends: Cells) => pads({ shares: given }, { blends }, solidsOf(2), LIGHT);
    const [half, whole] = [[0.5, 0.5], [1, 0]]; // prettier-ignore
    expect(shares(recipes, turned)).toEqual([{ shares: whole, lab: [50, 0, 0] }, { shares: half, lab: [70, 10, 0] }]); // prettier-ignore
    for (const [given, blends] of [
      [recipes, BY_LAB],
      [bare, turned],
    ] as const)
      expect(shares(given, blends).map((pad) => pad.shares)).toEqual([half, whole]);
    const gaps = [BY_LAB[0] as Cell[], ["", "", ""], BY_LAB[1] as Cell[]];
    const spaced = [bare[0] as Cell[], ["", ""], bare[1] as Cell[]];
    expect(shares(spaced, gaps).map((pad) => pad.shares)).toEqual([half, whole]);
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

describe("the shares of a match", () => {
  const BANDS = [0.2, 0.4, 0.6, 0.8].map((value) => new Array<number>(31).fill(value));
  const given = (more: Partial<Record<"parts" | "min_share" | "max_share" | "step", Cells>>) =>
    matchTerms({ solids: BANDS, light: null, model: null, parts: null, step: null, min_share: null, max_share: null, ...more }); // prettier-ignore
  const each = (...shares: number[]): Cells => shares.map((share) => [share]);

  test("take as much work as the search among the solids that may be used, with those that must", () => {
    const effort = (solids: number, kept: number) =>
      searchEffort({ solids, kept, parts: 4, leastShare: 0, step: 0 }, 1);
    expect(given({}).effort).toBe(effort(4, 0));
    expect(given({ max_share: each(1, 0.9, 0, 0.5) }).effort).toBe(effort(3, 0));
    expect(given({ min_share: each(0.1, 0, 0.2, 0) }).effort).toBe(effort(4, 2));
  });

  test("one least share is that of any solid, one each those of each, and none but zeros is none", () => {
    expect(given({ min_share: [[0.1]] })).toMatchObject({ leastShare: 0.1, leastShares: undefined });
    expect(given({ min_share: [[0.1, 0, 0.2, 0]] })).toMatchObject({ leastShare: 0, leastShares: [0.1, 0, 0.2, 0] });
    expect(given({ min_share: each(0, 0, 0, 0) })).toMatchObject({ leastShare: 0, leastShares: undefined });
  });

  test("may ask for as many solids as there are parts, and fill them to the last", () => {
    expect(given({ parts: [[2]], min_share: each(0.1, 0, 0.2, 0) }).leastShares).toEqual([0.1, 0, 0.2, 0]);
    expect(refusalOf(() => given({ parts: [[1]], min_share: each(0.1, 0, 0.2, 0) }))).toBe(
      "#VALUE! parts is 1; must be 2 or more: min_share asks for so many solids",
    );
    // The greatest two hold the whole, wherever they stand.
    expect(given({ parts: [[2]], max_share: each(0.2, 0.5, 0.1, 0.6) }).mostShares).toEqual([0.2, 0.5, 0.1, 0.6]);
    const half = { parts: [[2]], max_share: each(0, 0.5, 0.5, 0) };
    expect(given({ ...half, min_share: [[0.5]] }).leastShare).toBe(0.5);
    expect(refusalOf(() => given({ ...half, min_share: [[0.51]] }))).toBe(
      "#VALUE! min_share is 0.51; must not be above max_share, 0.5",
    );
    expect(refusalOf(() => given({ parts: [[2]], max_share: each(0.2, 0.5, 0.1, 0.4) }))).toMatch(
      /max_share .*0\.9 in 2 solids; take more parts/,
    );
  });

  test("a reflectance of 1 is white and not over it", () => {
    const white = (value: number) => matchTerms({ solids: [[...(BANDS[0] as number[]).slice(1), value]], light: null, model: null, parts: null, step: null, min_share: null, max_share: null }).overWhite; // prettier-ignore
    expect([white(1), white(1.01)]).toEqual([false, true]);
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
