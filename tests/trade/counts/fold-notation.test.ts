import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { foldedYarn } from "../../../src/trade/counts/fold-notation";
import { refusalOf } from "../../support/refusals";

const system = (word: string) => COUNT_SYSTEMS.find((one) => one.word === word) as CountSystem;

// Source: TAYLOR for the orders of worsted, cotton and spun silk.
describe("which of the numbers is the count", () => {
  test.each([
    ["2/30", [2, 30], "NeW", undefined, { count: 30, plies: 2, isResultant: false }],
    ["30/2", [30, 2], "NeC", undefined, { count: 30, plies: 2, isResultant: false }],
    ["60/2", [60, 2], "NeC", "silk", { count: 60, plies: 2, isResultant: true }],
    ["30/2/3", [30, 2, 3], "NeC", undefined, { count: 30, plies: 6, isResultant: false }],
    ["3/2/30", [3, 2, 30], "NeW", undefined, { count: 30, plies: 6, isResultant: false }],
    ["2/8", [2, 8], "NeW", "ply/count", { count: 8, plies: 2, isResultant: false }],
    ["2/8", [2, 8], "NeW", "count/ply", { count: 2, plies: 8, isResultant: false }],
    ["28/2", [28, 2], "Nm", "ply/count", { count: 28, plies: 2, isResultant: false }],
  ] as const)("%s (%j, %s, order %s)", (text, numbers, word, order, wanted) => {
    expect(foldedYarn(text, numbers, "/", system(word), order)).toEqual(wanted);
  });

  test("what can be read in two ways, or in none, is refused and says what to write", () => {
    const refused = (numbers: number[], word: string, mark: "/" | "x" = "/") =>
      refusalOf(() => foldedYarn(numbers.join(mark), numbers, mark, system(word)));
    expect(refused([2, 8], "NeW")).toBe(
      '#VALUE! text is "2/8", where each number can be the ply; give order "ply/count" or "count/ply"',
    );
    expect(refused([30, 40], "NeW")).toContain("where no number can be the ply");
    expect(refused([0, 30], "NeW")).toContain("with a 0 in it");
    expect(refused([72, 2], "tex")).toContain("a ply or filaments");
    expect(foldedYarn("34 x 2", [34, 2], "x", system("tex"))).toEqual({ count: 34, plies: 2, isResultant: false });
  });
});
