import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Book, excelWith } from "../support/excel";
import {
  browserMissing,
  faultsOn,
  hindrancesInTheDark,
  hindrancesOn,
  openBrowser,
  pictured,
  serious,
  type Opened,
} from "./support";

const OFFICE = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

/** An invented order of three lots; the second count is a slip. */
const BOOK: Book = {
  sheets: {
    Lots: {
      A1: "count, Nm",
      A2: 24,
      A3: -3,
      A4: 30,
      B1: "tex",
      B2: ['=YARN.COUNT(A2:A4,"Nm","tex")', 41.6666666666667],
      B3: "#VALUE!",
      B4: 33.3333333333333,
      C2: ['=YARN.COUNT(A2,"Ne","tex")', "#VALUE!"],
      D2: ['=_xldudf_YARN_COUNT(A2,"Nm","tex")', "#NAME?"],
      D3: ['=[2]!_xldudf_YARN_COUNT(A4,"Nm","tex")', "#NAME?"],
      E2: ['=YARN.COUNT(A2:A4,"Nm","tex")', "#SPILL!"],
      F2: ["=YARN.VERSION()", "0.0.9"],
      G2: ['=YARN.COUNT(A2,"Nm","tex")', 41.6666666666667],
      G3: ['=YARN.COUNT(A3,"Nm","tex")', "#VALUE!"],
      I2: ['=MAX(YARN.COUNT(A2,"Nm","tex"),1)', 41.6666666666667],
      H2: ["=YARN.CONDITIONED(YARN.DRYMASS(100,0.12),0.17)", 1],
    },
  },
  spills: { "Lots!B2": "Lots!B2:B4" },
  properties: { "YARN version": "0.1.0" },
  selected: "Lots!B2",
  gives: {
    '=YARN.COUNT(A2,"Nm","tex")': 41.6666666666667,
    '=YARN.COUNT(A4,"Nm","tex")': 33.3333333333333,
    '=YARN.COUNT(A2:A4,"Nm","tex")': 41.6666666666667,
  },
};

type Mock = ReturnType<typeof excelWith>;

describe.skipIf(browserMissing)("the pane in a browser, with a workbook in memory in the place of Excel", () => {
  let opened: Opened;
  let mock: string;
  beforeAll(async () => {
    opened = await openBrowser();
    const source = readFileSync("tests/support/excel.ts", "utf8");
    const { outputText } = ts.transpileModule(source, {
      compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 },
    });
    mock = `var mock = {}; (function (exports) {${outputText}})(mock);`;
  });
  afterAll(() => opened?.close());

  const SIZE = { width: 320, height: 700 };

  async function paneOn(book: Partial<Book> = {}, given?: Page) {
    const page = given ?? (await opened.page(SIZE));
    const faults = faultsOn(page, opened.address);
    // Office.js brings its own CustomFunctions; so does what stands in its place.
    const body = `${mock}
      globalThis.excel = mock.excelWith(${JSON.stringify({ ...BOOK, ...book })});
      Object.assign(globalThis, excel.globals, { CustomFunctions: { mappings: {}, associate(id, own) { this.mappings[id] = own; } } });`;
    await page.route(OFFICE, (route) => route.fulfill({ body, contentType: "text/javascript" }));
    await page.goto(`${opened.address}/pane.html`);
    await page.waitForSelector("#panel:not([aria-busy]) > *, main h1");
    return { page, faults: () => faults.filter((fault) => !fault.includes(OFFICE)) };
  }

  const select = async (page: Page, address: string) => {
    await page.evaluate((to) => (globalThis as unknown as { excel: Mock }).excel.select(to), address);
    await page.waitForFunction(() => document.querySelector("#panel:not([aria-busy])") !== null);
  };
  const textOf = async (page: Page) => (await page.innerText("#panel")).replace(/\s+/g, " ");
  const writes = (page: Page) =>
    page.evaluate(() => [...(globalThis as unknown as { excel: Mock }).excel.state.writes]);
  const open = async (page: Page, name: string) => {
    await page.getByRole("tab", { name }).click();
    await page.waitForFunction(() => document.querySelector("#panel:not([aria-busy])") !== null);
  };

  test("This cell: rows in error with their reasons, the arguments with their meaning, the page of the function", async () => {
    const { page, faults } = await paneOn();
    const text = await textOf(page);
    expect(text).toContain("3 rows, 1 column, 1 in error.");
    expect(text).toMatch(/B3 #VALUE! value.* -3/);
    expect(text).toContain("value A2:A4 = 3 rows: 24, -3, 30");
    expect(text).toMatch(/from "Nm".*Count system of value/);
    expect(text).toMatch(/Rests on: .*\((figures read|from memory)/);
    expect(await page.getAttribute("details a", "href")).toBe("guide/COUNT.html");
    await select(page, "Lots!C2");
    expect(await textOf(page)).toMatch(/#VALUE! from .*NeC \(cotton\) or NeW \(worsted\)/);
    await select(page, "Lots!B4");
    expect(await textOf(page)).toContain("Filled by the formula in Lots!B2.");
    await select(page, "Lots!D2");
    expect(await textOf(page)).toMatch(/41\.66.*The sheet shows #NAME\?\. The call is dead/);
    await select(page, "Lots!E2");
    expect(await textOf(page)).toContain("needs 3 rows and 1 column");
    await select(page, "Lots!G2:G3");
    expect(await textOf(page)).toMatch(/2 formulas with COUNT: 1 in error.* G3 #VALUE!/);
    await select(page, "Lots!H2");
    expect(await page.locator("details").count()).toBe(2);
    await select(page, "Lots!I2");
    expect(await textOf(page)).toMatch(/The sheet shows 41\.66.* does not work out MAX;.* COUNT 41\.66/);
    await select(page, "Lots!A2");
    expect(await textOf(page)).toContain("No formula here");
    await select(page, "Lots!A1,Lots!C3");
    expect(await textOf(page)).toContain("Several separate areas are selected");
    expect(await writes(page)).toEqual([]);
    expect(faults()).toEqual([]);
  });

  test("This workbook: dead calls, versions; enters calls again on a click and not before", async () => {
    const { page, faults } = await paneOn();
    await open(page, "This workbook");
    const before = await textOf(page);
    expect(before).toMatch(/10 cells call YARN functions: 8 live, 2 dead\./);
    expect(before).toContain('Lots!D3 =YARN.COUNT(A4,"Nm","tex")');
    expect(before).toMatch(/In Excel's cells 0\.0\.9.*made with 0\.1\.0.*another copy/);
    expect(await writes(page)).toEqual([]);
    await page.getByRole("button", { name: "Enter all 2 again" }).click();
    await page.getByText("2 calls entered again; none shows #NAME? now.").waitFor();
    expect(await writes(page)).toEqual(['Lots!D2 =YARN.COUNT(A2,"Nm","tex")', 'Lots!D3 =YARN.COUNT(A4,"Nm","tex")']);
    expect(await textOf(page)).toContain("10 cells call YARN functions and all are live.");
    expect(faults()).toEqual([]);
  });

  test("This workbook: says what to do where the functions are not loaded, and where a sheet is protected", async () => {
    const { page } = await paneOn({ gives: {} });
    await open(page, "This workbook");
    await page.getByRole("button", { name: "Enter all 2 again" }).click();
    await page.getByText("Home > Add-ins > My Add-ins").waitFor();
    expect(await textOf(page)).toContain("2 still show #NAME?");
    const { page: locked } = await paneOn({ isProtected: ["Lots"] });
    await open(locked, "This workbook");
    await locked.getByRole("button", { name: "Enter all 2 again" }).click();
    await locked.getByText(/Excel refused: Lots!D2: .*protected sheet/).waitFor();
  });

  test("Put in: found by what one calls it, filled from the selection by the keyboard, put in with its heading", async () => {
    const { page, faults } = await paneOn({ selected: "Lots!J2" });
    await open(page, "Put in");
    await page.fill("#wanted", "fineness of yarn");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#argument-value");
    expect(await textOf(page)).toContain("Goes into Lots!J2.");
    await page.getByRole("button", { name: "Put it in" }).click();
    expect(await textOf(page)).toContain("Still needed: value, from, to.");
    await page.evaluate(() => ((globalThis as unknown as { excel: Mock }).excel.state.selected = "Lots!A2:A4"));
    await page.getByRole("button", { name: "Selection for value" }).click();
    await page.fill("#argument-from", "Nm");
    await page.fill("#argument-to", "tex");
    await page.getByText("3 rows, 1 column, 1 in error.").waitFor();
    expect(await page.inputValue("#heading")).toBe("Count, tex");
    expect(await page.locator("#argument-to-words option").count()).toBeGreaterThan(20);
    expect(await writes(page)).toEqual([]);
    await page.getByRole("button", { name: "Put it in" }).click();
    await page.getByText("Lots!J2 now shows 41.6").waitFor();
    expect(await writes(page)).toEqual(['Lots!J2 =YARN.COUNT(A2:A4,"Nm","tex")', "Lots!J1 Count, tex"]);
    await page.getByRole("button", { name: "Put it in" }).click();
    await page.getByText("Not empty: Lots!J2 and Lots!J1.").waitFor();
    expect(await writes(page)).toHaveLength(2);
    expect(faults()).toEqual([]);
  });

  test("works with the oldest requirement sets, and says so where there is no Excel at all", async () => {
    const { page, faults } = await paneOn({ api: "1.1" });
    expect(await textOf(page)).toContain("3 rows, 1 column, 1 in error.");
    await open(page, "This workbook");
    expect(await textOf(page)).toMatch(/8 live, 2 dead.*not noted/);
    await page.getByRole("button", { name: "Read again" }).click();
    expect(faults()).toEqual([]);
    const { page: alone } = await paneOn({ api: "" });
    expect(await alone.innerText("main")).toContain("works beside a sheet in Excel");
  });

  test("says so where Office.js cannot be loaded", async () => {
    const page = await opened.page();
    await page.route(OFFICE, (route) => route.abort());
    await page.goto(`${opened.address}/pane.html`);
    await page.getByText("Office.js could not be loaded").waitFor();
  });

  test("its tabs answer to the arrow keys, and nothing is wider than 320 pixels", async () => {
    const { page } = await paneOn();
    await page.focus("#tab-cell");
    for (const [key, name] of [
      ["ArrowRight", "This workbook"],
      ["ArrowRight", "Put in"],
      ["ArrowRight", "This cell"],
      ["ArrowLeft", "Put in"],
    ]) {
      await page.keyboard.press(key as string);
      await page.waitForFunction(() => document.querySelector("#panel:not([aria-busy])") !== null);
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(name);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    }
  });

  test("no serious fault of accessibility, in the light and in the dark", async () => {
    // The content policy of the page would keep the checker out.
    const unguarded = await opened.browser.newPage({ viewport: SIZE, bypassCSP: true });
    const { page } = await paneOn({}, unguarded);
    for (const name of ["This cell", "This workbook", "Put in"]) {
      await open(page, name);
      if (name === "Put in") {
        await page.fill("#wanted", "count");
        await page.locator(".found button").first().click();
        await page.waitForSelector("#heading");
      }
      expect(serious(await hindrancesOn(page))).toEqual([]);
      expect(serious(await hindrancesInTheDark(page))).toEqual([]);
      await pictured(page, name.replace(" ", "-"), [320]);
    }
    await page.close();
  });
});
