import { describe, expect, test } from "vitest";
import type { Cells } from "../../src/sheet/cells";
import { expectNamesAlong, expectTurned, namedRecipes, recipeTable } from "../../src/sheet/recipe-table";
import { refusalOf } from "../support/refusals";
import "../support/runtime";

const RECIPES: Cells = [
  ["", "black", "blue"],
  ["moss", 0.6, 0.4],
  ["slate", null, 1],
];
const table = (cells: Cells) => recipeTable({ recipes: cells });

describe("recipes, one a row and one column a solid", () => {
  test("a blank is a solid that is not used, and both have their names", () => {
    const { values, rows, columns } = table(RECIPES);
    expect(values).toEqual([[0.6, 0.4], [0, 1]]); // prettier-ignore
    expect([rows.names, columns.names]).toEqual([["moss", "slate"], ["black", "blue"]]); // prettier-ignore
  });

  test("each a list of its own, where recipes and solids have names", () => {
    const recipes = namedRecipes({ shares: RECIPES });
    expect(recipes).toMatchObject({ name: "shares", rows: 2, columns: 1, names: ["moss", "slate"] });
    expect(recipes?.solids).toEqual(["black", "blue"]);
    expect(recipes?.items.map(([row]) => recipes.read(row, "shares"))).toEqual([[0.6, 0.4], [0, 1]]); // prettier-ignore
    expect(refusalOf(() => recipes?.read([0.5, "much"], "shares"))).toContain('shares item 2 is text "much"');
  });

  test("a single list is no table of recipes: without names on a side, one column, or a list under its heading", () => {
    const single: Cells[] = [
      [[0.6, 0.4], [0, 1]],
      [["moss", 0.6, 0.4], ["slate", 0, 1]],
      [["black", "blue"], [0.6, 0.4]],
      [["", "black"], ["moss", 0.6], ["slate", 1]],
      [["solid", "share"], ["black", 0.6], ["blue", 0.4]],
      [["solid", "share", "price"], ["black", 0.6, 12], ["blue", 0.4, 14]],
    ]; // prettier-ignore
    for (const cells of single) expect(namedRecipes({ shares: cells })).toBeUndefined();
  });

  test("a total among recipes or solids is refused where it lies", () => {
    expect(refusalOf(() => namedRecipes({ shares: [...RECIPES, ["Total", 0.6, 1.4]] }))).toBe(
      "#VALUE! shares row 4 is called Total; leave totals out",
    );
    const summed = [["", "black", "Sum"], ["moss", 0.6, 1], ["slate", 0.5, 1]]; // prettier-ignore
    expect(refusalOf(() => namedRecipes({ shares: summed }))).toBe(
      "#VALUE! shares column 3 is called Sum; leave totals out",
    );
  });
});

describe("recipes that lie the other way", () => {
  const turned = (names: (string | number)[][], side: "row" | "column", cells: Cells = RECIPES) =>
    expectNamesAlong(table(cells), side, { batches: names }, "mass");

  test("are refused when the names beside are those of the other side, all of them and none of their own", () => {
    expect(refusalOf(() => turned([["black", 5], ["Blue", 6]], "row"))).toBe(
      "#VALUE! recipes is turned beside batches; must have its names along the rows: TRANSPOSE",
    ); // prettier-ignore
    expect(refusalOf(() => turned([["slate", 5], ["moss", 6]], "column"))).toBe(
      "#VALUE! recipes is turned beside batches; must have its names along the columns: TRANSPOSE",
    ); // prettier-ignore
    expect(() => turned([["black", 5], ["moss", 6]], "row")).not.toThrow(); // prettier-ignore
    expect(() => turned([["black", 5], ["red", 6]], "row")).not.toThrow(); // prettier-ignore
    expect(() => turned([["moss", 5], ["slate", 6]], "row")).not.toThrow(); // prettier-ignore
    expect(() => turned([[5], [6]], "row")).not.toThrow();
  });

  test("are not looked at where a side has no names", () => {
    const rowsOnly = RECIPES.slice(1);
    const columnsOnly = [["black", "blue"], [0.6, 0.4], [0, 1]]; // prettier-ignore
    for (const cells of [rowsOnly, columnsOnly, [[0.6, 0.4], [0, 1]]]) {
      for (const side of ["row", "column"] as const) {
        expect(() => turned([["black", 5], ["blue", 6]], side, cells)).not.toThrow(); // prettier-ignore
        expect(() => turned([["moss", 5], ["slate", 6]], side, cells)).not.toThrow(); // prettier-ignore
      }
    }
  }); // prettier-ignore

  test("without names are refused when only the other side has as many as there should be", () => {
    const wide = table([[0.5, 0.3, 0.2], [0.6, 0.4, 0]]); // prettier-ignore
    expect(refusalOf(() => expectTurned(wide, "row", "batches", 3))).toBe(
      "#VALUE! recipes is 2×3; must have 3 rows, one an item of batches: TRANSPOSE",
    );
    expect(refusalOf(() => expectTurned(wide, "column", "prices", 2))).toBe(
      "#VALUE! recipes is 2×3; must have 2 columns, one an item of prices: TRANSPOSE",
    );
    for (const count of [2, 4]) expect(() => expectTurned(wide, "row", "batches", count)).not.toThrow();
    for (const count of [3, 4]) expect(() => expectTurned(wide, "column", "batches", count)).not.toThrow();
    // One recipe, or recipes of one solid, may be a mistake of another kind.
    const [one, lone] = [table([[0.5, 0.3, 0.2]]), table([[1], [1], [1]])];
    expect(() => expectTurned(one, "row", "batches", 3)).not.toThrow();
    expect(() => expectTurned(one, "column", "batches", 1)).not.toThrow();
    expect(() => expectTurned(lone, "column", "prices", 3)).not.toThrow();
    expect(() => expectTurned(lone, "row", "prices", 1)).not.toThrow();
  });
});
