import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makePlain } from "../../src/recalculate/plain-copy";
import { WHOLE } from "../support/random-cases";
import { calcMissing, inCalc, type Step } from "./support";

/**
 * The sample workbooks laid out for print by another program, which puts the widest letters it has in the place of the
 * book's own: a column that does not fit begins a page there, if anywhere.
 */
interface Printed {
  readonly pages: number;
  readonly sheets: Readonly<Record<string, { readonly across: readonly number[]; readonly down: readonly number[] }>>;
}

const books = readdirSync("sample-workbooks").filter((file) => file.endsWith(".xlsx") && !file.startsWith("~"));
const folder = mkdtempSync(join(tmpdir(), "printed-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Each paper lays out every book anew, which takes as long again. */
const PAPERS = WHOLE ? ["A4", "Letter"] : ["A4"];

describe.skipIf(calcMissing)(`printed by LibreOffice Calc on ${PAPERS.join(" and ")}`, () => {
  let printed: Record<string, Printed>[];

  beforeAll(async () => {
    const steps: Step[] = books.map((name) => {
      const out = join(folder, name);
      expect(makePlain({ file: join("sample-workbooks", name), called: name, out })).not.toHaveProperty("error");
      return { printed: out, papers: PAPERS };
    });
    printed = (await inCalc(steps, { extension: null })) as Record<string, Printed>[];
  }, 600_000);

  test.each(books.map((name, index) => [name, index] as const))("%s has no page for a stray column", (_, index) => {
    const papers = printed[index] as Record<string, Printed>;
    expect(Object.keys(papers)).toEqual(PAPERS);
    for (const { pages, sheets } of Object.values(papers)) {
      const each = Object.entries(sheets);
      expect(each.filter(([, { across }]) => across.length > 0)).toEqual([]);
      // Every sheet is printed, and no page holds anything else.
      expect(pages).toBe(each.reduce((sum, [, { down }]) => sum + down.length + 1, 0));
      expect(sheets.About?.down).toEqual([]);
    }
  });

  test("the spinner's order is one page to sign", () => {
    for (const { sheets } of Object.values(printed[books.indexOf("spinners-order.xlsx")] as Record<string, Printed>)) {
      expect(sheets["Order sheet"]).toEqual({ across: [], down: [] });
    }
  });

  test.each([
    ["shade-and-recipe.xlsx", "Weigh-up", 6],
    ["order-to-landed-cost.xlsx", "Cards", 6],
    ["order-planner.xlsx", "Cards", 6],
  ])("%s gives every weigh-up card of %s a page of its own", (name, sheet, cards) => {
    for (const { sheets } of Object.values(printed[books.indexOf(name)] as Record<string, Printed>)) {
      expect(sheets[sheet]?.down.length).toBeGreaterThanOrEqual(cards - 1);
    }
  });
});
