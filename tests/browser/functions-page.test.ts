import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, extname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { browserMissing, faultsOn, openBrowser, type Opened } from "./support";

const OFFICE_ADDRESS = "https://appsforoffice.microsoft.com/lib/1/hosted/";
const OFFICE_FOLDER = join(
  dirname(createRequire(import.meta.url).resolve("@microsoft/office-js/package.json")),
  "dist",
);

describe.skipIf(browserMissing)("the page that loads the functions, with Microsoft's Office.js", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  });
  afterAll(() => opened?.close());

  test("loads outside Excel without an error, associates every function, and asks nobody else", async () => {
    const page = await opened.browser.newPage();
    const elsewhere: string[] = [];
    // The same files as at Microsoft's address, from the npm package; anything else is refused and counted.
    await page.route(/^https?:/, (route) => {
      const url = route.request().url();
      if (url.startsWith(`${opened.address}/`)) return route.continue();
      const file = join(OFFICE_FOLDER, url.slice(OFFICE_ADDRESS.length).replace(/[?#].*$/, ""));
      if (url.startsWith(OFFICE_ADDRESS) && existsSync(file)) {
        const contentType = extname(file) === ".js" ? "text/javascript" : "text/plain";
        return route.fulfill({ body: readFileSync(file), contentType });
      }
      elsewhere.push(url);
      return route.abort();
    });
    const faults = faultsOn(page, opened.address);
    await page.goto(`${opened.address}/functions.html`, { waitUntil: "load" });
    await page.waitForFunction(() => "CustomFunctions" in globalThis);

    const associated = await page.evaluate(() => {
      const runtime = (globalThis as unknown as OfficeGlobals).CustomFunctions;
      return Object.keys(runtime._association.mappings);
    });
    expect(associated.sort()).toEqual(
      documentedFunctions()
        .map(({ id }) => id)
        .sort(),
    );
    expect(elsewhere).toEqual([]);
    expect(faults.filter((fault) => !fault.startsWith(`request to ${OFFICE_ADDRESS}`))).toEqual([]);
    await page.close();
  });
});

interface OfficeGlobals {
  CustomFunctions: { _association: { mappings: Record<string, unknown> } };
}
