import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, extname, join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { browserMissing, faultsOn, openBrowser, type Opened } from "./support";

const OFFICE_ADDRESS = "https://appsforoffice.microsoft.com/lib/1/hosted/";
const OFFICE_FOLDER = join(
  dirname(createRequire(import.meta.url).resolve("@microsoft/office-js/package.json")),
  "dist",
);

/** How Excel itself tells Office.js where it runs. */
const HOSTS = ["", "Excel$Web$16.01$en-US", "Excel$Mac$16.01$en-US", "Excel$Win32$16.01$en-US"];

describe.skipIf(browserMissing)("under Microsoft's Office.js", () => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await openBrowser();
  });
  afterAll(() => opened?.close());
  const ids = documentedFunctions()
    .map(({ id }) => id)
    .sort();

  /** The same files as at Microsoft's address, from the npm package; anything else is refused and counted. */
  async function under(host: string, file: string, runtime = "own") {
    const page = await opened.page();
    const elsewhere: string[] = [];
    await page.route(/^https?:/, (route) => {
      const url = route.request().url();
      if (url.startsWith(`${opened.address}/`)) return route.continue();
      const own = join(OFFICE_FOLDER, url.slice(OFFICE_ADDRESS.length).replace(/[?#].*$/, ""));
      if (url.startsWith(OFFICE_ADDRESS) && existsSync(own)) {
        const contentType = extname(own) === ".js" ? "text/javascript" : "text/plain";
        return route.fulfill({ body: readFileSync(own), contentType });
      }
      elsewhere.push(url);
      return route.abort();
    });
    if (runtime === "shared") {
      const text = readFileSync("dist/pane.html", "utf8").replace('data-runtime="own"', 'data-runtime="shared"');
      await page.route("**/pane.html*", (route) => route.fulfill({ body: text, contentType: "text/html" }));
    }
    const faults = faultsOn(page, opened.address);
    const asked = host === "" ? "" : `?_host_Info=${encodeURIComponent(host)}`;
    await page.goto(`${opened.address}/${file}${asked}`, { waitUntil: "load" });
    return { page, elsewhere, faults: faults.filter((fault) => !fault.startsWith(`request to ${OFFICE_ADDRESS}`)) };
  }

  const associated = (page: Page) =>
    page.evaluate(() => {
      const { _association } = (globalThis as unknown as OfficeGlobals).CustomFunctions;
      return Object.keys(_association.mappings).sort();
    });
  const breaches = (faults: string[]) =>
    faults.filter((fault) => /content security policy|functions\.js|pane\.js/i.test(fault));

  test.each(HOSTS)(
    "functions.html associates every function, asks nobody else and keeps to its policy (%s)",
    async (host) => {
      const { page, elsewhere, faults } = await under(host, "functions.html");
      expect(await associated(page)).toEqual(ids);
      expect(elsewhere).toEqual([]);
      expect(breaches(faults)).toEqual([]);
      if (host === "") expect(faults).toEqual([]);
    },
  );

  test.each(HOSTS)("pane.html works functions out by itself and leaves Excel's own alone (%s)", async (host) => {
    const { page, elsewhere, faults } = await under(host, "pane.html");
    expect(await associated(page)).toEqual([]);
    if (host === "") await page.getByText("works beside a sheet in Excel").waitFor();
    expect(elsewhere).toEqual([]);
    expect(breaches(faults)).toEqual([]);
  });

  test.each(HOSTS)("pane.html of a shared runtime hands Excel every function (%s)", async (host) => {
    const { page, elsewhere, faults } = await under(host, "pane.html", "shared");
    expect(await associated(page)).toEqual(ids);
    expect(elsewhere).toEqual([]);
    expect(breaches(faults)).toEqual([]);
  });
});

interface OfficeGlobals {
  CustomFunctions: { _association: { mappings: Record<string, unknown> } };
}
