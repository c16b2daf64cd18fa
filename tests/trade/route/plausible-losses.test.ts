import { expect, test } from "vitest";
import { expectLosses, expectLossesOnOutput } from "../../../src/trade/route/plausible-losses";
import { refusalOf } from "../../support/refusals";

test("losses of a long route pass, yields among them do not", () => {
  expect(() => expectLosses("losses", [0.4, 0.15, 0.08, 0.03, 0.02])).not.toThrow();
  // A twentieth may be left, and not less.
  expect(() => expectLosses("losses", [0.5, 0.5, 0.5, 0.59])).not.toThrow();
  // A yield of 95 % by itself, written as a loss.
  expect(refusalOf(() => expectLosses("losses", [0.95]))).toContain("all but 5% together");
  expect(refusalOf(() => expectLosses("losses", [0.5, 0.5, 0.5, 0.61]))).toContain("all but 4.875% together");
  expect(refusalOf(() => expectLosses("losses", [0.6, 0.97]))).toBe(
    "#VALUE! losses is all but 1.2% together; are these yields? a loss is 1 - yield: 0.03 for a yield of 0.97",
  );
});

test("losses on the output leave no less than a millionth of a millionth, and make no more of 1", () => {
  const through = (...losses: number[]) => expectLossesOnOutput("losses", losses);
  for (const losses of [[], [0.4, 0.15, -0.05], [999999999999], new Array<number>(40).fill(0.99)])
    expect(() => through(...losses)).not.toThrow();
  expect(refusalOf(() => through(99, 99, 99, 99, 99, 99, 99))).toBe(
    "#VALUE! losses is such that 1 becomes 1e-14 in all; give each stage's loss once",
  );
  expect(refusalOf(() => through(...new Array<number>(9000).fill(0.09)))).toContain("such that 1 becomes ");
  expect(refusalOf(() => through(...new Array<number>(41).fill(-0.5)))).toContain("such that 1 becomes 2199000000000");
  // Is refused by its place, where the losses are gone through.
  expect(() => through(0.1, -1)).not.toThrow();
});

test("what is taken up on the way makes no more than a million millions of 1", () => {
  expect(() => expectLosses("losses", new Array<number>(39).fill(-1))).not.toThrow();
  expect(() => expectLosses("losses", new Array<number>(40).fill(-1))).toThrow();
});
