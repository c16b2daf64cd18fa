import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { areInstalled } from "../../src/build/install.mjs";

type Packages = Record<string, { version?: string; integrity?: string; optional?: boolean; dev?: boolean }>;

const lock: Packages = {
  "": { version: "0.1.0" },
  "node_modules/a": { version: "1.0.0", integrity: "sha512-a" },
  "node_modules/b": { version: "2.0.0", integrity: "sha512-b", optional: true },
  "node_modules/test": { version: "3.0.0", integrity: "sha512-t", dev: true },
};
const without = (...names: string[]): Packages =>
  Object.fromEntries(Object.entries(lock).filter(([name]) => !names.includes(name)));
/** As npm records it: all but the project itself. */
const installed = without("");

describe("the packages that are installed", () => {
  test("here are those of the lock file, as npm itself has recorded them", () => {
    const packagesOf = (file: string) => (JSON.parse(readFileSync(file, "utf8")) as { packages: Packages }).packages;
    expect(
      areInstalled(packagesOf("package-lock.json"), packagesOf("node_modules/.package-lock.json"), { all: true }),
    ).toBe(true);
  });

  test.each<[string, Packages, boolean]>([
    ["the same", installed, true],
    ["lacking an optional one", without("", "node_modules/b"), true],
    ["lacking one", without("", "node_modules/a"), false],
    ["one in another version", { ...installed, "node_modules/a": { version: "1.0.1", integrity: "sha512-a" } }, false],
    ["one of other content", { ...installed, "node_modules/a": { version: "1.0.0", integrity: "sha512-x" } }, false],
    ["one too many", { ...installed, "node_modules/c": { version: "1.0.0", integrity: "sha512-c" } }, false],
  ])("%s", (_, found, same) => expect(areInstalled(lock, found, { all: true })).toBe(same));
});

test("a command needs no package that only tests", () => {
  const light = without("", "node_modules/test");
  expect(areInstalled(lock, light, { all: false })).toBe(true);
  expect(areInstalled(lock, light, { all: true })).toBe(false);
  expect(areInstalled(lock, without("", "node_modules/a"), { all: false })).toBe(false);
});

describe.skipIf(process.platform === "win32")("installing", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "install-"));
    mkdirSync(join(folder, "node_modules"));
    mkdirSync(join(folder, "bin"));
    // In the place of npm, a command that notes how it was called.
    writeFileSync(join(folder, "bin", "npm"), '#!/bin/sh\necho "$@" >> called.txt\nexit ${NPM_STATUS:-0}\n', {
      mode: 0o755,
    });
    writeFileSync(join(folder, "package-lock.json"), JSON.stringify({ packages: lock }));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  function install(
    found: string | undefined,
    { status = "0", all = true } = {},
  ): { calls: string; status: number | null } {
    if (found !== undefined) writeFileSync(join(folder, "node_modules", ".package-lock.json"), found);
    const script = `import(${JSON.stringify(pathToFileURL(resolve("src/build/install.mjs")).href)}).then((m) => m.installPackages({ all: ${all} }))`;
    const result = spawnSync(process.execPath, ["-e", script], {
      cwd: folder,
      env: { ...process.env, PATH: join(folder, "bin") + delimiter + (process.env.PATH ?? ""), NPM_STATUS: status },
    });
    let calls = "";
    try {
      calls = readFileSync(join(folder, "called.txt"), "utf8");
    } catch {
      // Nothing was called.
    }
    return { calls, status: result.status };
  }

  test("does nothing where all is there", () =>
    expect(install(JSON.stringify({ packages: installed }))).toEqual({ calls: "", status: 0 }));

  test.each([
    ["nothing is there", undefined],
    ["the lock file has changed", JSON.stringify({ packages: without("", "node_modules/a") })],
    ["the record is damaged", "{"],
  ])("takes the lock file's packages, those for development too, where %s", (_, found) => {
    const { calls, status } = install(found);
    expect(calls).toMatch(/^ci --include=dev [^\n]*\n$/);
    expect(status).toBe(0);
  });

  test("takes no more for a command than it needs, and leaves there what was there for tests", () => {
    const light = JSON.stringify({ packages: without("", "node_modules/test") });
    expect(install(undefined, { all: false }).calls).toMatch(/^ci --omit=dev [^\n]*\n$/);
    expect(install(light, { all: false }).calls).not.toContain("include");
    const changed = JSON.stringify({ packages: without("", "node_modules/a") });
    expect(install(changed, { all: false }).calls).toMatch(/ci --include=dev [^\n]*\n$/);
  });

  test("passes a failure on", () => expect(install(undefined, { status: "3" }).status).toBe(3));
});
