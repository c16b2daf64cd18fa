import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "acorn";
import { strFromU8, unzipSync } from "fflate";
import { afterAll, describe, expect, test } from "vitest";
import { writeExtension } from "../../src/extension/extension.mjs";
import { decoded, elements, firstElement } from "../../src/recalculate/xml";

const files = unzipSync(readFileSync("dist/yarn.oxt"));
const textOf = (name: string) => strFromU8(files[name] as Uint8Array);
const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  functions: {
    id: string;
    description: string;
    parameters: { name: string; description: string; optional?: boolean }[];
  }[];
};

const folder = mkdtempSync(join(tmpdir(), "extension-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The value of a named property of a node of the configuration. */
function propertyOf(node: string, name: string): string | undefined {
  const found = [...elements(node, "prop")].find(({ attributes }) => attributes["oor:name"] === name);
  return found && decoded(firstElement(found.inner, "value")?.inner ?? "");
}

describe("the extension for LibreOffice Calc", () => {
  test("holds every file that its manifest names, and the same functions.js as the add-in", () => {
    const named = [...elements(textOf("META-INF/manifest.xml"), "manifest:file-entry")];
    expect(named.map(({ attributes }) => attributes["manifest:full-path"])).toHaveLength(3);
    for (const { attributes } of named) expect(Object.keys(files)).toContain(attributes["manifest:full-path"]);
    expect(textOf("functions.js")).toBe(readFileSync("dist/functions.js", "utf8"));
    const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
    expect(firstElement(textOf("description.xml"), "version")?.attributes.value).toBe(version);
  });

  test("tells the function wizard what functions.json says", () => {
    const configuration = textOf("CalcAddIns.xcu");
    for (const { id, description, parameters } of functions) {
      const from = configuration.indexOf(`<node oor:name="${id.toLowerCase()}" `);
      const node = configuration.slice(from, configuration.indexOf("</node>\n</node>", from));
      expect(propertyOf(node, "DisplayName"), id).toBe(`YARN.${id}`);
      expect(propertyOf(node, "Description"), id).toBe(description);
      const told = [...node.slice(node.indexOf("Parameters")).matchAll(/<node oor:name="argument\d+".*?<\/node>/g)];
      expect(
        told.map(([one]) => [propertyOf(one, "DisplayName"), propertyOf(one, "Description")]),
        id,
      ).toEqual(
        parameters.map(({ name, description, optional }) => [name, optional ? description : `Needed. ${description}`]),
      );
    }
  });

  test("is the same bytes from build to build", () => {
    for (const name of ["functions.json", "functions.js", "functions.js.LEGAL.txt"])
      writeFileSync(join(folder, name), readFileSync(join("dist", name)));
    cpSync("dist/icons", join(folder, "icons"), { recursive: true });
    const packageFile = JSON.parse(readFileSync("package.json", "utf8")) as {
      version: string;
      engines: { node: string };
    };
    writeExtension(folder, packageFile);
    expect(readFileSync(join(folder, "yarn.oxt")).equals(readFileSync("dist/yarn.oxt"))).toBe(true);
  });

  test("has a process that the oldest Node can read, so that it can say that it is too old", () => {
    expect(() => parse(textOf("calculator.cjs"), { ecmaVersion: 5 })).not.toThrow();
    expect(() => parse("const later = 1;", { ecmaVersion: 5 })).toThrow();
  });

  test("has a process that answers line by line, whatever it is asked, and ends with its input", async () => {
    for (const name of ["calculator.cjs", "functions.js"]) writeFileSync(join(folder, name), files[name] as Uint8Array);
    const child = spawn(process.execPath, [join(folder, "calculator.cjs")], { stdio: ["pipe", "pipe", "inherit"] });
    let out = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    const asked = [
      ["COUNT", [24, "Nm", "tex"]],
      ["COUNT", [[[24], [-1], [null]], "Nm", "tex"]],
      ["NONSENSE", []],
      ["VERSION", []],
    ].map((one) => `${JSON.stringify(one)}\n`);
    // A line may arrive in pieces, and several at once.
    child.stdin.write((asked[0] as string).slice(0, 9));
    setTimeout(() => child.stdin.end((asked[0] as string).slice(9) + asked.slice(1).join("")), 50);
    expect(await new Promise((ended) => child.on("close", ended))).toBe(0);
    const [version, one, column, nonsense, last, ...more] = out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as unknown);
    expect(version).toBe(process.version);
    expect(one).toEqual([[expect.closeTo(1000 / 24, 12)]]);
    expect(column).toEqual([
      [expect.closeTo(1000 / 24, 12)],
      [["#VALUE!", "value is -1; must be a number above 0"]],
      [""],
    ]);
    expect(nonsense).toEqual([[["#VALUE!", expect.stringMatching(/./)]]]);
    expect(last).toHaveLength(1);
    expect(more).toEqual([]);
  });
});
