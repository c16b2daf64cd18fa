import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { tokensOf, unmistakable } from "../../../src/trade/counts/designation-words";
import { refusalOf } from "../../support/refusals";

const words = (text: string) =>
  tokensOf(text).map(({ kind, text: word }) =>
    kind === "word" ? word : kind === "number" ? Number(word.replace(",", ".")) : kind,
  );

describe("the words of a designation", () => {
  test.each([
    ["34 tex S 600 x 2 Z 400; R 69,3 tex", [34, "tex", "S", 600, "x", 2, "Z", 400, ";", "R", 69.3, "tex"]],
    ["2/30's", [2, "/", 30]],
    ["30s/2", [30, "/", 2]],
    ["28/2Nm S350", [28, "/", 2, "Nm", "S", 350]],
    ["drams/40yd", ["drams/40yd"]],
    ["17 tex t0", [17, "tex", "t0"]],
    ["133 dtex f 40", [133, "dtex", "f", 40]],
    ["20 × 3 ✕ 2", [20, "x", 3, "x", 2]],
  ])("%s", (text, wanted) => expect(words(text)).toEqual(wanted));

  test("a number that may part thousands is none", () => {
    expect(refusalOf(() => tokensOf("1,200 den"))).toContain("1,200 can be two numbers");
    expect(refusalOf(() => tokensOf("1.200 den"))).toContain("write 1.2 or 1200");
    expect(words("1.2000 den")).toEqual([1.2, "den"]);
    expect([unmistakable("1.2"), unmistakable("1.125"), unmistakable("0.125")]).toEqual(["1.2", "1.1250", "0.125"]);
  });

  test("what belongs to no designation is named", () => {
    expect(refusalOf(() => tokensOf("2/30 Nm ?"))).toContain('not read at "?"');
    expect(refusalOf(() => tokensOf("2.3.4 Nm"))).toContain('not read at "2.3.4"');
  });

  test("spaces change nothing between words", () => {
    const spaced = fc.array(fc.constantFrom("", " ", "\u00a0", "  "), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(spaced, ([a, b, c, d]) => {
        expect(words(`${a}2${b}/${c}30 Nm${d}`)).toEqual([2, "/", 30, "Nm"]);
      }),
    );
  });
});
