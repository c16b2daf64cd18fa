import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as settings from "office-addin-dev-settings";
import { validateManifest } from "office-addin-manifest";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { hindrance, load, unload } from "../../src/build/sideload.mjs";

/** The tools themselves, on a computer that says it is a Mac, with a home of its own; only Excel is not started. */
describe("sideloading on a Mac", () => {
  const before = { platform: process.platform, home: process.env.HOME };
  let home: string;
  let manifest: string;
  let wef: string;
  beforeEach(() => {
    home = mkdtempSync(join(tmpdir(), "home-"));
    wef = join(home, "Library/Containers/com.microsoft.Excel/Data/Documents/wef");
    for (const file of ["manifest.xml", "manifest.json"]) cpSync(join("dist", file), join(home, file));
    manifest = join(home, "manifest.xml");
    process.env.HOME = home;
    Object.defineProperty(process, "platform", { value: "darwin" });
  });
  afterEach(() => {
    Object.defineProperty(process, "platform", { value: before.platform });
    if (before.home === undefined) delete process.env.HOME;
    else process.env.HOME = before.home;
    rmSync(home, { recursive: true });
  });

  /** What sideloadAddIn does before it opens a workbook with the add-in in it. */
  const opened: string[] = [];
  const tools = {
    sideloadAddIn: async (file: string, app: string) => {
      await settings.registerAddIn(file);
      opened.push(app);
    },
  };

  test("puts the manifest where Excel looks for it, and takes it out again", async () => {
    await load(tools, validateManifest, manifest);
    const id = /<Id>(.*?)<\/Id>/.exec(readFileSync(manifest, "utf8"))?.[1];
    expect(readdirSync(wef)).toEqual([`${id}.manifest.xml`]);
    expect(readFileSync(join(wef, `${id}.manifest.xml`), "utf8")).toBe(readFileSync(manifest, "utf8"));
    expect(opened).toEqual(["excel"]);
    await unload(settings, manifest);
    expect(readdirSync(wef)).toEqual([]);
    expect(existsSync(manifest)).toBe(true);
  });

  test("loads no manifest that its maker's check refuses", async () => {
    const file = join(home, "manifest.json");
    writeFileSync(file, readFileSync(file, "utf8").replace('"type": "openPage"', '"type": "openDoor"'));
    await expect(load(tools, validateManifest, manifest)).rejects.toThrow(/Invalid value[^]*openDoor/);
    expect(existsSync(wef)).toBe(false);
  });
});

test("the tools have what is asked of them", () => {
  expect(typeof settings.sideloadAddIn).toBe("function");
  expect(typeof settings.unregisterAddIn).toBe("function");
  // The name by which sideloadAddIn knows Excel.
  expect(readFileSync("node_modules/office-addin-manifest/lib/officeApp.js", "utf8")).toContain(
    'OfficeApp["Excel"] = "excel"',
  );
});

describe("where there is no Excel for the desktop", () => {
  test("it is said what to do instead", () => {
    expect([hindrance("win32"), hindrance("darwin")]).toEqual([undefined, undefined]);
    expect(hindrance("linux")).toMatch(/Upload My Add-in, and choose dist\/manifest\.xml/);
  });

  test.runIf(process.platform === "linux")("the command ends at once and starts nothing", () => {
    const { status, stderr } = spawnSync(process.execPath, ["src/build/sideload.mjs"], { encoding: "utf8" });
    expect([status, stderr]).toEqual([1, expect.stringContaining("Excel on the web")]);
  });
});

test("npm run validate works without the network", () => {
  const { status, stdout } = spawnSync("npm", ["run", "-s", "validate"], {
    encoding: "utf8",
    shell: process.platform === "win32",
  });
  expect([status, stdout.trim()]).toEqual([0, "The manifests are valid."]);
});
