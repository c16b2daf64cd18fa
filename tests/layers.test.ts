import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";

/** What stands beside the library and never goes into the bundle: these may use each other, and nothing else uses them. */
const BESIDE: readonly string[] = ["recalculate", "build", "guide"];

/** The folders and what each may import, as the table of DEVELOPERS.md says. */
function layersOf(page: string): Map<string, { readonly may: readonly string[]; readonly typesOnly: boolean }> {
  const layers = new Map<string, { may: string[]; typesOnly: boolean }>();
  const rows = [...page.matchAll(/^\| (`src\/[^|]+) \|[^|]+\| ([^|]+) \|$/gm)];
  const foldersIn = (cell: string) => [...cell.matchAll(/`(?:src\/)?(\w+)`/g)].map(([, folder]) => folder as string);
  const all = rows.flatMap(([, cell]) => foldersIn(cell as string));
  for (const [, folders, allowed] of rows) {
    for (const folder of foldersIn(folders as string)) {
      const own = (allowed as string).startsWith("anything") ? all : foldersIn(allowed as string);
      const may = BESIDE.includes(folder) ? [...own, ...BESIDE] : own;
      layers.set(folder, { may: [folder, ...may], typesOnly: (allowed as string).includes("types only") });
    }
  }
  return layers;
}

interface Import {
  readonly file: string;
  readonly layer: string;
  readonly from: string;
  readonly typesOnly: boolean;
}

const files = readdirSync("src", { recursive: true, encoding: "utf8" })
  .map((file) => file.split("\\").join("/"))
  .filter((file) => /\.(ts|mjs)$/.test(file));

/** Every import and re-export of a file, static and dynamic. */
function importsOf(file: string): Import[] {
  const source = ts.createSourceFile(file, readFileSync(join("src", file), "utf8"), ts.ScriptTarget.Latest, true);
  const found: Import[] = [];
  const add = (literal: ts.Node | undefined, typesOnly: boolean) => {
    if (literal && ts.isStringLiteralLike(literal)) {
      found.push({ file, layer: file.split("/")[0] as string, from: literal.text, typesOnly });
    }
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, typesOnlyClause(node.importClause));
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
      add(node.arguments[0], false);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node.argument.literal, true);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function typesOnlyClause(clause: ts.ImportClause | undefined): boolean {
  if (clause === undefined) return false;
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
  const named = clause.namedBindings;
  return (
    clause.name === undefined &&
    named !== undefined &&
    ts.isNamedImports(named) &&
    named.elements.every((element) => element.isTypeOnly)
  );
}

const layers = layersOf(readFileSync("DEVELOPERS.md", "utf8"));
const imports = files.flatMap(importsOf);
const inside = imports
  .filter(({ from }) => from.startsWith("."))
  .map((one) => ({ ...one, to: posix.join(dirname(one.file), one.from) }));

describe("layers", () => {
  test("the table names every folder of src, and the imports are seen", () => {
    const folders = new Set(files.map((file) => file.split("/")[0] as string));
    expect([...folders].filter((folder) => !layers.has(folder))).toEqual([]);
    expect(layers.get("tables")?.may).toEqual(["tables"]);
    expect(layers.get("trade")?.may).toEqual(["trade", "tables"]);
    expect(inside.length).toBeGreaterThan(30);
  });

  test("imports go downwards only", () => {
    const upward = inside.filter(({ layer, to, typesOnly }) => {
      const target = to.split("/")[0] as string;
      const rule = layers.get(layer);
      return (
        !rule?.may.includes(target) || (rule.typesOnly && !typesOnly && target !== layer && !BESIDE.includes(target))
      );
    });
    expect(upward.map(({ file, from }) => `${file} imports ${from}`)).toEqual([]);
  });

  test("what goes into the bundle imports only runtime dependencies, and each of them from one file", () => {
    const { dependencies } = JSON.parse(readFileSync("package.json", "utf8")) as {
      dependencies: Record<string, string>;
    };
    const bundled = imports.filter(
      ({ layer, from }) => ["functions", "sheet", "trade", "tables"].includes(layer) && !from.startsWith("."),
    );
    expect(bundled.filter(({ from }) => !(from in dependencies)).map(({ file, from }) => `${file}: ${from}`)).toEqual(
      [],
    );
    for (const name of Object.keys(dependencies)) {
      expect(new Set(bundled.filter(({ from }) => from === name).map(({ file }) => file)).size, name).toBe(1);
    }
  });
});
