import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { canBeDate, expectCount, expectReeled, expectSpun } from "../../../src/trade/counts/plausible-count";
import { refusalOf } from "../../support/refusals";

const system = (word: string) => COUNT_SYSTEMS.find((one) => one.word === word) as CountSystem;

describe("counts that something spun can have", () => {
  // What yarn houses work with: lace 2/60 Nm and rug yarn 0.3 Nm, tops of 20 to 40 ktex, laps of 400 ktex, microfibre.
  test.each([
    [60, "Nm"],
    [0.3, "Nm"],
    [24, "NeW"],
    [34, "tex"],
    [40, "ktex"],
    [400, "ktex"],
    [40000, "tex"],
    [0.8, "dtex"],
    [1.2, "den"],
  ])("%d %s is one", (count, word) => expect(expectCount("count", count, system(word))).toBe(count));

  test.each([
    [4e6, "tex"],
    [0.001, "dtex"],
    [1e6, "Nm"],
  ])("%d %s is none", (count, word) =>
    expect(refusalOf(() => expectCount("count", count, system(word)))).toMatch(/^#VALUE! count is /),
  );

  test("the number of a date is not taken for an indirect count", () => {
    expect([36526, 45352, 58440, 36525, 58441, 45352.5].map(canBeDate)).toEqual([
      true,
      true,
      true,
      false,
      false,
      false,
    ]);
    expect(refusalOf(() => expectCount("count", 45352, system("Nm")))).toBe(
      "#VALUE! count is 45352, the date 2024-03-01; a ply such as 2/28 is text; DESIGNATION reads it",
    );
  });

  test("up to the limits: a tenth of a denier or Nm 10,000, and a kilogram a metre", () => {
    const within = [
      [0.01, "tex"],
      [0.1, "dtex"],
      [1e6, "tex"],
      [1e4, "Nm"],
    ] as const;
    for (const [count, word] of within) expect(expectCount("count", count, system(word))).toBe(count);
    expect(refusalOf(() => expectCount("count", 0.0099, system("tex")))).toBe(
      "#VALUE! count is 0.0099 tex; 0.0099 tex, which nothing spun has; check unit and order",
    );
    expect(refusalOf(() => expectCount("count", 10100, system("Nm")))).toBe(
      "#VALUE! count is 10100 Nm; 0.09901 tex, which nothing spun has; check unit and order",
    );
    expect(refusalOf(() => expectCount("count", 1.001e6, system("tex")))).toContain("1001000 tex, which nothing");
  });
});

test("a length and its mass in each other's units come to no yarn", () => {
  expect(() => expectReeled(100, 3.4)).not.toThrow();
  for (const grams of [0.05, 20_000]) expect(() => expectReeled(100, grams)).not.toThrow();
  expect(refusalOf(() => expectReeled(100, 0.049))).toContain("0.49 tex, which no yarn has");
  expect(refusalOf(() => expectReeled(100, 34000))).toBe(
    "#VALUE! length is 100 m beside 34000 g; 340000 tex, which no yarn has; check both units",
  );
});

test("what is thicker than any yarn is no spun yarn", () => {
  for (const count of [5000, 10_000]) expect(expectSpun("count", count, system("tex"))).toBe(count);
  expect(refusalOf(() => expectSpun("count", 45352, system("Nm")))).toContain("the date 2024-03-01");
  expect(refusalOf(() => expectSpun("count", 28, system("ktex")))).toBe(
    "#VALUE! count is 28 ktex; no spun yarn: check the unit, or give a sliver's specific_volume",
  );
});
