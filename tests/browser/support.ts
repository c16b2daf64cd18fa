import { existsSync, readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import { createRequire } from "node:module";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { chromium, type Browser, type Page } from "playwright-core";
import { serveFolder } from "../../src/build/static.mjs";

/** Named by CHROMIUM, or where systems and installers put one; without windows it starts four times as fast. */
const CHROMIUM = [
  process.env.CHROMIUM,
  ...["chromium-headless-shell", "chromium", "chromium-browser", "google-chrome"].map((name) => `/usr/bin/${name}`),
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
].find((file) => file !== undefined && existsSync(file));

const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const AXE = "/axe.min.js";
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"));

/** Without the browser these tests are left out, but where CI is set they fail. */
export const browserMissing = CHROMIUM === undefined && !process.env.CI;
if (browserMissing) console.warn("no Chromium was found (CHROMIUM names one): the tests in a browser are skipped");

export interface Opened {
  readonly browser: Browser;
  readonly address: string;
  /** A page as if it were new, for one test after the other: to make one takes as long as to open three of the guide. */
  page(size?: Size): Promise<Page>;
  close(): Promise<void>;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const DESK: Size = { width: 1280, height: 720 };

/** What a page still asks for when a test ends is asked in vain. */
const IN_FLIGHT = { behavior: "ignoreErrors" } as const;

/** A browser, and dist served on a free port of this computer. */
export async function openBrowser(): Promise<Opened> {
  const files = serveFolder(resolve("dist"));
  const server: Server = createServer((request, response) => {
    if (request.url !== AXE) return files(request, response);
    // Kept by the browser as it compiled it.
    response.writeHead(200, { "Content-Type": "text/javascript", "Cache-Control": "max-age=3600" }).end(axe);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const browser = await chromium.launch({
    ...(CHROMIUM === undefined ? {} : { executablePath: CHROMIUM }),
    args: FLAGS,
  });
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  let page: Page | undefined;
  return {
    browser,
    async page(size = DESK) {
      page ??= await browser.newPage();
      page.removeAllListeners();
      await page.unrouteAll(IN_FLIGHT);
      // Office.js notes there under which host it was loaded.
      if (page.url().startsWith(address)) await page.evaluate(() => sessionStorage.clear());
      await page.setViewportSize(size);
      return page;
    },
    address,
    async close() {
      await page?.unrouteAll(IN_FLIGHT);
      await browser.close();
      await new Promise((closed) => server.close(closed));
    },
  };
}

/** Everything that goes wrong on a page from now on: errors, warnings, and requests that leave this computer. */
export function faultsOn(page: Page, address: string): string[] {
  const faults: string[] = [];
  page.on("pageerror", (fault) => faults.push(String(fault)));
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) faults.push(message.text());
  });
  page.on("request", (request) => {
    if (!request.url().startsWith(`${address}/`)) faults.push(`request to ${request.url()}`);
  });
  page.on("response", (response) => {
    if (response.status() >= 400) faults.push(`${response.status()} for ${response.url()}`);
  });
  return faults;
}

/** Pictures of a page in a folder named by PICTURES, to be looked at. */
export async function pictured(page: Page, name: string, widths: readonly number[]): Promise<void> {
  const folder = process.env.PICTURES;
  if (folder === undefined) return;
  for (const width of widths) {
    await page.setViewportSize({ width, height: 740 });
    for (const colorScheme of ["dark", "light"] as const) {
      await page.emulateMedia({ colorScheme });
      await page.screenshot({ path: join(folder, `${name}-${width}-${colorScheme}.png`), fullPage: true });
    }
  }
}

interface Hindrance {
  readonly id: string;
  readonly impact: string;
  readonly where: readonly string[];
}

/** What on a page, as it is now, hinders those who do not see, hear or point as others do. */
export async function hindrancesOn(page: Page, within = "html"): Promise<Hindrance[]> {
  return hindrancesOf(page, within, {});
}

/** The same in the dark, whose colours alone are others. */
export async function hindrancesInTheDark(page: Page, within = "html"): Promise<Hindrance[]> {
  await page.emulateMedia({ colorScheme: "dark" });
  const found = await hindrancesOf(page, within, { runOnly: ["color-contrast"] });
  await page.emulateMedia({ colorScheme: "light" });
  return found;
}

async function hindrancesOf(page: Page, within: string, options: { runOnly?: string[] }): Promise<Hindrance[]> {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.addScriptTag({ url: AXE });
  return page.evaluate(
    async ([part, wanted]) => {
      const { axe: runner } = globalThis as unknown as {
        axe: { run(part: string, options: object): Promise<AxeResults> };
      };
      const { violations } = await runner.run(part, { ...wanted, resultTypes: ["violations"] });
      return violations.map(({ id, impact, nodes }) => ({ id, impact, where: nodes.map(({ html }) => html) }));
    },
    [within, options] as const,
  );
}

interface AxeResults {
  readonly violations: readonly { readonly id: string; readonly impact: string; readonly nodes: { html: string }[] }[];
}

/** Those that keep somebody from what the page is for. */
export function serious(hindrances: readonly Hindrance[]): Hindrance[] {
  return hindrances.filter(({ impact }) => impact === "serious" || impact === "critical");
}
