import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SAMPLE_WORKBOOKS } from "../../sample-workbooks/build";
import { openBook } from "../../src/recalculate/book";
import { loadBundle, type Implementation } from "../../src/recalculate/bundle";
import { formulasOf } from "../../src/recalculate/calculation";
import { oursOnSavedValues } from "../../src/recalculate/saved-values";
import { browserMissing, openBrowser, type Opened } from "./support";

/** One call of ours as a workbook makes it, and what it gives here. */
interface Call {
  readonly id: string;
  readonly cells: readonly unknown[];
  readonly result: unknown;
}

/** Every call of ours in a workbook, each on the values that its file holds. */
function callsOf(file: string): Call[] {
  const calls = new Map<string, Call>();
  const noted = [...loadBundle()].map(([id, implementation]): [string, Implementation] => [
    id,
    (...cells) => {
      const result = implementation(...cells);
      calls.set(JSON.stringify([id, cells]), { id, cells, result });
      return result;
    },
  ]);
  const book = openBook(readFileSync(file), file);
  oursOnSavedValues(book, formulasOf(book), new Map(noted));
  return [...calls.values()];
}

/** Runs in the page: the runtime of the host as far as the bundle needs it, the bundle, and the calls. */
function answered([code, calls]: readonly [code: string, calls: string]): string {
  const functions: Record<string, (...cells: unknown[]) => unknown> = {};
  class CellError extends Error {
    constructor(
      readonly code: string,
      message?: string,
    ) {
      super(message);
    }
  }
  const runtime = {
    Error: CellError,
    associate: (id: string, implementation: (...cells: unknown[]) => unknown) => void (functions[id] = implementation),
  };
  // The page has no other way to run a text that it was handed.

  (new Function("CustomFunctions", code) as (given: object) => void)(runtime);
  const all = JSON.parse(calls) as { id: string; cells: unknown[] }[];
  return JSON.stringify(all.map(({ id, cells }) => functions[id]!(...cells)));
}

const AGREE = 1e-12;

/** The cells of two results that differ by more than the last digits do. */
function apart(here: unknown, there: unknown): unknown[] {
  const pairs: [unknown, unknown][] = [];
  const rows = (result: unknown): unknown[][] => (Array.isArray(result) ? (result as unknown[][]) : [[result]]);
  rows(here).forEach((row, down) => row.forEach((cell, across) => pairs.push([cell, rows(there)[down]?.[across]])));
  return pairs.filter(([own, other]) =>
    typeof own === "number" && typeof other === "number"
      ? !(Math.abs(own - other) <= AGREE * Math.max(1, Math.abs(own)))
      : own !== other,
  );
}

describe.skipIf(browserMissing)("the sample workbooks in Chromium have the digits of Node", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  });
  afterAll(() => opened?.close());
  const code = readFileSync("dist/functions.js", "utf8");

  test.each(Object.keys(SAMPLE_WORKBOOKS))("%s.xlsx: every cell of ours", async (name) => {
    const calls = callsOf(`sample-workbooks/${name}.xlsx`);
    expect(calls.length).toBeGreaterThan(5);
    const page = await opened.page();
    const results = JSON.parse(await page.evaluate(answered, [code, JSON.stringify(calls)] as const)) as unknown[];
    expect(results).toHaveLength(calls.length);
    const here = JSON.parse(JSON.stringify(calls.map(({ result }) => result))) as unknown[];
    const differing = calls.flatMap(({ id }, index) => {
      const cells = apart(here[index], results[index]);
      return cells.length > 0 ? [{ id, cells }] : [];
    });
    expect(differing).toEqual([]);
  });

  test("a digit too far off would be told", () => {
    expect(apart([[1, "x"]], [[1 + 1e-9, "x"]])).toHaveLength(1);
    expect(apart([[1e6, "x"]], [[1e6 + 1e-7, "y"]])).toEqual([["x", "y"]]);
  });
});
