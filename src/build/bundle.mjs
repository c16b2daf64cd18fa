import { createHash } from "node:crypto";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import ts from "typescript";
import { documentedFunctions } from "../documentation/docblocks.mjs";
import { buildConstants } from "./constants.mjs";
import { withLicences } from "./with-licences.mjs";

/** What Excel's runtime without a browser understands. */
const TARGET = { target: ts.ScriptTarget.ES2016, module: ts.ModuleKind.ESNext };

/**
 * TypeScript writes the newer forms as the language of 2016 has them; the packer's own forms of them call for methods
 * of 2017. Types are checked by `npm run types`; here they are stripped.
 * @type {import("esbuild").Plugin}
 */
const older = {
  name: "older",
  setup({ onLoad }) {
    onLoad({ filter: /\.ts$/ }, ({ path }) => ({
      contents: shorter(asOlder(readFileSync(path, "utf8"))),
      loader: "js",
    }));
  },
};

/** Where the older forms are kept, each under what it was made from: writing them takes a third of a build. */
const KEPT = "node_modules/.cache/older";

/** @param {string} text */
function asOlder(text) {
  const digest = createHash("sha256")
    .update(JSON.stringify([ts.version, TARGET, text]))
    .digest("hex");
  const kept = join(KEPT, `${digest}.js`);
  if (existsSync(kept)) return readFileSync(kept, "utf8");
  const { outputText } = ts.transpileModule(text, { compilerOptions: TARGET });
  mkdirSync(KEPT, { recursive: true });
  // Whole or not at all, whatever else is building.
  writeFileSync(`${kept}.${process.pid}`, outputText);
  renameSync(`${kept}.${process.pid}`, kept);
  return outputText;
}

/**
 * TypeScript asks for null and undefined one after the other where `??` and `?.` stood; one question does.
 * @param {string} text
 */
function shorter(text) {
  return text.replace(/ !== null && \w+ !== void 0/g, " != null").replace(/ === null \|\| \w+ === void 0/g, " == null");
}

/** @type {import("esbuild").BuildOptions} */
const SCRIPT = {
  ...{ bundle: true, minify: true, format: "iife", target: "es2016" },
  ...{ plugins: [older, withLicences], legalComments: "linked", logLevel: "silent" },
};

/** Brings functions.js in dist up to date, unless an example does not come out. */
export async function bundleInPlace() {
  const documented = documentedFunctions();
  const { version } = JSON.parse(readFileSync("package.json", "utf8"));
  const fresh = mkdtempSync(".dist-functions-");
  try {
    await bundle(fresh, documented, version);
    const { exampleFaults } = await import(pathToFileURL("lib/build/examples.mjs").href);
    const faults = exampleFaults(readFileSync(`${fresh}/functions.js`, "utf8"), documented);
    if (faults.length > 0) throw new Error(`functions.js is not replaced:\n  ${faults.join("\n  ")}`);
    mkdirSync("dist", { recursive: true });
    renameSync(`${fresh}/functions.js`, "dist/functions.js");
  } finally {
    rmSync(fresh, { recursive: true });
  }
}

/**
 * One classic script, ECMAScript 2016, that associates every function and touches nothing else.
 * @param {string} out
 * @param {import("../documentation/docblocks.mjs").DocumentedFunction[]} documented
 * @param {string} version
 */
export function bundle(out, documented, version) {
  return build({
    ...SCRIPT,
    entryPoints: ["src/functions/index.ts"],
    outfile: `${out}/functions.js`,
    define: buildConstants(documented, version),
    banner: { js: `(function (${GLOBALS}) {` },
    footer: { js: `})(${GLOBALS});` },
  });
}

/**
 * Where a host looks every global name up anew, that costs more than the arithmetic: a column of masses takes twelve
 * times as long. So the script takes what it uses of the language once, as arguments.
 */
const GLOBALS =
  "Math, Number, NaN, Infinity, String, Array, Object, Map, Set, WeakMap, WeakSet, Error, Float64Array, Int32Array, Uint8Array";

/**
 * The scripts of the guide's pages: the search of the index, "try it", the form of the first opening, and recalculation with its worker.
 * @param {string} out
 * @param {string} version
 */
export async function bundlePageScripts(out, version) {
  const scripts = ["search", "try", "first-opening", "recalculate"].map((name) => `src/guide/page/${name}.ts`);
  await build({ ...SCRIPT, entryPoints: scripts, outdir: out });
  await build({
    ...SCRIPT,
    target: "es2022",
    entryPoints: ["src/guide/page/recalculate-worker.ts"],
    outdir: out,
    // The engine as the commands have it, not its form for browsers, so that the results are the same.
    platform: "neutral",
    mainFields: ["module", "main"],
    plugins: [inWorker, withLicences],
    define: {
      LIBRARY_VERSION: JSON.stringify(version),
      // Where the sources stand on the machine that builds is nobody's business.
      "import.meta.url": JSON.stringify("file:///"),
    },
  });
}

/**
 * What the commands' code finds in a page in the place of Node.
 * @type {import("esbuild").Plugin}
 */
const inWorker = {
  name: "in-worker",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:/ }, () => ({ path: resolve("src/guide/page/node-in-page.ts") }));
    onResolve({ filter: /^\.\/children$/ }, () => ({ path: resolve("src/guide/page/in-this-worker.ts") }));
    // A report as a workbook is for the command: its writer is larger than all the rest.
    onResolve({ filter: /^\.\/workbook$/ }, () => ({ path: "workbook", namespace: "left-out" }));
    onLoad({ filter: /.*/, namespace: "left-out" }, () => ({ contents: "" }));
  },
};

/**
 * The script of the pane beside the sheet.
 * @param {string} out
 */
export function bundlePaneScript(out) {
  return build({ ...SCRIPT, entryPoints: ["src/pane/pane.ts"], outdir: out });
}
