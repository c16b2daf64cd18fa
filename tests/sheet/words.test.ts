import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  forgetWords,
  isMisspelt,
  listed,
  listenToWords,
  meaningOf,
  refusalOf as willRefuse,
  refuseNoWord,
  vocabulary,
  wordsFor,
} from "../../src/sheet/words";
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
    ["navy\u00a0blue", 2],
    ["navy\tblue", 2],
    ["\nred", 1],
    ["red\t", 1],
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
    const long = wordsFor("step", ..."abcdef".split("").map((letter) => letter.repeat(30)));
    for (const text of ["x", 5]) {
      const call = () => (typeof text === "string" ? meaningOf(long, text, "s") : refuseNoWord(long, "5", "s"));
      expect(refusalOf(call)).toMatch(/b{30}, c+(, )?…$/);
    }
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
  ])("%s among many gets the nearest, %s, as a person writes it", (text, nearest) => {
    expect(refusalOf(() => meaningOf(colours, text, "dye"))).toBe(
      `#VALUE! dye is "${text}", not a colour; the nearest is ${nearest}`,
    );
  });

  test.each([
    ["ed", "shorter than four letters"],
    ["brawn", "of which more than one letter in four is wrong"],
    ["gols", "as near to one of several meanings"],
    ["z".repeat(30_000), "longer than any"],
  ])("%s gets the words there are, being %s", (text) => {
    expect(refusalOf(() => meaningOf(colours, text, "dye"))).toMatch(
      /, not a colour; write Red, Navy Blue, Green, Yellow, Orange, Violet or Black$/,
    );
  });

  test("with another figure is another thing, not a misspelling", () => {
    const one = wordsFor("size", "lot 100", "a", "b", "c", "d", "e", "f");
    expect(refusalOf(() => meaningOf(one, "lot 300", "s"))).toContain("; write lot 100, ");
    const sizes = wordsFor("size", "lot 100", "lot 200", "a", "b", "c", "d", "e");
    expect(refusalOf(() => meaningOf(sizes, "lot 300", "s"))).toContain("; write lot 100, ");
    expect(refusalOf(() => meaningOf(sizes, "lott 200", "s"))).toContain("the nearest is lot 200");
  });

  test("among many gets those most likely meant, as many as the message has room for", () => {
    const likely = { ...colours, likely: ["Black", "Red"] };
    expect(refusalOf(() => meaningOf(likely, "ink", "dye"))).toBe(
      '#VALUE! dye is "ink", not a colour; write Black, Red or another',
    );
    const many = wordsFor(
      "letter",
      ..."abcdefghijklmnopqrstuvwxyz0123456789".split("").map((letter) => letter.repeat(3)),
    );
    const message = refusalOf(() => meaningOf(many, "?", "l")).replace("#VALUE! ", "");
    expect(message).toMatch(/write aaa, bbb, ccc(, [a-z]{3})+ or another$/);
    expect(message.length).toBeLessThanOrEqual(120);
    expect(message.length).toBeGreaterThan(120 - ", aaa".length);
  });

  test("is quoted short when it is long", () => {
    expect(refusalOf(() => meaningOf(colours, "z".repeat(24), "dye"))).toContain(`"${"z".repeat(24)}"`);
    expect(refusalOf(() => meaningOf(colours, "z".repeat(25), "dye"))).toContain(`"${"z".repeat(23)}…"`);
  });

  test("of a table that cannot be complete is absent, not wrong", () => {
    const open = { ...colours, absence: (nearest?: string) => `not listed; perhaps ${nearest ?? "none"}` };
    expect(refusalOf(() => meaningOf(open, "Gren", "dye"))).toBe('#N/A dye is "Gren"; not listed; perhaps Green');
    expect(refusalOf(() => meaningOf(open, "z".repeat(15), "dye"))).toContain(`"${"z".repeat(15)}"`);
    expect(refusalOf(() => meaningOf(open, "z".repeat(16), "dye"))).toContain(`"${"z".repeat(14)}…"`);
    expect(refusalOf(() => meaningOf(open, "gold", "dye"))).toContain("#VALUE!");
  });
});

/** The textbook recurrence of the edit distance. */
function distance(a: string, b: string): number {
  if (a === "" || b === "") return a.length + b.length;
  const known = distances.get(`${a} ${b}`);
  if (known !== undefined) return known;
  const least = Math.min(
    distance(a.slice(1), b) + 1,
    distance(a, b.slice(1)) + 1,
    distance(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1),
  );
  distances.set(`${a} ${b}`, least);
  return least;
}
const distances = new Map<string, number>();

test("a hint is the only word at the least edit distance, and no further than one letter in four", () => {
  const words = ["abcabc", "bbbbbbb", "cabcab", "aaaa", "ccabacb", "aabb", "bcabcabc"];
  const letters = wordsFor("word", ...words);
  fc.assert(
    fc.property(fc.array(fc.constantFrom("a", "b", "c"), { minLength: 1, maxLength: 8 }), (drawn) => {
      const text = drawn.join("");
      if (words.includes(text)) return;
      const far = words.map((word) => distance(text, word));
      const least = Math.min(...far);
      const likely = text.length >= 4 && least <= text.length / 4 && far.filter((one) => one === least).length === 1;
      const message = refusalOf(() => meaningOf(letters, text, "w"));
      if (likely) expect(message).toContain(`the nearest is ${words[far.indexOf(least)] as string}`);
      else expect(message).toContain("; write abcabc, ");
    }),
  );
});

test("a nearer word goes before one that is not so near, and one as near to a word of several meanings is none", () => {
  const words = ["whole lots", "whole lats up", "a", "b", "c", "d", "e"];
  const many = vocabulary("word", words.map((word) => [word, word] as const), { bolds: "this or that" }); // prettier-ignore
  const hint = (text: string) => refusalOf(() => meaningOf(many, text, "w"));
  expect(hint("whole lats u")).toContain("the nearest is whole lats up");
  expect(hint("whole latsx")).toContain("the nearest is whole lots");
  const near = vocabulary("word", [...words, "golds"].map((word) => [word, word] as const), { bolds: "this or that" }); // prettier-ignore
  expect(refusalOf(() => meaningOf(near, "holds", "w"))).not.toContain("nearest");
  expect(refusalOf(() => meaningOf(near, "gold", "w"))).toContain("the nearest is golds");
});

test("two spellings of one meaning do not stand in each other's way", () => {
  const hues = vocabulary<number>("hue", [
    ["grey", 1, "gray"],
    ["b", 2],
    ["c", 3],
    ["d", 4],
    ["e", 5],
    ["f", 6],
    ["g", 7],
  ]);
  expect(refusalOf(() => meaningOf(hues, "graey", "h"))).toContain("the nearest is grey");
});

test("words are listed as a person lists them", () => {
  expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(listed)).toEqual(["", "a", "a or b", "a, b or c"]);
});

describe("a word that is only misspelt", () => {
  test.each([
    ["priec", "price", false],
    ["prise", "price", true],
    ["prce", "price", false],
    ["pricee", "price", true],
    ["regaino", "regained", false],
    ["lot 10 off 200", "lot 10 of 200", true],
    ["lot 1 23 ab", "lot 12 3 ab", false],
    ["a10 lots of", "10 lots of", true],
    ["mass", "masse", false],
    ["regian out", "regain out", true],
    ["rigian out", "regain out", false],
    ["lot 1 mass", "lot 2 mass", false],
    ["lot 1 mas", "lot 1 mass", true],
    ["price", "price", false],
    ["prices of it", "price", false],
    ["a".repeat(40), `${"a".repeat(39)}b`, true],
    ["a".repeat(41), `${"a".repeat(40)}b`, false],
  ])("%s for %s: %s", (written, word, likely) => expect(isMisspelt(written, word)).toBe(likely));
});

describe("what is no word, or will be none", () => {
  const open = { ...colours, absence: () => "not listed" };

  test("a number where a word is wanted gets the words, or how to write one", () => {
    expect(refusalOf(() => refuseNoWord(few, "5", "m"))).toBe("#VALUE! m is 5, no mode; write half away, up or down");
    expect(refusalOf(() => refuseNoWord(colours, "5", "dye"))).toBe(
      "#VALUE! dye is 5, no colour; write Red, Navy Blue, Green, Yellow, Orange, Violet or Black",
    );
    expect(refusalOf(() => refuseNoWord(open, "5", "dye"))).toBe("#VALUE! dye is 5; must be a colour, as text");
  });

  test("how a word will be refused is known without reading it", () => {
    expect(["red", "blue", "ink"].map((text) => willRefuse(colours, text))).toEqual([
      undefined,
      "argument",
      "argument",
    ]);
    expect([" RED ", "blue", "ink"].map((text) => willRefuse(open, text))).toEqual([undefined, "argument", "absent"]);
  });

  test("whoever listens is told of every word that is looked up", () => {
    const told: unknown[] = [];
    listenToWords((words, text, argument) => told.push([words.of, text, argument]));
    meaningOf(colours, "Red", "dye");
    listenToWords(undefined);
    meaningOf(colours, "Green", "dye");
    expect(told).toEqual([["colour", "Red", "dye"]]);
  });

  test("so many wrong words of a call get a hint, and the next call begins anew", () => {
    forgetWords();
    // Not by refusalOf, which is a call of its own each time.
    const hinted = (text: string): boolean => {
      try {
        return meaningOf(colours, text, "dye") < 0;
      } catch (thrown) {
        return (thrown as Error).message.includes("the nearest is");
      }
    };
    for (let index = 0; index < 199; index++) hinted(`wrong ${index}`);
    expect(hinted("yelow")).toBe(true);
    expect(hinted("gren")).toBe(false);
    expect(hinted("yelow")).toBe(true);
    forgetWords();
    expect(hinted("gren")).toBe(true);
    // Six words are all told, also where one of them is near.
    expect(refusalOf(() => meaningOf(wordsFor("step", "one", "two", "three", "four", "five", "six"), "thre", "s"))).not.toContain("nearest"); // prettier-ignore
  });

  test("a list that just fills the message is told whole", () => {
    const words = ["a".repeat(20), "b".repeat(20), "c".repeat(20), "d".repeat(7), "e", "f", "g"];
    const whole = wordsFor("letter", ...words);
    const message = refusalOf(() => meaningOf(whole, "?", "l")).replace("#VALUE! ", "");
    const room = 120 - message.length;
    const just = wordsFor("letter", ...words.map((word, place) => (place === 3 ? word + "d".repeat(room) : word)));
    expect(refusalOf(() => meaningOf(just, "?", "l"))).toMatch(/, f or g$/);
    const over = wordsFor("letter", ...words.map((word, place) => (place === 3 ? word + "d".repeat(room + 1) : word)));
    expect(refusalOf(() => meaningOf(over, "?", "l"))).toMatch(/ or another$/);
  });
});
