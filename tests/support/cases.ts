import { readdirSync, readFileSync } from "node:fs";
import { expect } from "vitest";
import { CellError, type Outcome, type Value } from "../../src/recalculate/engine";

/** A check case: a formula as typed in a cell, and what an outside source says it gives. */
export interface Case {
  readonly id: string;
  readonly formula: string;
  readonly expect: number | string | boolean | (number | string | boolean)[][];
  readonly rtol?: number;
  readonly atol?: number;
  readonly source: string;
  readonly evidence: "read" | "derived" | "memory" | "rule";
}

/** All cases of tests/golden, one JSON object a line, a file a family. */
export function goldenCases(): Case[] {
  return readdirSync("tests/golden")
    .filter((file) => file.endsWith(".jsonl"))
    .sort()
    .flatMap((file) =>
      readFileSync(`tests/golden/${file}`, "utf8")
        .split("\n")
        .filter((line) => line.trim() !== "")
        .map((line) => JSON.parse(line) as Case),
    );
}

/** Asserts that an outcome is what the case says, within its tolerance (none: exactly). */
export function expectCase(outcome: Outcome | undefined, { id, formula, expect: wanted, rtol, atol }: Case): void {
  const label = `${id} ${formula}`;
  if (!Array.isArray(wanted)) {
    const single = Array.isArray(outcome) && outcome.length === 1 && outcome[0]?.length === 1 ? outcome[0][0] : outcome;
    expectValue(single, wanted, label);
    return;
  }
  const rows = Array.isArray(outcome) ? outcome : [[outcome as Value]];
  expect([rows.length, rows[0]?.length], `${label}: shape`).toEqual([wanted.length, wanted[0]?.length]);
  wanted.forEach((row, r) => row.forEach((value, c) => expectValue(rows[r]?.[c], value, `${label} [${r}][${c}]`)));

  function expectValue(got: Outcome | undefined, value: number | string | boolean, where: string): void {
    if (typeof value === "string" && value.startsWith("#") && got instanceof CellError) {
      expect(got.code, `${where}: ${got.message}`).toBe(value);
    } else if (typeof value === "number") {
      expect(typeof got, `${where}: ${JSON.stringify(got)}`).toBe("number");
      const allowed = Math.max(atol ?? 0, (rtol ?? 0) * Math.abs(value));
      expect(
        Math.abs((got as number) - value),
        `${where}: ${JSON.stringify(got)} against ${value}`,
      ).toBeLessThanOrEqual(allowed);
    } else {
      expect(got, where).toEqual(value);
    }
  }
}
