import { expect, test } from "vitest";
import { readFileSync } from "node:fs";
import { CellError, evaluate, type Outcome } from "../../src/recalculate/engine";
import { bundledFunctions } from "../support/functions";

const page = readFileSync("dist/guide/first-opening.html", "utf8");

/** What the checklist promises, where it can be seen without Excel. */
test.each([
  ['=YARN.COUNT(24,"Nm","tex")', 41.6666666666667, "41.6666666666667"],
  ['=YARN.PLYCOUNT(34,2,"tex")', 68, "68 three times"],
  ['=YARN.PLYCOUNT(34,2,"tex",)', 68, "68 three times"],
  ['=YARN.PLYCOUNT(34,2,"tex",,)', 68, "68 three times"],
  ['=YARN.REGAIN("unobtainium")', "#N/A", "#N/A with a message"],
  ['=YARN.COUNT(20,"Ne","tex")', "#VALUE!", "#VALUE!, and a card"],
])("%s gives what the checklist of the first opening says", (formula, expected, said) => {
  expect(page).toContain(formula.replace(/"/g, "&quot;"));
  expect(page).toContain(said);
  const [outcome] = evaluate([formula], bundledFunctions()) as [Outcome];
  if (outcome instanceof CellError) {
    expect(outcome.code).toBe(expected);
    expect(outcome.message).not.toBe("");
  } else expect(outcome).toBeCloseTo(expected as number, 12);
});
