import { expect, test } from "vitest";
import { existsSync, readFileSync } from "node:fs";
import { CellError, evaluate, type Outcome } from "../../src/recalculate/engine";
import { bundledFunctions } from "../support/functions";

const page = readFileSync("dist/guide/first-opening.html", "utf8");

/** What the form promises, where it can be seen without Excel. */
test.each([
  ['=YARN.COUNT({24;-3;30},"Nm","tex")', "=YARN.COUNT(A1:A3,", [[41.6666666666667], ["#VALUE!"], [33.3333333333333]]],
  ['=YARN.COUNT({24;#DIV/0!;30},"Nm","tex")', "=1/0", [[41.6666666666667], ["#DIV/0!"], [33.3333333333333]]],
  ['=YARN.PLYCOUNT(34,2,"tex")', '=YARN.PLYCOUNT(34,2,"tex")', [[68]]],
  ['=YARN.PLYCOUNT(34,2,"tex",)', '=YARN.PLYCOUNT(34,2,"tex",)', [[68]]],
])("%s gives what the form of the first opening says", (formula, said, expected) => {
  expect(page).toContain(said.replace(/"/g, "&quot;"));
  const [outcome] = evaluate([formula], bundledFunctions()) as [Outcome];
  const rows = Array.isArray(outcome) ? outcome : [[outcome]];
  const shown = rows.map((row) => row.map((value) => (value instanceof CellError ? value.code : value)));
  expect(shown).toEqual(
    expected.map((row) => row.map((value) => (typeof value === "number" ? expect.closeTo(value, 12) : value))),
  );
  for (const value of expected.flat()) expect(page).toContain(String(value));
});

test("the message that the form quotes is the one that the function gives", () => {
  const [outcome] = evaluate(['=YARN.COUNT(-3,"Nm","tex")'], bundledFunctions()) as [CellError];
  expect(page).toContain(`The text: ${outcome.message}.`);
});

test("takes fifteen minutes, and every file that it names is there", () => {
  const minutes = [...page.matchAll(/class="minutes">(\d+) min/g)].map(([, own]) => Number(own));
  expect(minutes.reduce((sum, own) => sum + own, 0)).toBe(15);
  const named = [...page.matchAll(/<code>((?:src|manifest|tests|sample-workbooks)[^<]*)<\/code>/g)].map(
    ([, file]) => file as string,
  );
  expect(named.length).toBeGreaterThan(8);
  for (const file of named) expect(existsSync(file), file).toBe(true);
  const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
  for (const [, script] of page.matchAll(/<code>npm run ([a-z]+)/g)) expect(Object.keys(scripts)).toContain(script);
  expect(readFileSync("src/recalculate/stored-form.ts", "utf8")).toContain("CURRENT_CALCULATION");
});
