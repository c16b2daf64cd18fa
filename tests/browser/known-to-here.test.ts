import { basename, dirname } from "node:path";
import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { main } from "../../src/recalculate/vary";
import { settleVariation } from "../../src/recalculate/vary-tasks";
import { askedIn, limitsIn, OPTIONS } from "../../src/recalculate/vary-words";
import { Workbook } from "../../src/recalculate/workbook";
import { lookedAt, WHOLE } from "../support/random-cases";
import { partsOf, place, rows, written } from "../support/workbooks";
import {
  browserMissing,
  faultsOn,
  hindrancesInTheDark,
  hindrancesOn,
  openBrowser,
  pictured,
  type Opened,
} from "./support";

const SAMPLE = "sample-workbooks/order-to-landed-cost.xlsx";
const HEADINGS = ["input", "low", "likely", "high", "shape", "moves with"];

/** A printed page has room for as many. */
const MOST_INPUTS = 10;

type Line = readonly (string | number | null)[];

/** A length of 10 and a width of 4 with their product, and Tables of ranges beside them. */
async function ranged(
  name: string,
  tables: Readonly<Record<string, readonly Line[]>>,
  formula = "A1*B1",
  sheet = "Calc",
): Promise<string> {
  const workbook = new Workbook();
  const on = workbook.addWorksheet(sheet);
  on.getCell("A1").value = 10;
  for (let row = 2; row <= MOST_INPUTS; row++) on.getCell(`A${row}`).value = row;
  on.getCell("B1").value = 4;
  on.getCell("C1").value = { formula, result: 40 };
  on.getCell("D1").value = { formula: "2*C1", result: 80 };
  Object.entries(tables).forEach(([table, lines], index) => {
    const ref = `E${1 + 10 * index}`;
    const columns = HEADINGS.map((heading) => ({ name: heading }));
    const filled = lines.map((line) => HEADINGS.map((_, column) => line[column] ?? null));
    on.addTable({ name: table, ref, headerRow: true, totalsRow: false, columns, rows: filled });
  });
  const file = place(name);
  writeFileSync(file, new Uint8Array(await workbook.xlsx.writeBuffer()));
  return file;
}

const PRODUCT: readonly Line[] = [
  ["Calc!A1", 8, null, 12, "even"],
  ["Calc!B1", 3, 4, 5],
  ["Calc!C1", null, null, null, "outcome"],
];

/** What the command prints to a person who stands in the workbook's folder. */
async function printed(file: string, ...words: string[]): Promise<string> {
  const lines: string[] = [];
  const spies = [
    vi.spyOn(console, "log").mockImplementation((line: string) => void lines.push(`${line}\n`)),
    vi.spyOn(console, "error").mockImplementation(() => {}),
  ];
  try {
    expect(await main([basename(file), ...words], dirname(file))).toBe(0);
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
  return lines.join("");
}

/** Every number within a part in 10^12, all else the same. */
function expectSame(found: unknown, wanted: unknown, where = ""): void {
  if (typeof found === "number" && typeof wanted === "number") {
    expect(Math.abs(found - wanted), where).toBeLessThanOrEqual(1e-12 * Math.abs(wanted));
  } else if (typeof found === "object" && found !== null && typeof wanted === "object" && wanted !== null) {
    expect(Object.keys(found), where).toEqual(Object.keys(wanted));
    for (const [key, value] of Object.entries(found)) {
      expectSame(value, (wanted as Record<string, unknown>)[key], `${where}.${key}`);
    }
  } else expect(found, where).toEqual(wanted);
}

describe.skipIf(browserMissing)("what results are known to, in a page", () => {
  let opened: Opened;
  let page: Page;
  let faults: string[];
  beforeAll(async () => {
    opened = await openBrowser();
    page = await opened.browser.newPage({ acceptDownloads: true });
    faults = faultsOn(page, opened.address);
    await page.goto(`${opened.address}/guide/recalculate-here.html`);
  });
  afterAll(() => opened?.close());

  /** The page has come to an end with what it was asked, and says how. */
  async function said(): Promise<string> {
    await page.waitForFunction(() => !/…$|^$/.test(document.querySelector(".said")?.textContent ?? ""), undefined, {
      timeout: 120_000,
    });
    return (await page.textContent(".said")) ?? "";
  }

  async function given(file: string): Promise<void> {
    await page.setInputFiles("#workbook", []);
    await page.evaluate(() => document.querySelector(".said")?.replaceChildren());
    await page.setInputFiles("#workbook", file);
    expect(await said()).toMatch(/was worked out in/);
  }

  async function run(boxes: Readonly<Record<string, string>> = {}): Promise<string> {
    for (const [box, text] of Object.entries({ of: "", limit: "", ...boxes })) await page.fill(`#${box}`, text);
    await page.click("form.vary button[type=submit]");
    return said();
  }

  async function saved(button: string): Promise<string> {
    const download = page.waitForEvent("download");
    await page.click(button);
    return readFileSync(await (await download).path(), "utf8");
  }

  describe("the sample book", () => {
    let file: string;
    beforeAll(async () => {
      file = place(basename(SAMPLE));
      copyFileSync(SAMPLE, file);
      await given(file);
    });

    test("every figure and the report are those of the command", async () => {
      const report = place("wanted.html");
      const asked = ["--runs", "20", "--seed", "3", "--limit", "LandedPerSkein<4.2"];
      const lines = await printed(file, ...asked, "--json", "--report", report);
      expect(await run({ runs: "20", seed: "3", limit: "LandedPerSkein<4.2" })).toMatch(/^The runs were worked out in/);

      const read = (text: string) =>
        text
          .trim()
          .split("\n")
          .map((line) => JSON.parse(line) as Record<string, unknown>);
      const figures = await saved("[data-known=figures]");
      expect(read(figures).length).toBeGreaterThan(0);
      expectSame(read(figures), read(lines));
      expect(await saved("[data-known=report]")).toBe(readFileSync(report, "utf8"));

      // What a person reads is that, rounded.
      for (const [index, line] of read(lines).entries()) {
        const outcome = page.locator(".known > section").nth(index);
        expect(await outcome.locator("h3").textContent()).toBe(line.outcome);
        const shown = await outcome.locator("table").first().locator("tbody tr td:nth-child(2)").allTextContents();
        const wanted = ["mean", "deviation", "p5", "p25", "p50", "p75", "p95"].map((key) => line[key] as number);
        shown.forEach((text, at) => {
          const decimals = /\.(\d+)$/.exec(text)?.[1]?.length ?? 0;
          const value = Number(text.replace(/[^\d.−]/g, "").replace("−", "-"));
          expect(Math.abs(value - (wanted[at] as number))).toBeLessThanOrEqual(0.5001 * 10 ** -decimals);
        });
        expect(shown).toHaveLength(wanted.length);
      }
      expect(faults).toEqual([]);
    }, 240_000);

    test("a run can be stopped, leaves nothing behind, and the next one is whole", async () => {
      await page.fill("#runs", "100000");
      await page.click("form.vary button[type=submit]");
      const isUnderway = () => {
        const bar = document.querySelector(".at-work progress") as HTMLProgressElement;
        return !bar.hidden && bar.value > 0 && bar.max === 100_000;
      };
      await page.waitForFunction(isUnderway, undefined, { timeout: 120_000 });
      // Wherever the person has scrolled to.
      await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
      expect(await page.locator(".stop").evaluate((stop) => stop.getBoundingClientRect().bottom)).toBeGreaterThan(0);
      await page.click(".stop");
      expect(await said()).toBe("order-to-landed-cost.xlsx was stopped.");
      expect(await page.isVisible(".at-work progress")).toBe(false);
      expect(await page.locator(".known > *").count()).toBe(0);
      expect(await page.isVisible("[data-known=report]")).toBe(false);
      expect(await run({ runs: "20", seed: "1" })).toMatch(/^The runs were worked out in/);
      expect(await page.textContent(".known")).toContain("20 runs, seed 1");
    }, 120_000);

    test("with its drawings: fits the smallest phone, is read there, no fault of accessibility in the light and in the dark", async () => {
      await run({ runs: "20", limit: "LandedPerSkein<4.2" });
      // At the last two widths the same drawings are shown, those for paper.
      for (const width of WHOLE ? [320, 800, 1200] : [320, 1200]) {
        await page.setViewportSize({ width, height: 740 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        // Of each drawing one size is shown, with letters of at least 11 pixels and words for those who do not see it.
        const drawings = page.locator(".known svg:visible");
        expect(await drawings.count()).toBe((await page.locator(".known svg").count()) / 2);
        for (const { letters, label, role } of await drawings.evaluateAll((all) =>
          all.map((one) => ({
            letters: 12 * ((one as SVGSVGElement).getScreenCTM()?.a ?? 0),
            label: one.getAttribute("aria-label") ?? "",
            role: one.getAttribute("role"),
          })),
        )) {
          expect(letters).toBeGreaterThanOrEqual(11);
          expect(label).toMatch(/\d/);
          expect(role).toBe("img");
        }
        // What is around the drawings is the same at every width.
        const within = WHOLE || width === 320 ? "html" : ".known";
        expect(await hindrancesOn(page, within)).toEqual([]);
        expect(await hindrancesInTheDark(page, within)).toEqual([]);
      }
      await pictured(page, "known-to", [320, 800, 1200]);
    }, 120_000);
  });

  test("another workbook takes away what was found in the one before; one without ranges is told how to get them", async () => {
    await given(await ranged("before.xlsx", { Ranges: PRODUCT }));
    await run({ runs: "20" });
    expect(await page.locator(".known svg").count()).toBeGreaterThan(0);
    await given(written("plain.xlsx", partsOf({ Calc: rows([10, "=A1*2|20"]) })));
    expect(await page.locator(".known > *").count()).toBe(0);
    expect(await page.isVisible("form.vary")).toBe(false);
    const told = page.locator(".no-ranges");
    expect(await told.isVisible()).toBe(true);
    for (const heading of ["Ranges", "input", "low", "likely", "high"])
      expect(await told.locator(`code:text-is("${heading}")`).count()).toBe(1);
    const address = await told.locator("a").getAttribute("href");
    const explained = await opened.browser.newPage();
    await explained.goto(`${opened.address}/guide/${address}`);
    expect(await explained.locator(`#${address?.split("#")[1]}`).count()).toBe(1);
    await explained.close();
  });

  test("a Table of another name is known by its headings; of several one is chosen", async () => {
    await given(await ranged("one.xlsx", { WhatIsKnown: PRODUCT }));
    expect(await page.textContent(".name-of-ranges")).toBe("WhatIsKnown");
    expect(await run({ runs: "20" })).toMatch(/^The runs were worked out/);
    const narrow: readonly Line[] = [["Calc!A1", 9.9, null, 10.1, "even"], ...PRODUCT.slice(2)];
    await given(await ranged("two.xlsx", { Wide: PRODUCT, Narrow: narrow }));
    await page.selectOption("#ranges", "Narrow");
    await run({ runs: "20" });
    const [figures] = (await saved("[data-known=figures]")).split("\n");
    const { p5, p95 } = JSON.parse(figures ?? "") as Record<"p5" | "p95", number>;
    // Four times 9.9 and 10.1.
    expect(p5).toBeGreaterThanOrEqual(39.6);
    expect(p95).toBeLessThanOrEqual(40.4);
  });

  /** Ranges that are nonsense or made to do harm; each ends in the sentence of the command. */
  const NONSENSE: readonly (readonly [what: string, lines: readonly Line[], formula?: string])[] = [
    ["low above high", [["Calc!A1", 12, null, 8], ...PRODUCT.slice(2)]],
    ["no number", [["Calc!A1", "little", null, 8], ...PRODUCT.slice(2)]],
    ["a likely value outside", [["Calc!A1", 1, 20, 8], ...PRODUCT.slice(2)]],
    ["a shape that is none", [["Calc!A1", 1, 2, 8, "<b>round</b>"], ...PRODUCT.slice(2)]],
    ["an input that is not there", [["Nowhere!A1", 1, 2, 8], ...PRODUCT.slice(2)]],
    [
      "an input that is a formula",
      [
        ["Calc!C1", 1, 2, 8],
        ["Calc!C1", null, null, null, "outcome"],
      ],
    ],
    [
      "inputs that move in a circle",
      [
        ["Calc!A1", 1, 2, 8, "", "Calc!B1"],
        ["Calc!B1", 1, 2, 8, "", "Calc!A1"],
      ],
    ],
    ["no outcome", PRODUCT.slice(0, 2)],
    ["no input", PRODUCT.slice(2)],
    ["an outcome that no input reaches", PRODUCT, "20+20"],
    ["an outcome that depends on chance", PRODUCT, "A1*B1+0*RAND()"],
    ["an outcome whose saved value is not reproduced", PRODUCT, "A1*B1+1"],
    ["an outcome of a function that is not known here", PRODUCT, "A1*NOSUCH(B1)"],
  ];

  // Every sentence is the command's, whose tests have them all.
  const nonsense = NONSENSE.map(([what, lines, formula = "A1*B1"]) => ({ what, lines, formula }));
  test.each(lookedAt(nonsense, () => "nonsense"))(
    "nonsense in the Table ends in the command's sentence: $what",
    async ({ what, lines, formula }) => {
      const file = await ranged(`${what.replace(/\W/g, "-")}.xlsx`, { Ranges: lines }, formula);
      const wanted = settleVariation({ file, called: basename(file), also: [] });
      await given(file);
      expect("error" in wanted && `${wanted.error}.`).toBe(await run({ runs: "20" }));
      expect(await page.getAttribute(".said", "class")).toContain("error");
      expect(await page.locator(".known > *").count()).toBe(0);
      expect(await page.locator(".said b").count()).toBe(0);
    },
  );

  describe("nonsense in a box ends in the command's sentence:", () => {
    let file: string;
    beforeAll(async () => {
      file = await ranged("boxes.xlsx", { Ranges: PRODUCT });
      await given(file);
    });

    const boxes = [
      ["runs", "3"],
      ["runs", "many"],
      ["runs", "200000000000"],
      ["seed", "-1"],
      ["limit", "Calc!C1 about 4"],
      ["limit", "Calc!A9<4"],
      ["of", "Calc!A1"],
      ["of", "Sheet that is none!A1"],
    ] as const;
    test.each(lookedAt(boxes, ([box]) => box))("%s %s", async (box, text) => {
      const words = { runs: "20", seed: "1", [box]: text };
      const wanted = () => {
        const { values } = parseArgs({
          args: Object.entries(words).map(([name, word]) => `--${name}=${word}`),
          options: OPTIONS,
        });
        const { of, limits } = askedIn(values, (typed) => typed);
        const also = limits.map(({ outcome }) => outcome);
        const answer = settleVariation({ file, called: "boxes.xlsx", also, ...(of === undefined ? {} : { of }) });
        if ("error" in answer) throw new Error(answer.error);
        limitsIn(answer.result, limits);
      };
      let message = "";
      try {
        wanted();
      } catch (fault) {
        message = (fault as Error).message;
      }
      expect(message).not.toBe("");
      expect(await run(words)).toBe(`${message.replace(/^--/, "")}.`);
    });
  });

  test("more runs than a page has room for are refused, and the command is named", async () => {
    await given(await ranged("many.xlsx", { Ranges: PRODUCT }));
    expect(await run({ runs: "100001" })).toBe("runs is 100001; a page draws at most 100000, the command vary more.");
  });

  test("runs without a number are counted and shown with their inputs; where all are so, that is said", async () => {
    const wide: readonly Line[] = [["Calc!A1", -8, null, 12, "even"], ...PRODUCT.slice(2)];
    await given(await ranged("roots.xlsx", { Ranges: wide }, "4*SQRT(A1)*SQRT(10)"));
    await run({ runs: "100" });
    // Two fifths of the range are below 0.
    expect(await page.textContent(".known")).toContain("40 of 100 runs gave no number");
    const none: readonly Line[] = [["Calc!A1", -8, null, -4, "even"], ...PRODUCT.slice(2)];
    await given(await ranged("none.xlsx", { Ranges: none }, "4*SQRT(A1)*SQRT(10)"));
    await run({ runs: "100" });
    expect(await page.textContent(".known")).toContain("No run gave a number.");
    expect(await page.locator(".known svg").count()).toBe(0);
  });

  test("the report is printed on two pages of A4 for each result and one for the ranges", async () => {
    const inputs = Array.from({ length: MOST_INPUTS }, (_, row): Line => [`Calc!A${row + 1}`, row, null, 2 * row + 20]);
    const results = ["Calc!C1", "Calc!D1"].map((cell): Line => [cell, null, null, null, "outcome"]);
    await given(await ranged("printed.xlsx", { Ranges: [...inputs, ...results] }, `SUM(A1:A${MOST_INPUTS})-24`));
    await run({ runs: "300" });
    const report = await opened.browser.newPage();
    await report.setContent(await saved("[data-known=report]"));
    const pdf = (await report.pdf({ preferCSSPageSize: true })).toString("latin1");
    await report.close();
    expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(2 * results.length + 1);
    // 210 by 297 mm in points.
    expect(pdf).toMatch(/\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
  });

  test("what a workbook says is shown as text and never as a part of the page", async () => {
    const sheet = "<img src=x onerror=1>&'s";
    const cell = (address: string) => `'${sheet.replace("'", "''")}'!${address}`;
    const lines: readonly Line[] = [
      [cell("A1"), 8, null, 12, "even"],
      [cell("C1"), null, null, null, "outcome"],
    ];
    await given(await ranged("markup.xlsx", { Ranges: lines }, "A1*B1", sheet));
    await run({ runs: "20" });
    expect(await page.textContent(".known h3")).toContain("<img src=x onerror=1>&''s");
    expect(await page.locator(".known img, .known script, .known [onerror]").count()).toBe(0);
    expect(await saved("[data-known=report]")).not.toContain("<img");
    expect(faults).toEqual([]);
  });
});
