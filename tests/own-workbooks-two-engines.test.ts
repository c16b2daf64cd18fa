import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { SAMPLE_WORKBOOKS } from "../sample-workbooks/build";
import { openBook } from "../src/recalculate/book";
import { formulasOf, savedOf, secondVoice } from "../src/recalculate/calculation";
import { sameOutcome } from "../src/recalculate/compare";
import { rowsOf, type Outcome, type Value } from "../src/recalculate/values";
import { bundledFunctions } from "./support/functions";

/**
 * The sample workbooks are worked out from nothing by the first engine, so nobody's saved values speak for them. The
 * second engine, asked for each formula on what the first gave for all others, must give the same; as no formula reads
 * itself, it would then have come to the same from nothing.
 */
describe.each(Object.keys(SAMPLE_WORKBOOKS))("%s.xlsx", (name) => {
  const file = `sample-workbooks/${name}.xlsx`;
  const book = openBook(readFileSync(file), file);
  const formulas = formulasOf(book);

  test("the second engine gives what the first gave, for every formula", () => {
    const voice = secondVoice(book, formulas, bundledFunctions());
    const differing: string[] = [];
    const silent: string[] = [];
    for (const formula of formulas) {
      const outcome = voice?.opinionOn(formula);
      const called = `${formula.sheet.name}!${formula.cell.address} =${formula.typed}`;
      if (outcome === undefined) silent.push(called);
      else if (!sameOutcome(shown(savedOf(formula, book)), shown(outcome))) differing.push(called);
    }
    voice?.forget();
    expect({ differing, silent }).toEqual({ differing: [], silent: [] });
    expect(formulas.length).toBeGreaterThan(10);
  });
});

/** A blank of an array is 0 to an engine, and sums that cancel leave a trace of rounding. */
function shown(outcome: Outcome): Value[][] {
  const trace = (value: Value) => typeof value === "number" && Math.abs(value) < 1e-9;
  return rowsOf(outcome).map((row) => row.map((value) => (value === null || trace(value) ? 0 : value)));
}
