import { describe, test } from "vitest";
import { documentedFunctions } from "../src/documentation/docblocks.mjs";
import { evaluate } from "../src/recalculate/engine";
import { bundledFunctions } from "./support/functions";
import { expectCase, type Case } from "./support/cases";

/** Digits in a docblock are rounded for reading; they must agree to as many as are written. */
describe("every example of the documentation gives the result beside it", () => {
  const examples = documentedFunctions().flatMap(({ id, examples: all }) => all.map((example) => ({ id, ...example })));
  const formulas = examples.flatMap(({ formula, result }) => [formula, `=${result}`]);
  const outcomes = evaluate(formulas, bundledFunctions());
  examples.forEach(({ id, formula, result, begins }, index) => {
    test(`${formula} → ${result}`, () => {
      const wanted = (result.startsWith("#") ? result : outcomes[2 * index + 1]) as Case["expect"];
      const decimals = Math.max(0, ...[...result.matchAll(/\.(\d+)/g)].map(([, digits]) => (digits as string).length));
      const rounded: Case = {
        id,
        formula,
        expect: wanted,
        atol: decimals === 0 ? 0 : 0.50001 * 10 ** -decimals,
        source: "the docblock",
        evidence: "rule",
      };
      const came = outcomes[2 * index];
      expectCase(begins && Array.isArray(came) ? came.slice(0, (wanted as unknown[]).length) : came, rounded);
    });
  });
});
