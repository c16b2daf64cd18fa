import { createHash } from "node:crypto";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { minify } from "@swc/core";
import { build } from "esbuild";
import { ts } from "../documentation/typescript.mjs";
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
      contents: asOlder(readFileSync(path, "utf8")),
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

/** @type {import("esbuild").BuildOptions} */
const SCRIPT = {
  ...{ bundle: true, format: "iife", target: "es2016", minifySyntax: true },
  ...{ plugins: [older, withLicences], legalComments: "linked", logLevel: "silent" },
};

/**
 * Scripts made small by a second program, which leaves 4 % fewer bytes than the packer does. In letters of ASCII: a host
 * may read a script in any alphabet.
 * @param {import("esbuild").BuildOptions} options
 * @param {(script: string) => string} [wrapped]
 */
async function pack(options, wrapped = (script) => script) {
  const { outputFiles = [] } = await build({ ...SCRIPT, ...options, write: false });
  for (const { path, text } of outputFiles) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, path.endsWith(".js") ? wrapped((await minify(text, SMALL)).code) : text);
  }
}

/** @type {import("@swc/core").JsMinifyOptions} */
const SMALL = {
  ...{ ecma: 2016, module: false, compress: { passes: 5, evaluate: false, comparisons: false }, mangle: true },
  format: { asciiOnly: true, comments: "some" },
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
  const options = {
    stdin: { contents: IN_ORDER.map((file) => `import "./src/${file}";`).join(""), resolveDir: "." },
    outfile: `${out}/functions.js`,
    define: buildConstants(documented, version),
  };
  return pack(options, (script) => `!function(${GLOBALS}){${script}\n}(${GLOBALS});\n`);
}

/**
 * What is alike stands together: what unpacks the script on its way looks back 32 kB at the most, so this order, found by
 * trying, spares one part in a hundred.
 */
const IN_ORDER = [
  ...["light-tables", "band-weights", "headings", "regains", "sources"].map((table) => `tables/${table}`),
  ...["twist-conventions", "twist-units", "wool-grades", "yield-kinds"].map((table) => `tables/${table}`),
  ...readdirSync("src/tables")
    .sort()
    .map((file) => `tables/${file}`),
  ...["fold-notation", "designation-writing", "designation-parts", "counts", "designation"].map(
    (file) => `trade/counts/${file}`,
  ),
  ...["calendar", "largest-remainder", "proportion", "rounding", "blending/stock-plan", "quality/lots-differ"].map(
    (file) => `trade/${file}`,
  ),
  ...["functions/shade", "functions/index"],
];

/**
 * Where a host looks every global name up anew, that costs more than the arithmetic: a column of masses takes twelve
 * times as long. So the script takes what it uses of the language once, as arguments; under their own names, which pack
 * better than letters.
 */
const GLOBALS = "Math,Number,String,Array,Object,Map,Set,WeakMap,WeakSet,Error,Float64Array,Int32Array,Uint8Array";

/**
 * The scripts of the guide's pages: the search of the index, "try it", the form of the first opening, and recalculation with its worker.
 * @param {string} out
 * @param {string} version
 */
export async function bundlePageScripts(out, version) {
  const scripts = ["search", "try", "first-opening", "recalculate"].map((name) => `src/guide/page/${name}.ts`);
  await pack({ entryPoints: scripts, outdir: out });
  await build({
    ...SCRIPT,
    minify: true,
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
  return pack({ entryPoints: ["src/pane/pane.ts"], outdir: out });
}
