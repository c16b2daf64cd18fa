import { expect, test } from "vitest";
import { expectLosses } from "../../../src/trade/route/plausible-losses";
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
