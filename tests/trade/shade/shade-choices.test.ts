import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS, otherLights } from "../../../src/tables/lights";
import {
  choicesOfEachSize,
  choicesTable,
  expectInReach,
  furtherDifferences,
  outOfReachNote,
  ranking,
} from "../../../src/trade/shade/shade-choices";
import { fibreModel } from "../../../src/trade/shade/blend-models";
import { bestRecipes, type MatchWish } from "../../../src/trade/shade/shade-match";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { refusalOf } from "../../support/refusals";
import { textile, TEXTILES } from "../../support/measured-textiles";

const target = textile(47);
const recipes = [53, 159].map((id, place) => ({
  shares: place === 0 ? [0.25, 0.75] : [1, 0],
  reflectance: textile(id),
  error: 0,
}));
type Found = Parameters<typeof choicesTable>[1];
const terms = { measured: true, overWhite: false, names: undefined, prices: undefined };
const found = (search: Found["search"]) => ({ recipes, search }) as unknown as Found;
const tableOf = (search: Found["search"], measured: boolean, prices?: number[]) =>
  choicesTable({ target, lights: [DAYLIGHT] }, found(search), { ...terms, measured, prices });

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
        expect.stringMatching(/^near-best; out of reach by [\d.]+$/),
      ]);
    });
  });

  test("notes are joined, and none is no note", () => {
    const noteOf = (search: Found["search"], measured: boolean) => tableOf(search, measured)[1]?.[8];
    expect(noteOf("all", true)).toMatch(/^out of reach by [\d.]+$/);
    expect(noteOf("all", false)).toMatch(/^L\*a\*b\* only; out of/);
    expect(noteOf("heuristic", false)).toMatch(/^heuristic; L\*a\*b\* only; out of/);
    expect(tableOf("all", false)[1]?.[7]).toBe("");
  });

  test("with prices, what a kilogram costs", () => {
    const [header, first, second] = tableOf("all", true, [8, 12]);
    expect([header?.[9], first?.[9], second?.[9]]).toEqual(["cost (per kg)", 0.25 * 8 + 0.75 * 12, 8]);
  });

  test("solids go by their names", () => {
    const [header] = choicesTable({ target, lights: [DAYLIGHT] }, found("all"), {
      ...terms,
      names: ["natural", "moss"],
    });
    expect(header?.slice(0, 4)).toEqual(["choice", "natural (share)", "moss (share)", "L*"]);
  });

  test("with several lights, a column for each further one and the one that ranks, at the right", () => {
    const lights = ["D65/10", "A/10", "F11/10"].map((word) => LIGHTS.find((light) => light.word === word)!);
    const [header, ...rows] = choicesTable({ target, lights }, found("all"), { ...terms, prices: [8, 12] });
    expect(header?.slice(6)).toEqual([
      "difference (CIEDE2000, D65/10)",
      "worst difference in another light (CIEDE2000)",
      "note",
      "cost (per kg)",
      "difference (CIEDE2000, A/10)",
      "difference (CIEDE2000, F11/10)",
      "difference that ranks (CIEDE2000, root mean square)",
    ]);
    recipes.forEach(({ reflectance }, place) => {
      const [day, ...further] = lights.map((light) => difference2000(labOf(target, light), labOf(reflectance, light)));
      expect(rows[place]?.[6]).toBe(day);
      expect(rows[place]?.slice(10, 12)).toEqual(further);
      expect(rows[place]?.[12]).toBeCloseTo(Math.hypot(day!, ...further) / Math.sqrt(3), 12);
    });
  });

  test("what is out of reach of all, and a reflectance over 1, are told in the note", () => {
    const rank = ranking({ target, lights: [DAYLIGHT] });
    const [first, second] = recipes.map((recipe) => rank(recipe as unknown as Found["recipes"][0])) as [number, number];
    expect(Math.min(first, second)).toBeGreaterThan(2);
    const [, row, other] = choicesTable({ target, lights: [DAYLIGHT] }, found("all"), { ...terms, overWhite: true });
    expect(row?.[8]).toBe(`reflectance over 1: brightener or wrong reading; out of reach by ${first.toFixed(1)}`);
    expect(other?.[8]).toContain(`out of reach by ${second.toFixed(1)}`);
    // With one recipe within reach none is called out of it.
    const near = { recipes: [...recipes, { shares: [0, 1], reflectance: target }], search: "all" } as unknown as Found;
    expect(choicesTable({ target, lights: [DAYLIGHT] }, near, terms)[1]?.[8]).toBe("");
  });

  test("without a recipe there is a header and nothing under it", () => {
    const table = choicesTable({ target, lights: [DAYLIGHT] }, { recipes: [], search: "all" }, terms);
    expect(table.map((row) => row.slice(0, 2))).toEqual([["choice", "L*"]]);
  });
});

test("two units off is within reach, fifteen off still a recipe", () => {
  expect([1, 2, 2.1].map(outOfReachNote)).toEqual(["", "", "out of reach by 2.1"]);
  expect(() => expectInReach(15)).not.toThrow();
  expect(refusalOf(() => expectInReach(15.1))).toMatch(/target .*15\.1 off the nearest recipe.*over 15/);
});

test("of two lights the second has a difference, and so has what ranks; of one none", () => {
  const lights = LIGHTS.slice(0, 2);
  const { reflectance } = recipes[0]!;
  const [day, other] = lights.map((light) => difference2000(labOf(target, light), labOf(reflectance, light)));
  const [second, ranked, ...more] = furtherDifferences(target, reflectance, lights);
  expect([second, more]).toEqual([other, []]);
  expect(ranked).toBeCloseTo(Math.sqrt((day! ** 2 + other! ** 2) / 2), 12);
  expect(furtherDifferences(target, reflectance, lights.slice(0, 1))).toEqual([]);
});

describe("the choices for a shade", () => {
  const solids = [...TEXTILES.values()].slice(0, 6);
  const wish: MatchWish = {
    ...{ target, solids, parts: 4, leastShare: 0, model: fibreModel(0.15), lights: [DAYLIGHT], step: 0 },
    choices: 5,
  };
  const sizeOf = ({ shares }: { shares: readonly number[] }) => shares.filter((share) => share > 0).length;

  test("have the best of each number of solids among them, nearest first", () => {
    const { recipes: chosen } = choicesOfEachSize(wish);
    expect([4, 5]).toContain(chosen.length);
    const rank = ranking(wish);
    const ranks = chosen.map(rank);
    expect(ranks.slice().sort((a, b) => a - b)).toEqual(ranks);
    expect(chosen[0]?.shares).toEqual(bestRecipes(wish).recipes[0]?.shares);
    for (let parts = 1; parts <= 4; parts++) {
      const best = bestRecipes({ ...wish, parts, choices: 1 }).recipes[0]!;
      expect(chosen.map(({ shares }) => shares)).toContainEqual(best.shares);
    }
    expect(new Set(chosen.map(({ shares }) => shares.map((share) => share > 0).join())).size).toBe(chosen.length);
    expect(Math.min(...chosen.map(sizeOf))).toBe(1);
  });

  test("are no more than asked for: with one, the nearest", () => {
    expect(choicesOfEachSize({ ...wish, choices: 1 }).recipes.map(({ shares }) => shares)).toEqual(
      bestRecipes({ ...wish, choices: 1 }).recipes.map(({ shares }) => shares),
    );
    expect(choicesOfEachSize({ ...wish, choices: 2 }).recipes).toHaveLength(2);
  });

  test("of few the simpler ones take the place of others that are nearer, each where its difference puts it", () => {
    const [all, parts] = [[...TEXTILES.values()], 3];
    const many = { ...wish, target: all[25] as readonly number[], solids: all.slice(0, 8), parts };
    const bestOf = (most: number) => bestRecipes({ ...many, parts: most, choices: 1 }).recipes[0]!.shares;
    const sharesOf = (choices: number) => choicesOfEachSize({ ...many, choices }).recipes.map(({ shares }) => shares);
    const nearest = (choices: number) => bestRecipes({ ...many, choices }).recipes.map(({ shares }) => shares);
    expect(nearest(3)).not.toContainEqual(bestOf(1));
    expect(nearest(2)).not.toContainEqual(bestOf(2));
    expect(sharesOf(2)).toEqual([bestOf(3), bestOf(2)]);
    expect(sharesOf(3)).toEqual([bestOf(3), bestOf(2), bestOf(1)]);
    const nine = sharesOf(9);
    expect(nine.slice(0, 7)).toEqual(nearest(7));
    expect(nine.slice(7)).toEqual([bestOf(2), bestOf(1)]);
  });
});
