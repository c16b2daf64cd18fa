import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { folderFor } from "../../src/build/addresses.mjs";
import { build } from "../../src/build/build.mjs";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { exampleFaults } from "../../src/build/examples";

describe("the examples hold a bundle back", () => {
  const bundle = readFileSync("dist/functions.js", "utf8");
  const documented = documentedFunctions();
  const faultsWith = (body: string) =>
    exampleFaults(`${bundle}\n;CustomFunctions.associate("COUNT", function () { ${body} });`, documented);

  test("not a sound one", () => expect(exampleFaults(bundle, documented)).toEqual([]));

  test.each([
    ["another result", "return [[16]];", 'YARN.COUNT(10,"NeC","NeW") gives 16, not 15'],
    ["another shape", "return [[15, 15]];", 'YARN.COUNT(10,"NeC","NeW") gives 15,15, not 15'],
    ["a number as text", 'return [["15"]];', 'YARN.COUNT(10,"NeC","NeW") gives "15", not 15'],
    [
      "an internal fault",
      'throw new CustomFunctions.Error("#VALUE!", "internal fault: x");',
      "gives #VALUE! internal fault: x, not 15",
    ],
    ["what is no error of a cell", "return undefinedName;", "undefinedName is not defined"],
  ])("one with %s", (_, body, fault) => expect(faultsWith(body).join("\n")).toContain(fault));

  test("one that lacks a function, needs more than the language, or does not load", () => {
    const lacking = bundle.replace(/\.associate\(/, '.associate("X"+');
    expect(exampleFaults(lacking, documented).join("\n")).toContain("is not in the bundle");
    expect(exampleFaults(`setTimeout(function () {});${bundle}`, documented)).toEqual([
      expect.stringContaining("setTimeout is not defined"),
    ]);
    expect(exampleFaults(bundle.slice(0, 5000), documented)).toEqual([expect.stringContaining("does not load")]);
  });
});

describe("a build", () => {
  const folders = ["dist", "dist-functions.example"];
  let copy: string;
  beforeAll(() => {
    copy = mkdtempSync(join(tmpdir(), "build-"));
    for (const name of ["src", "manifest", "sample-workbooks", "package.json", "LICENSE", "tsconfig.json"])
      cpSync(name, join(copy, name), { recursive: true });
    symlinkSync(resolve("node_modules"), join(copy, "node_modules"), "junction");
    for (const folder of folders) {
      mkdirSync(join(copy, folder));
      writeFileSync(join(copy, folder, "before.txt"), "what was there before");
    }
  });
  afterAll(() => rmSync(copy, { recursive: true }));

  const built = (...words: string[]) =>
    spawnSync(process.execPath, ["src/build/build.mjs", ...words], { cwd: copy, encoding: "utf8" });

  test("of a broken function stops and leaves what was there", () => {
    const declaration = join(copy, "src/functions/count.ts");
    const sound = readFileSync(declaration, "utf8");
    const right = 'counting.convertCount(counting.expectNoDate("value", number, system), system, wanted)';
    expect(sound).toContain(right);
    writeFileSync(declaration, sound.replace(right, "[number, system, wanted][0] as number"));
    const { status, stderr } = built("--origin", "https://functions.example");
    expect(status).toBe(1);
    expect(stderr).toContain('YARN.COUNT(10,"NeC","NeW") gives 10, not 15');
    for (const folder of folders)
      expect(readFileSync(join(copy, folder, "before.txt"), "utf8")).toBe("what was there before");
    // Nor is anything left beside.
    expect(
      readdirSync(copy)
        .filter((name) => /^\.?dist/.test(name))
        .sort(),
    ).toEqual(folders);
  });

  test("without a usable address stops", async () => {
    const { status, stderr } = built("--origin");
    expect([status, stderr]).toEqual([1, expect.stringMatching(/^the origin is [^\n]+\n$/)]);
    for (const origin of ["functions.example", "http://functions.example"])
      await expect(build({ origin })).rejects.toThrow(/^the origin is [^\n]+$/);
  });
});

test("addresses that differ have folders that differ, and only that of this computer is dist", () => {
  const addresses = ["https://localhost:3000", "https://localhost:3001", "https://a.example", "https://a.example/yarn"];
  expect(addresses.map(folderFor)).toEqual(["dist", "dist-localhost-3001", "dist-a.example", "dist-a.example-yarn"]);
  expect(folderFor("https://localhost:3000/")).toBe("dist");
});
