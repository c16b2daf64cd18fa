import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readWorkbook } from "../src/guide/workbook-reader";
import { openBook } from "../src/recalculate/book";
import { placeOfOne } from "../src/recalculate/places";
import { valueIn } from "../src/recalculate/stored-text";
import { RUNS, savedRuns } from "../sample-workbooks/scripts/known-to";
import { command } from "./support/workbooks";

const BOOK = "sample-workbooks/order-to-landed-cost.xlsx";

function shownAt(named: string): unknown {
  const book = openBook(readFileSync(BOOK), BOOK);
  const { sheet, row, column } = placeOfOne(book, named, "cell");
  const cell = book.sheets.find(({ name }) => name === sheet)?.part.find(row, column);
  return cell === undefined ? undefined : valueIn(cell.value, book.shared);
}

test("the book shows the figures of its saved run, on its first sheet too", () => {
  const [run] = savedRuns();
  expect(["KnownMean", "KnownLow", "KnownHigh"].map(shownAt)).toEqual([run?.mean, run?.p5, run?.p95]);
  const { about } = readWorkbook(readFileSync(BOOK));
  const sentence = about.find(([label]) => label === "Known to")?.[1];
  for (const figure of [run?.mean, run?.p5, run?.p95]) expect(sentence).toContain((figure as number).toFixed(3));
  expect(sentence).toContain(`${run?.runs} runs, seed 1`);
});

// A short one: whatever moves the figures of a thousand runs moves those of a hundred.
test("fresh runs of the book as it stands give the figures of those saved with the run", async () => {
  const { out, code } = await command("vary", BOOK, "--runs", String(RUNS.repeated), "--json");
  expect(code).toBe(0);
  const fresh = out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as ReturnType<typeof savedRuns>[number]);
  const saved = savedRuns(RUNS.repeated);
  expect(fresh.map(({ outcome }) => outcome)).toEqual(saved.map(({ outcome }) => outcome));
  fresh.forEach((run, index) => {
    const other = saved[index] as typeof run;
    expect(run.runs).toBe(other.runs);
    for (const key of ["mean", "p5", "p25", "p50", "p75", "p95"] as const) {
      expect(run[key] / other[key], `${key}: save the run again, see known-to.ts`).toBeCloseTo(1, 9);
    }
    for (const { input, part } of run.parts) {
      expect(other.parts.find((one) => one.input === input)?.part).toBeCloseTo(part, 6);
    }
  });
}, 300_000);
