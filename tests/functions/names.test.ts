import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blend, landed, shade } from "../support/families";
import { refusalOf } from "../support/refusals";

type Cells = (string | number)[][];
const SOLIDS: Record<string, number[]> = { natural: [85, 0, 8], moss: [45, -18, 15], slate: [38, 1, -9] };
const NAMES = Object.keys(SOLIDS);
const labs = (names: readonly string[]): number[][] => names.map((name) => SOLIDS[name] as number[]);
const named = (names: readonly string[]): Cells => names.map((name) => [name, ...(SOLIDS[name] as number[])]);
const orders = fc.shuffledSubarray(NAMES, { minLength: 3 });
const RECIPES: Cells = [
  [0.5, 0.3, 0.2],
  [0.2, 0, 0.8],
];
const COLOURWAYS = ["Heath", "Tarn"];
const recipeBlock = (names: readonly string[]): Cells => [
  ["recipe", ...names],
  ...RECIPES.map((row, at) => [COLOURWAYS[at] as string, ...names.map((name) => row[NAMES.indexOf(name)] as number)]),
];
const nearly = (cells: unknown[][]) =>
  cells.map((row) => row.map((cell) => (typeof cell === "number" ? (expect.closeTo(cell, 9) as unknown) : cell)));

describe("names of solids and recipes go in and come back", () => {
  test("MIXSHADE puts shares to solids by name", () => {
    const plain = shade.mixShade(RECIPES, labs(NAMES));
    fc.assert(
      fc.property(orders, orders, (ofRecipes, ofSolids) => {
        const got = shade.mixShade(recipeBlock(ofRecipes), named(ofSolids));
        expect(got).toEqual(nearly(plain.map((row, at) => [COLOURWAYS[at], ...row])));
      }),
      { numRuns: 20 },
    );
    expect(
      refusalOf(() => shade.mixShade(recipeBlock(NAMES), [...named(["natural", "moss"]), ["flint", 40, 1, 1]])),
    ).toBe('#VALUE! shares is with "slate" in it; must have the names of solids, or none');
    const list = NAMES.map((name, at) => [name, RECIPES[0]?.[at] as number]).reverse();
    expect(shade.mixShade(list, named(NAMES))).toEqual(nearly([plain[0] as unknown[]]));
  });

  test("MIXMATCH gives one recipe a row where there are several targets or names, as MIXSHADE and MIXNEED want it", () => {
    const targets = shade.mixShade(RECIPES, labs(NAMES)) as number[][];
    const single = targets.map((target) => shade.mixMatch([target], labs(NAMES)).map(([cell]) => cell));
    expect(shade.mixMatch(targets, labs(NAMES))).toEqual(single);
    const both = shade.mixMatch(
      targets.map((row, at) => [COLOURWAYS[at] as string, ...row]),
      named(NAMES),
    );
    expect(both).toEqual([["", ...NAMES], ...single.map((row, at) => [COLOURWAYS[at], ...row])]);
    expect(shade.mixMatch([targets[0] as number[]], named(NAMES))).toEqual([NAMES, single[0]]);
    expect(shade.mixMatch([["Heath", ...(targets[0] as number[])]], labs(NAMES))).toEqual([
      ["Heath", ...(single[0] as [])],
    ]);
    // Back into both, and the shade is the target again.
    const again = shade.mixShade(both, named(NAMES));
    again.forEach((row, at) => {
      expect(row[0]).toBe(COLOURWAYS[at]);
      row.slice(1).forEach((value, axis) => expect(value).toBeCloseTo(targets[at]?.[axis] as number, 2));
    });
    expect(blend.mixNeed(both, [[100], [40]])[0]).toEqual(NAMES);
  });

  test("MIXMATCH without names keeps a blank row of solids blank at its place", () => {
    const gap = [SOLIDS["natural"], ["", "", ""], SOLIDS["slate"]] as Cells;
    const got = shade.mixMatch([SOLIDS["slate"] as number[]], gap);
    expect(got.map(([cell]) => cell)).toEqual([expect.closeTo(0, 6), "", expect.closeTo(1, 6)]);
  });

  test("MIXCHOICES heads its shares with the names and finds the prices by them", () => {
    const prices = NAMES.map((name, at): [string, number] => [name, 10 * (at + 1)]);
    const plain = shade.mixChoices(
      [[50, -5, 5]],
      labs(NAMES),
      null!,
      null!,
      null!,
      null!,
      null!,
      prices.map(([, price]) => [price]),
    );
    const got = shade.mixChoices(
      [["Heath", 50, -5, 5]],
      named(NAMES),
      null!,
      null!,
      null!,
      null!,
      null!,
      [...prices].reverse(),
    );
    expect(got[0]?.slice(0, 4)).toEqual(["choice", ...NAMES.map((name) => `${name} (share)`)]);
    expect(got.slice(1)).toEqual(plain.slice(1));
  });

  test("MIXFIT finds pads and solids by name", () => {
    const pads = shade.mixShade(RECIPES, labs(NAMES), [[0.21]]) as number[][];
    const blends = pads.map((row, at): (string | number)[] => [COLOURWAYS[at] as string, ...row]).reverse();
    expect(shade.mixFit(recipeBlock(["slate", "natural", "moss"]), named(NAMES), blends)[0]?.[0]).toBeCloseTo(0.21, 5);
  });

  test("MIXNEED", () => {
    const plain = blend.mixNeed(RECIPES, [[100], [40]]);
    const quantities = [["Tarn", 40], ["Heath", 100]]; // prettier-ignore
    fc.assert(
      fc.property(orders, (names) => {
        const [head, row] = blend.mixNeed(recipeBlock(names), quantities) as [string[], number[]];
        expect(head).toEqual(names);
        names.forEach((name, at) => expect(row[at]).toBeCloseTo(plain[0]?.[NAMES.indexOf(name)] as number, 9));
      }),
    );
  });

  test("MIXSTOCK", () => {
    const plain = blend.mixStock(RECIPES, [[60, 40, 50]], [[2], [3]]);
    const stock = [["slate", "natural", "moss"], [50, 60, 40]]; // prettier-ignore
    const values = [["Tarn", 3], ["Heath", 2]]; // prettier-ignore
    const got = blend.mixStock(recipeBlock(NAMES), stock, values);
    expect(got).toEqual(nearly(plain.map(([mass], at) => [COLOURWAYS[at], mass])));
    const [head, first, second] = recipeBlock(NAMES) as [string[], string[], string[]];
    expect(blend.mixStock([head, first, ["", "", "", ""], second], stock, values)).toEqual(
      nearly([got[0], ["", ""], got[1]] as unknown[][]),
    );
  });

  test("LEASTCOST: components, properties and limits by name", () => {
    const plain = blend.leastCost([[12], [9], [7]], [[19, 70], [21, 65], [24, 60]], [["none", 66], [20.5, "none"]]); // prettier-ignore
    const got = blend.leastCost(
      [["lot", "price", "remark"], ["c", 7, ""], ["a", 12, ""], ["b", 9, "late"]],
      [["", "hauteur", "micron"], ["a", 70, 19], ["b", 65, 21], ["c", 60, 24]],
      [["", "micron", "hauteur"], ["maximum", 20.5, "none"], ["minimum", "none", 66]],
      [["b", 0], ["a", 0], ["c", 0]],
    ); // prettier-ignore
    expect(got).toEqual(nearly(["c", "a", "b"].map((name) => [name, plain["abc".indexOf(name)]?.[0]])));
  });

  test("LAYDOWN and MIXROUND", () => {
    const plain = blend.layDown([[100]], [[0.6], [0.4]], [[2]], [[0.5]], [[0.1], [0.2]]);
    const got = blend.layDown(
      [[100]],
      [["moss", 0.6], ["", ""], ["slate", 0.4]],
      [[2]],
      [[0.5]],
      [["slate", 0.2], ["moss", 0.1]],
    ); // prettier-ignore
    expect(got.map((row) => row[0])).toEqual(["component", "moss", "", "slate", "total"]);
    expect([0, 1, 3, 4].map((at) => got[at]?.slice(1))).toEqual(plain.map((row) => row.slice(1)));
    expect(blend.mixRound([["moss", "slate"], [0.604, 0.396]], [[0.01]])).toEqual([["moss", "slate"], [0.6, 0.4]]); // prettier-ignore
  });

  test("MIXROUND takes recipes one a row, each as the list that it is", () => {
    const step = [[0.05]];
    const [heath, tarn] = [[0.61, 0.34, 0.05], [0.48, 0, 0.52]]; // prettier-ignore
    const names = ["moss", "slate", "oat"];
    const alone = (recipe: number[]) => blend.mixRound([recipe], step)[0] as number[];
    expect(blend.mixRound([["", ...names], ["heath", ...heath], ["tarn", 0.48, "", 0.52]], step)).toEqual([
      ["", ...names],
      ["heath", ...alone(heath)],
      ["tarn", ...alone(tarn)],
    ]); // prettier-ignore
    const [, , bad, after] = blend.mixRound(
      [["", ...names], ["heath", ...heath], ["short", 0.4, 0.4, 0.1], ["tarn", ...tarn]],
      step,
    ); // prettier-ignore
    expect(bad?.slice(1)).toEqual(
      names.map(() => expect.objectContaining({ message: expect.stringContaining("0.9 in all") })),
    );
    expect(after).toEqual(["tarn", ...alone(tarn)]);
    expect(() =>
      blend.mixRound(
        [
          ["", ...names],
          ["heath", ...heath],
          ["In all", 0.61, 0.34, 0.05],
        ],
        step,
      ),
    ).toThrow(/total/i);
  });

  test("LANDED carries the names of its lines", () => {
    const lines = [[1000, 50, 0.2, 500], [2000, 30, 0.1, 300]]; // prettier-ignore
    const plain = landed.landed(lines, [[100, "mass"]]);
    const names = ["aran skeins", "lace cones"];
    const wanted = plain.map((row, at) => [["line", ...names, "total"][at], ...row]);
    expect(landed.landed(lines.map((row, at) => [names[at] as string, ...row]), [[100, "mass"]])).toEqual(wanted); // prettier-ignore
    const headed = [
      ["Qty", "Article", "cbm", "Net weight", "Invoice value"],
      ...lines.map(([value, mass, volume, quantity], at) => [quantity, names[at], volume, mass, value]),
    ] as Cells;
    expect(landed.landed(headed, [[100, "mass"]])).toEqual(wanted);
    const gap = landed.landed([headed[0], headed[1], ["", "", "", "", ""], headed[2]] as Cells, [[100, "mass"]]);
    expect(gap).toEqual([wanted[0], wanted[1], new Array(6).fill(""), wanted[2], wanted[3]]);
  });
});

describe("a range that fits only when turned is refused by naming TRANSPOSE", () => {
  const column = (SOLIDS["moss"] as number[]).map((value) => [value]);
  test.each<[string, () => unknown, string]>([
    ["MIXSHADE", () => shade.mixShade([[0.5, 0.2], [0.3, 0], [0.2, 0.8]], labs(NAMES)), "shares is 3×2; must have one column a solid, 3: TRANSPOSE"], // prettier-ignore
    [
      "MIXNEED",
      () => blend.mixNeed(RECIPES, [[1], [2], [3]]),
      "recipes is 2×3; must have 3 rows, one an item of quantities: TRANSPOSE",
    ],
    [
      "MIXSTOCK",
      () => blend.mixStock(RECIPES, [[1, 2]]),
      "recipes is 2×3; must have 2 columns, one an item of stock: TRANSPOSE",
    ],
    [
      "LEASTCOST",
      () => blend.leastCost([[1], [2], [3]], RECIPES, [["none"], ["none"]]),
      "must have one row per price, 3: TRANSPOSE",
    ],
    ["MIXMATCH", () => shade.mixMatch([[50, 0, 0]], column), "TRANSPOSE"],
    ["MIXMATCH target", () => shade.mixMatch([[50]], labs(NAMES)), "TRANSPOSE"],
    ["SHADEDIFF", () => shade.shadeDiff([[50]], [[50, 0, 0]]), "TRANSPOSE"],
  ])("%s", (_, call, message) => expect(refusalOf(call)).toContain(message));
});
