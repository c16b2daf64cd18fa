import { describe, expect, test } from "vitest";
import { evaluate } from "../src/recalculate/engine";
import { bundledFunctions, sourceFunctions } from "./support/functions";
import { documentedFunctions } from "../src/documentation/docblocks.mjs";
import { expectCase, goldenCases } from "./support/cases";

const cases = goldenCases();

describe("published cases", () => {
  test("there are cases, each with its own id", () => {
    expect(cases.length).toBeGreaterThan(5);
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
  });

  test("every function has two at least, but VERSION, whose answer is the build's own", () => {
    const called = cases.flatMap(({ formula }) => [...new Set(formula.match(/(?<=YARN\.)[A-Z0-9]+(?=\()/g))]);
    const few = documentedFunctions().filter(({ id }) => called.filter((one) => one === id).length < 2);
    expect(few.map(({ id }) => id)).toEqual(["VERSION"]);
  });

  const sources = ["the sources", () => sourceFunctions] as const;
  const bundle = ["the built bundle", bundledFunctions] as const;
  for (const [what, functions] of process.env.ONLY_SOURCES === "1" ? [sources] : [sources, bundle]) {
    describe(`with ${what}`, () => {
      for (const golden of cases) {
        test(`${golden.id} (${golden.source})`, () => expectCase(evaluate([golden.formula], functions())[0], golden));
      }
    });
  }
});
