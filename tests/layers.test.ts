import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { BUNDLED } from "../src/build/licences.mjs";

/** The folders and what each may import, itself apart, as the table of DEVELOPERS.md says. */
function layersOf(page: string): Map<string, readonly string[]> {
  const rows = page.matchAll(/^\| `src\/(\w+)` \|[^|]+\| ([^|]+) \|$/gm);
  return new Map(
    [...rows].map(([, folder, allowed]) => [
      folder as string,
      [...(allowed as string).matchAll(/`(\w+)`/g)].map(([, name]) => name as string),
    ]),
  );
}

interface Import {
  readonly file: string;
  readonly layer: string;
  readonly from: string;
}

const files = readdirSync("src", { recursive: true, encoding: "utf8" })
  .map((file) => file.split("\\").join("/"))
  .filter((file) => /\.(ts|mjs)$/.test(file));

/** Every import and re-export of a file, static and dynamic, and by `tsImport(…)`, by which the build loads TypeScript. */
function importsOf(file: string): Import[] {
  const text = readFileSync(join("src", file), "utf8").replace(/\btsImport\(/g, "import(");
  const { importedFiles } = ts.preProcessFile(text);
  return importedFiles.map(({ fileName }) => ({ file, layer: file.split("/")[0] as string, from: fileName }));
}

const layers = layersOf(readFileSync("DEVELOPERS.md", "utf8"));
const imports = files.flatMap(importsOf);
const inside = imports
  .filter(({ from }) => from.startsWith("."))
  .map((one) => ({ ...one, to: posix.join(dirname(one.file), one.from) }));

describe("layers", () => {
  test("the table names every folder of src, and the imports are seen", () => {
    const folders = new Set(files.map((file) => file.split("/")[0] as string));
    expect([...layers.keys()].sort()).toEqual([...folders].sort());
    expect(layers.get("trade")).toEqual(["tables"]);
    expect(inside.length).toBeGreaterThan(30);
  });

  test("the table allows imports from what stands below only", () => {
    const order = [...layers.keys()];
    for (const [folder, may] of layers)
      for (const other of may)
        expect(order.indexOf(other), `${folder}, ${other}`).toBeGreaterThan(order.indexOf(folder));
  });

  test("every import is one that the table allows, and what it allows is used", () => {
    const across = inside
      .map(({ file, layer, to }) => ({ file, layer, target: to.split("/")[0] as string }))
      .filter(({ layer, target }) => target !== layer);
    const upward = across.filter(({ layer, target }) => !layers.get(layer)?.includes(target));
    expect(upward.map(({ file, target }) => `${file} imports ${target}`)).toEqual([]);
    const used = new Set(across.map(({ layer, target }) => `${layer} ${target}`));
    const allowed = [...layers].flatMap(([layer, may]) => may.map((target) => `${layer} ${target}`));
    expect(allowed.filter((pair) => !used.has(pair))).toEqual([]);
  });

  test("what goes into the bundle imports only the packages that are said to be in it, and each of them from one file", () => {
    const bundled = imports.filter(
      ({ layer, from }) => ["functions", "sheet", "trade", "tables"].includes(layer) && !from.startsWith("."),
    );
    expect(bundled.filter(({ from }) => !BUNDLED.includes(from)).map(({ file, from }) => `${file}: ${from}`)).toEqual(
      [],
    );
    for (const name of BUNDLED) {
      expect(new Set(bundled.filter(({ from }) => from === name).map(({ file }) => file)).size, name).toBe(1);
    }
  });

  test("trade tells places by list and index; rows and items are the worksheet's words", () => {
    const texts = files
      .filter((file) => file.startsWith("trade/"))
      .flatMap((file) => [...readFileSync(join("src", file), "utf8").matchAll(/["`].*\b(row|item|column) [\d$].*/g)]);
    expect(texts.map(([line]) => line)).toEqual([]);
  });

  test("each room of trade hands on every file of it", () => {
    const rooms = files.filter((file) => /^trade\/\w+\/(?!index)[\w-]+\.ts$/.test(file));
    expect(rooms.length).toBeGreaterThan(80);
    const missing = rooms.filter((file) => {
      const index = readFileSync(join("src", dirname(file), "index.ts"), "utf8");
      return !index.includes(`"./${posix.basename(file, ".ts")}"`);
    });
    expect(missing).toEqual([]);
  });

  test("every file of trade has a test of its name in the same room, and every test a file; an aspect may follow it", () => {
    const named = (files: readonly string[], end: RegExp) =>
      files.filter((file) => end.test(file)).map((file) => file.replace(end, ""));
    const calculations = named(
      files.filter((file) => file.startsWith("trade/") && !file.endsWith("/index.ts")),
      /\.ts$/,
    );
    const tests = named(
      readdirSync("tests/trade", { recursive: true }).map((file) =>
        posix.join("trade", String(file).replace(/\\/g, "/")),
      ),
      /(\.[\w-]+)?\.test\.ts$/,
    );
    expect(calculations.length).toBeGreaterThan(120);
    expect(calculations.filter((file) => !tests.includes(file))).toEqual([]);
    expect(tests.filter((file) => !calculations.includes(file))).toEqual([]);
  });
});
