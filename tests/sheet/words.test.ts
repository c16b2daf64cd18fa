import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { listed, meaningOf, vocabulary, wordsFor } from "../../src/sheet/words";
import { refusalOf } from "../support/refusals";

const colours = vocabulary(
  "colour",
  [
    ["Red", 1, "crimson"],
    ["Navy Blue", 2],
    ["Green", 3],
    ["Yellow", 4],
    ["Orange", 5],
    ["Violet", 6],
    ["Black", 7],
  ],
  { Blue: "Navy Blue or sky", Gold: "Yellow or metal" },
);
const few = wordsFor("mode", "half away", "up", "down");

describe("a word", () => {
  test.each([
    ["Red", 1],
    ["  rED ", 1],
    ["CRIMSON", 1],
    ["navy   blue", 2],
    ["Navy\t Blue", 2],
  ])("%j is found whatever its case and spaces", (text, meaning) => {
    expect(meaningOf(colours, text, "dye")).toBe(meaning);
  });

  test("of a closed set stands for itself as written", () =>
    expect(meaningOf(few, " HALF  Away ", "m")).toBe("half away"));

  test("of several meanings is refused with its choices, whatever its case", () => {
    expect(refusalOf(() => meaningOf(colours, "BLUE", "dye"))).toBe(
      '#VALUE! dye is "BLUE", of several meanings; write Navy Blue or sky',
    );
  });

  test("of two parts is not found without its space", () => {
    expect(refusalOf(() => meaningOf(colours, "navyblue", "dye"))).toContain("the nearest is Navy Blue");
  });

  test("unknown among few gets them all", () => {
    expect(refusalOf(() => meaningOf(few, "sideways", "mode"))).toBe(
      '#VALUE! mode is "sideways", not a mode; write half away, up or down',
    );
    const six = wordsFor("step", "one", "two", "three", "four", "five", "six");
    expect(refusalOf(() => meaningOf(six, "x", "s"))).toContain("write one, two, three, four, five or six");
  });

  test.each([
    ["yelow", "Yellow"],
    ["gren", "Green"],
    ["crimsom", "Red"],
    ["nvy blue", "Navy Blue"],
    ["xiolet", "Violet"],
    ["blackk", "Black"],
    ["lack", "Black"],
    ["torange", "Orange"],
    ["ed", "Red"],
  ])("%s among many gets the nearest, %s, as a person writes it", (text, nearest) => {
    expect(refusalOf(() => meaningOf(colours, text, "dye"))).toBe(
      `#VALUE! dye is "${text}", not a colour; the nearest is ${nearest}`,
    );
  });

  test("is quoted short when it is long", () => {
    expect(refusalOf(() => meaningOf(colours, "z".repeat(24), "dye"))).toContain(`"${"z".repeat(24)}"`);
    expect(refusalOf(() => meaningOf(colours, "z".repeat(25), "dye"))).toContain(`"${"z".repeat(23)}…"`);
  });

  test("of a table that cannot be complete is absent, not wrong", () => {
    const open = { ...colours, absence: (nearest: string) => `not listed; perhaps ${nearest}` };
    expect(refusalOf(() => meaningOf(open, "Gren", "dye"))).toBe('#N/A dye is "Gren"; not listed; perhaps Green');
    expect(refusalOf(() => meaningOf(open, "z".repeat(15), "dye"))).toContain(`"${"z".repeat(15)}"`);
    expect(refusalOf(() => meaningOf(open, "z".repeat(16), "dye"))).toContain(`"${"z".repeat(14)}…"`);
    expect(refusalOf(() => meaningOf(open, "gold", "dye"))).toContain("#VALUE!");
  });
});

/** The textbook recurrence of the edit distance, without a table. */
function distance(a: string, b: string): number {
  if (a === "") return b.length;
  if (b === "") return a.length;
  return Math.min(
    distance(a.slice(1), b) + 1,
    distance(a, b.slice(1)) + 1,
    distance(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1),
  );
}

test("the nearest word is at the least edit distance, the first of equals", () => {
  const words = ["abca", "bbb", "cab", "a", "ccab", "aabb", "bc"];
  const letters = wordsFor("word", ...words);
  fc.assert(
    fc.property(fc.array(fc.constantFrom("a", "b", "c"), { minLength: 1, maxLength: 5 }), (drawn) => {
      const text = drawn.join("");
      if (words.includes(text)) return;
      const best = words.reduce((sofar, word) => (distance(text, word) < distance(text, sofar) ? word : sofar));
      expect(refusalOf(() => meaningOf(letters, text, "w"))).toContain(`the nearest is ${best}`);
    }),
  );
});

test("a very long word is compared by its beginning, so that a cell of text costs nothing", () => {
  const long = wordsFor("word", "b", "c", "d", "e", "f", "g", "a".repeat(32));
  expect(refusalOf(() => meaningOf(long, "a".repeat(30_000), "w"))).toContain("the nearest is aaaa");
});

test("words are listed as a person lists them", () => {
  expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(listed)).toEqual(["", "a", "a or b", "a, b or c"]);
});
