import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
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

test("without a usable address nothing is built", async () => {
  const { status, stderr } = spawnSync(process.execPath, ["src/build/build.mjs", "--origin"], { encoding: "utf8" });
  expect([status, stderr]).toEqual([1, expect.stringMatching(/^the origin is [^\n]+\n$/)]);
  for (const origin of ["functions.example", "http://functions.example"])
    await expect(build({ origin })).rejects.toThrow(/^the origin is [^\n]+$/);
});

test("addresses that differ have folders that differ, and only that of this computer is dist", () => {
  const addresses = ["https://localhost:3000", "https://localhost:3001", "https://a.example", "https://a.example/yarn"];
  expect(addresses.map(folderFor)).toEqual(["dist", "dist-localhost-3001", "dist-a.example", "dist-a.example-yarn"]);
  expect(folderFor("https://localhost:3000/")).toBe("dist");
});
