import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { evaluate } from "../../src/recalculate/engine";
import { bundledFunctions } from "../support/functions";
import { expectCase, type Case } from "../support/cases";
import { lookedAt } from "../support/random-cases";
import {
  browserMissing,
  faultsOn,
  hindrancesInTheDark,
  hindrancesOn,
  openBrowser,
  serious,
  type Opened,
} from "./support";

const documented = documentedFunctions();
/** Every kind of page, and of the functions' pages, which are made alike, the longest of each family. */
const pages = readdirSync("dist/guide").filter((file) => {
  const own = documented.find(({ id }) => file === `${id}.html`);
  if (own === undefined) return file.endsWith(".html");
  const lengths = documented.filter(({ family }) => family === own.family).map(({ id }) => lengthOf(`${id}.html`));
  return lengthOf(file) === Math.max(...lengths);
});

function lengthOf(file: string): number {
  return statSync(join("dist", "guide", file)).size;
}

/** The longest page of every kind first. */
const longest = [...pages].sort((a, b) => lengthOf(b) - lengthOf(a));
const kindOf = (file: string) =>
  /^[A-Z]/.test(file) ? "a function" : (/^(family|recipe|table|workbook)-/.exec(file)?.[1] ?? partsOf(file));
const some = lookedAt(longest, kindOf);

/** What a page by itself has beside headings, paragraphs and lists. */
function partsOf(file: string): string {
  const found = readFileSync(join("dist", "guide", file), "utf8").match(/<(?:figure|form|img|script|svg|table)\b/g);
  return [...new Set(found)].sort().join(" ");
}

/** Rows of texts; a number's text is a number. */
type Shown = (string | number)[][];

/** What the page shows as the result. */
async function shownResult(page: Page): Promise<Shown> {
  return withNumbers(await page.evaluate(textsOfResult));
}

/** Runs in the page. */
function textsOfResult(): string[][] {
  const place = document.querySelector(".worked-out") as Element;
  const lines = [...place.querySelectorAll("tr")].map((line) => [...line.querySelectorAll("th, td")]);
  const cells = lines.length > 0 ? lines : [[...place.querySelectorAll(".value")]];
  // A table shows four decimals and keeps the whole figure as the cell's title.
  const full = (cell: Element) => (cell.matches(".number") && cell.getAttribute("title")) || cell.textContent || "";
  return cells.map((row) => row.map(full));
}

/** Runs in the page: how many cells of one row stand beside each other, at most. */
function mostColumns(): number {
  const beside = [...document.querySelectorAll("tr")].map((line) => {
    const boxes = [...line.children].map((cell) => cell.getBoundingClientRect()).filter(({ width }) => width > 1);
    return new Set(boxes.map(({ left }) => Math.round(left))).size;
  });
  return Math.max(0, ...beside);
}

function withNumbers(rows: string[][]): Shown {
  return rows.map((row) => row.map((text) => (text !== "" && !Number.isNaN(Number(text)) ? Number(text) : text)));
}

/** The documented result in the form the page shows: TRUE is a word there, an error its code, and "3" looks like 3. */
function asShown(value: unknown): number | string {
  const text = typeof value === "boolean" ? String(value).toUpperCase() : String(value);
  return typeof value === "number" ? value : ((withNumbers([[text]])[0] as Shown[number])[0] as number | string);
}

describe.skipIf(browserMissing)("the guide in a browser", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  });
  afterAll(() => opened?.close());

  const wantedOf = new Map<string, Case["expect"]>();
  const shownHere = documented.filter(({ id }) => some.includes(`${id}.html`));
  const results = shownHere.flatMap(({ examples }) => examples.map(({ result }) => result));
  evaluate(
    results.map((result) => `=${result}`),
    bundledFunctions(),
  ).forEach((outcome, place) => {
    const result = results[place] as string;
    wantedOf.set(
      result,
      result.startsWith("#")
        ? result
        : Array.isArray(outcome)
          ? outcome.map((row) => row.map(asShown))
          : asShown(outcome),
    );
  });

  test(`${some.length} pages of ${pages.length}, of every kind, load without a fault, ask for nothing elsewhere and fit a phone; their examples give their results`, async () => {
    const page = await opened.page({ width: 360, height: 740 });
    const faults = faultsOn(page, opened.address);
    for (const file of some) {
      await page.goto(`${opened.address}/guide/${file}`, { waitUntil: "load" });
      await checkExamples(page, file);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), file).toBeLessThanOrEqual(360);
      expect(await page.evaluate(mostColumns), file).toBeLessThanOrEqual(4);
      expect(faults, file).toEqual([]);
    }
  }, 240_000);

  /** The first example stands in the box and was worked out on loading; the others by their buttons. */
  async function checkExamples(page: Page, file: string): Promise<void> {
    const examples = documented.find(({ id }) => file === `${id}.html`)?.examples ?? [];
    for (const [place, { formula, result, begins }] of examples.entries()) {
      if (place > 0) await page.locator(".examples li").nth(place).getByText("Try this one").dispatchEvent("click");
      expect(await page.inputValue("#formula")).toBe(formula);
      const decimals = Math.max(0, ...[...result.matchAll(/\.(\d+)/g)].map(([, digits]) => (digits as string).length));
      const wanted = wantedOf.get(result) as Case["expect"];
      const shown = await shownResult(page);
      expectCase(begins ? shown.slice(0, (wanted as unknown[]).length) : shown, {
        id: file,
        formula,
        expect: wanted,
        atol: decimals === 0 ? 0 : 0.50001 * 10 ** -decimals,
        source: "the docblock",
        evidence: "rule",
      });
    }
  }

  test("a changed formula is worked out by the keyboard alone, and an error says what is wrong", async () => {
    const page = await opened.page();
    await page.goto(`${opened.address}/guide/COUNT.html`);
    await page.focus("#formula");
    await page.keyboard.press("Control+A");
    await page.keyboard.type('=YARN.COUNT({24;30},"Nm","tex")*2');
    await page.keyboard.press("Enter");
    expect(await shownResult(page)).toEqual([[83.3333333333], [66.6666666667]]);
    await page.fill("#formula", '=YARN.COUNT(24,"Ne","tex")');
    await page.keyboard.press("Tab");
    await page.keyboard.press("Space");
    expect(await page.textContent(".worked-out")).toMatch(/^#VALUE! from .*NeC \(cotton\) or NeW \(worsted\)/);
  });

  const families = lookedAt(
    longest.filter((file) => kindOf(file) === "family"),
    kindOf,
  );

  test(`drawings of ${families.length} families can be read on the narrowest phone: letters of at least nine pixels, all of them inside`, async () => {
    const page = await opened.page({ width: 320, height: 640 });
    for (const file of families) {
      await page.goto(`${opened.address}/guide/${file}`, { waitUntil: "load" });
      const faults = await page.evaluate(() => {
        const drawing = document.querySelector(".drawing svg") as SVGSVGElement;
        const frame = drawing.getBoundingClientRect();
        const scale = frame.width / drawing.viewBox.baseVal.width;
        return [...drawing.querySelectorAll("text")].flatMap((text) => {
          const { left, right, bottom } = text.getBoundingClientRect();
          const inside = left >= frame.left - 1 && right <= frame.right + 1 && bottom <= frame.bottom + 4;
          const size = Number.parseFloat(getComputedStyle(text).fontSize) * scale;
          return inside && size >= 9 ? [] : [`${text.textContent} ${size.toFixed(1)} px, ${inside ? "in" : "out"}side`];
        });
      });
      expect(faults, file).toEqual([]);
    }
  });

  test("pages can be read without scripts: the list, the examples with their tables, recipes and drawings", async () => {
    const context = await opened.browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${opened.address}/guide/index.html`);
    expect(await page.locator(".stages li.entry").count()).toBeGreaterThan(documented.length);
    expect(await page.locator(".job > li").count()).toBe(10);
    expect(await page.locator("form:visible, button:visible").count()).toBe(0);
    for (const id of ["ROUTE", "LANDED", "COUNT"]) {
      await page.goto(`${opened.address}/guide/${id}.html`);
      expect(await page.locator("form:visible, button:visible").count(), id).toBe(0);
      expect((await page.locator(".examples li").first().innerText()).length, id).toBeGreaterThan(20);
    }
    await page.goto(`${opened.address}/guide/recipe-short-mass.html`);
    expect(await page.locator(".worked-formulas .value").allInnerTexts()).toContain("604.57");
    await context.close();
  });

  test("pictures stand beside results that one can see, and go with them", async () => {
    const page = await opened.page();
    const faults = faultsOn(page, opened.address);
    const drawn = async (id: string) => {
      await page.goto(`${opened.address}/guide/${id}.html`, { waitUntil: "load" });
      return page.locator(".worked-out svg").count();
    };
    for (const id of ["ROUTE", "ROUTECOST", "TIERED", "SWING", "COSTSPREAD"]) expect(await drawn(id), id).toBe(1);
    expect(await drawn("COUNT")).toBe(0);
    expect(await drawn("MIXMATCH")).toBe(1);
    // Target, result, three solids: each as the library turns its L*a*b* into a colour.
    const fills = await page
      .locator(".worked-out rect")
      .evaluateAll((all) => all.map((own) => own.getAttribute("fill")));
    const [hex] = evaluate(["=YARN.LABTORGB({72,9,10;85,0,8;45,30,15;60,0,0})"], bundledFunctions());
    const [target, , ...solids] = fills;
    expect([target, ...solids]).toEqual((hex as unknown[][]).flat());
    await page.fill("#formula", "=YARN.MIXMATCH({72,9,10},{85,0,8;45,30})");
    await page.keyboard.press("Enter");
    expect(await page.locator(".worked-out svg").count()).toBe(0);
    expect(faults).toEqual([]);
  });

  test("an example that picks one value offers the whole result", async () => {
    const page = await opened.page();
    await page.goto(`${opened.address}/guide/COUNTSYSTEMS.html`);
    await page.getByText("Whole result").first().click();
    expect(await page.inputValue("#formula")).toBe("=YARN.COUNTSYSTEMS()");
    const rows = await shownResult(page);
    expect(rows.length).toBeGreaterThan(40);
    expect(rows[1]?.[0]).toBe("tex");
  });

  test("the form of the first opening becomes a text to copy", async () => {
    const page = await opened.page();
    const faults = faultsOn(page, opened.address);
    await page.goto(`${opened.address}/guide/first-opening.html`);
    await page.fill("#host", "Web");
    await page.locator("[name=step-1]").first().check();
    await page.locator("[name=step-2]").nth(1).check();
    await page.fill("#step-2-note", "B1:B3 are all #VALUE!");
    const lines = (await page.inputValue("#report")).split("\n");
    expect(lines.slice(0, 4)).toEqual([
      "First opening in Excel: Web",
      "1. The functions load: as said",
      "2. An error inside a returned array: otherwise. B1:B3 are all #VALUE!",
      "3. The message of an error: not tried",
    ]);
    await page.getByRole("button", { name: "Copy it" }).click();
    await page.getByText(/^(Copied|Selected)/).waitFor();
    expect(faults).toEqual([]);
  });

  test("the first stop of the tabulator leads to the content", async () => {
    const page = await opened.page();
    await page.goto(`${opened.address}/guide/index.html`);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("To the content");
  });

  /** What people ask for, and what must be among the first three answers, wherever that function exists. */
  const ASKED: readonly (readonly [asked: string, ...ids: string[]])[] = [
    ["five ply", "PLYCOUNT"],
    ["5 ply", "PLYCOUNT"],
    ["landed", "LANDED"],
    ["regain", "REGAIN"],
    ["noil", "ROMAINE"],
    ["moisture", "REGAIN"],
    ["heather", "MIXNEED"],
    ["duty", "DUTY"],
    ["tariff", "DUTY"],
    ["wpi", "WRAPS"],
    ["yardage", "YARNLENGTH"],
    ["micron", "BLENDMICRON"],
    ["Galashiels", "Count systems"],
    ["cashmere", "Standard regains"],
    ["YARN.COUNT", "COUNT"],
    ["how much wool to buy", "NEED"],
    ["converting counts", "COUNT"],
    ["share a charge", "APPORTION"],
    ["plying", "PLYCOUNT"],
    ["moisure", "REGAIN"],
    ["regian", "REGAIN"],
    ["galashels", "Count systems"],
    ["outward processing", "Outward processing: duty on what was added"],
    ["deposit", "Deposits and instalments at their own exchange rates"],
    ["short delivery claim", "A claim for short mass, at standard condition"],
  ];

  test("the search finds by the words of the trade", async () => {
    const page = await opened.page();
    const faults = faultsOn(page, opened.address);
    await page.goto(`${opened.address}/guide/index.html`);
    for (const [asked, ...ids] of ASKED) {
      await page.fill("#search", asked);
      const first = (await page.locator(".results a").allTextContents()).slice(0, 3);
      for (const id of ids) {
        if (/[a-z]/.test(id) || documented.some((own) => own.id === id)) expect(first, asked).toContain(id);
      }
    }
    await page.fill("#search", "zebra xylophone");
    expect(await page.textContent(".found")).toMatch(/^Nothing found/);
    expect(await page.isVisible(".stages")).toBe(true);
    await page.fill("#search", "moisure");
    expect(await page.textContent(".found")).toMatch(/found for “moisture”/);
    await page.fill("#search", "");
    expect(await page.isVisible(".stages")).toBe(true);
    await page.fill("#search", "landed");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await page.waitForURL(/\/guide\/[A-Z]+\.html$/);
    expect(faults).toEqual([]);
  });

  /** One page of each kind; every function's page is made from the same parts. */
  const [firstId, lastId] = [documented[0]?.id, documented[documented.length - 1]?.id];
  const widest = documented.reduce((a, b) => (b.parameters.length > a.parameters.length ? b : a)).id;
  // The time goes by the length of a page, and a long one has no other parts than a short one of its kind.
  const others = longest.filter((file) => /^[a-z]/.test(file)).reverse();
  const sample = [...lookedAt(others, kindOf), ...[firstId, lastId, widest].map((id) => `${id}.html`)];

  test(`no serious or critical fault of accessibility on ${sample.length} pages of ${others.length + 3}, in the light and in the dark`, async () => {
    const page = await opened.page();
    for (const file of sample) {
      await page.goto(`${opened.address}/guide/${file}`, { waitUntil: "load" });
      if (file === "index.html") await page.fill("#search", "ply");
      expect(serious(await hindrancesOn(page)), file).toEqual([]);
      expect(serious(await hindrancesInTheDark(page)), file).toEqual([]);
    }
  }, 240_000);
});
