import { describe, expect, test } from "vitest";
import { DAYLIGHT, otherLights } from "../../../src/tables/lights";
import { choicesTable } from "../../../src/trade/shade/shade-choices";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { textile } from "../../support/measured-textiles";

const target = textile(47);
const recipes = [53, 159].map((id, place) => ({
  shares: place === 0 ? [0.25, 0.75] : [1, 0],
  reflectance: textile(id),
  error: 0,
}));
type Found = Parameters<typeof choicesTable>[1];
const tableOf = (search: Found["search"], measured: boolean, prices?: number[]) =>
  choicesTable({ target, lights: [DAYLIGHT] }, { recipes, search } as unknown as Found, measured, undefined, prices);

describe("the alternatives as a table", () => {
  test("number, shares, shade, difference, the worst in another light, note", () => {
    const [header, ...rows] = tableOf("near-best", true);
    expect(header).toEqual([
      "choice",
      "solid 1 (share)",
      "solid 2 (share)",
      "L*",
      "a*",
      "b*",
      "difference (CIEDE2000, D65/10)",
      "worst difference in another light (CIEDE2000)",
      "note",
    ]);
    recipes.forEach(({ shares, reflectance }, place) => {
      const elsewhere = otherLights(DAYLIGHT).map((light) =>
        difference2000(labOf(target, light), labOf(reflectance, light)),
      );
      expect(new Set(elsewhere).size).toBeGreaterThan(1);
      expect(rows[place]).toEqual([
        place + 1,
        ...shares,
        ...labOf(reflectance, DAYLIGHT),
        difference2000(labOf(target, DAYLIGHT), labOf(reflectance, DAYLIGHT)),
        Math.max(...elsewhere),
        "near-best",
      ]);
    });
  });

  test("notes are joined, and none is no note", () => {
    const noteOf = (search: Found["search"], measured: boolean) => tableOf(search, measured)[1]?.[8];
    expect(noteOf("all", true)).toBe("");
    expect(noteOf("all", false)).toBe("L*a*b* only");
    expect(noteOf("heuristic", false)).toBe("heuristic; L*a*b* only");
    expect(tableOf("all", false)[1]?.[7]).toBe("");
  });

  test("with prices, what a kilogram costs", () => {
    const [header, first, second] = tableOf("all", true, [8, 12]);
    expect([header?.[9], first?.[9], second?.[9]]).toEqual(["cost (per kg)", 0.25 * 8 + 0.75 * 12, 8]);
  });

  test("solids go by their names", () => {
    const found = { recipes, search: "all" } as unknown as Found;
    const [header] = choicesTable({ target, lights: [DAYLIGHT] }, found, true, ["natural", "moss"]);
    expect(header?.slice(0, 4)).toEqual(["choice", "natural (share)", "moss (share)", "L*"]);
  });

  test("without a recipe there is a header and nothing under it", () => {
    const table = choicesTable({ target, lights: [DAYLIGHT] }, { recipes: [], search: "all" }, true, undefined);
    expect(table.map((row) => row.slice(0, 2))).toEqual([["choice", "L*"]]);
  });
});
