import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  digestOf,
  keptScores,
  mutableSources,
  pageWith,
  scoreTable,
  withRun,
} from "../../src/build/mutation-report.mjs";

const report = {
  files: {
    "src/trade/whole.ts": {
      source: "a",
      mutants: ["Killed", "Timeout", "Survived", "NoCoverage", "Ignored"].map((status) => ({ status })),
    },
    "src/trade/empty.ts": { source: "", mutants: [{ status: "Ignored" }] },
  },
};

describe("the report of mutation testing", () => {
  test("counts what was noticed, and what nothing reached as not noticed", () => {
    const scores = withRun({}, report, "2026-01-02");
    expect(scores).toEqual({
      "src/trade/whole.ts": { mutants: 4, killed: 2, on: "2026-01-02", digest: digestOf("a") },
    });
  });

  test("a file run again replaces what was known of it, and others stay", () => {
    const known = {
      "src/trade/whole.ts": { mutants: 9, killed: 9, on: "2025-01-01", digest: "" },
      "src/sheet/lift.ts": { mutants: 5, killed: 5, on: "2025-01-01", digest: "" },
    };
    const scores = withRun(known, report, "2026-01-02");
    expect(scores["src/trade/whole.ts"]?.killed).toBe(2);
    expect(scores["src/sheet/lift.ts"]).toBe(known["src/sheet/lift.ts"]);
  });

  test("the table says which files have changed since, and which were never run", () => {
    const scores = withRun({}, report, "2026-01-02");
    const table = (source: string) => scoreTable(scores, { "src/trade/whole.ts": source, "src/trade/new.ts": "" });
    expect(table("a")).toContain("| `trade/whole` | 4 | 2 | 2 | 50.0 % | 2026-01-02 |");
    expect(table("b")).toContain("| 2026-01-02, changed since |");
    expect(table("a")).toContain("Never run, or nothing in them to change: `trade/new`.");
  });

  test("the page holds a row for every file that was run and still is", () => {
    const [page, scores, sources] = [readFileSync("tests/MUTATION.md", "utf8"), keptScores(), mutableSources()];
    for (const file of Object.keys(scores)) expect(Object.keys(sources), file).toContain(file);
    const written = pageWith(page, scores, sources);
    const rows = (text: string) => text.split("\n").filter((line) => /^\| `(sheet|trade)\//.test(line)).map((line) => line.split("|").slice(1, 6).join("|")); // prettier-ignore
    expect(rows(page)).toEqual(rows(written));
  });
});
