import { describe, expect, test } from "vitest";
import { evaluate } from "../src/recalculate/engine";
import { bundledFunctions, sourceFunctions } from "./support/functions";
import { expectCase, goldenCases } from "./support/cases";

const cases = goldenCases();

describe("published cases", () => {
  test("there are cases, each with its own id", () => {
    expect(cases.length).toBeGreaterThan(5);
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
  });

  for (const [what, functions] of [
    ["the sources", () => sourceFunctions],
    ["the built bundle", bundledFunctions],
  ] as const) {
    describe(`with ${what}`, () => {
      const outcomes = evaluate(
        cases.map(({ formula }) => formula),
        functions(),
      );
      cases.forEach((golden, index) => {
        test(`${golden.id} (${golden.source})`, () => expectCase(outcomes[index], golden));
      });
    });
  }
});
