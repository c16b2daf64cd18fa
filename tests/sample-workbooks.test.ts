import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { unzipSync } from "fflate";
import { buildSample, SAMPLE_WORKBOOKS } from "../sample-workbooks/build";
import { recalculate } from "../src/recalculate/recalculation";
import { lookedAt } from "./support/random-cases";

const folder = mkdtempSync(join(tmpdir(), "samples-"));
afterAll(() => rmSync(folder, { recursive: true }));

const names = Object.keys(SAMPLE_WORKBOOKS);
const keptAs = (name: string) => `sample-workbooks/${name}.xlsx`;

describe.each(names)("%s.xlsx", (name) => {
  const kept = keptAs(name);

  test("is what its script makes, without an error in any cell", async () => {
    expect(await buildSample(name, folder)).toEqual([]);
    expect(Buffer.compare(readFileSync(join(folder, `${name}.xlsx`)), readFileSync(kept))).toBe(0);
  });

  test("says that its checks hold, and each of them does", () => {
    const parts = unzipSync(readFileSync(kept));
    const sheets = Object.keys(parts).filter((part) => /^xl\/worksheets\/sheet\d+\.xml$/.test(part));
    const checks = sheets
      .map((part) => new TextDecoder().decode(parts[part]))
      .find((text) => text.includes("IF(IFERROR(AND(B7:B"));
    expect(checks).toMatch(/<c r="B4"[^>]*><f>IF\(IFERROR\(AND\(B7:B\d+\)[^<]*<\/f><v>hold<\/v>/);
    const lines = [...(checks as string).matchAll(/<c r="B(\d+)"[^>]*t="b"[^>]*><f[^]*?<v>(\d)<\/v>/g)];
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.every(([, row, holds]) => Number(row) > 6 && holds === "1")).toBe(true);
  });

  test("is stored as Excel stores it", () => {
    const parts = unzipSync(readFileSync(kept));
    const textOf = (part: string) => new TextDecoder().decode(parts[part]);
    const sheets = Object.keys(parts).filter((part) => /^xl\/worksheets\/sheet\d+\.xml$/.test(part));
    // As Excel of today writes it; an older number makes Excel calculate the whole book anew when it is opened.
    expect(textOf("xl/workbook.xml")).toContain('<calcPr calcId="191029"/>');
    expect(textOf("xl/metadata.xml")).toContain('fDynamic="1"');
    let ours = 0;
    for (const sheet of sheets) {
      for (const [cell, attributes, formula] of textOf(sheet).matchAll(/<c ([^>]*)>(<f[^>]*>[^<]*<\/f>)?[^]*?<\/c>/g)) {
        if (!formula) continue;
        expect(formula).not.toMatch(/\bYARN\./);
        if (!formula.includes("_xldudf_YARN_")) continue;
        ours++;
        expect(attributes).toMatch(/\bcm="1"/);
        expect(formula).toMatch(/^<f t="array" ref="[A-Z]+\d+(:[A-Z]+\d+)?">/);
        expect(cell).toMatch(/<v>[^]*<\/v>/);
      }
    }
    expect(ours).toBeGreaterThan(5);
  });

  test("its charts hold the figures of the cells they draw", () => {
    const parts = unzipSync(readFileSync(kept));
    for (const part of Object.keys(parts).filter((each) => /^xl\/charts\/chart\d+\.xml$/.test(each))) {
      const caches = [...new TextDecoder().decode(parts[part]).matchAll(/<c:numCache>(.*?)<\/c:numCache>/g)];
      expect(caches.length).toBeGreaterThan(0);
      for (const [, cache] of caches) {
        const points = Number(/<c:ptCount val="(\d+)"/.exec(cache as string)?.[1]);
        expect((cache as string).match(/<c:pt /g)?.length).toBe(points);
      }
    }
  });
});

// Both engines have given them all before: the first where a book is made, the second by itself (own-workbooks-two-engines).
const again = lookedAt(names, () => "a book");

test.each(again)("%s.xlsx holds the values that a recalculation with the built functions gives", (name) => {
  const kept = keptAs(name);
  const { error, differences, faults, taken, formulas } = recalculate({ file: kept, called: kept });
  expect({ error, differences, faults, taken }).toEqual({ error: undefined, differences: [], faults: [], taken: [] });
  expect(formulas).toBeGreaterThan(10);
});
