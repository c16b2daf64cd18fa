import { mkdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import ts from "typescript";
import { documentedFunctions } from "../documentation/docblocks.mjs";
import { buildConstants } from "./constants.mjs";

/** What Excel's runtime without a browser understands. */
const TARGET = { target: ts.ScriptTarget.ES2016, module: ts.ModuleKind.ESNext };

/**
 * TypeScript writes the newer forms as the language of 2016 has them; the packer's own forms of them call for methods
 * of 2017. Types are checked by `npm run types`; here they are stripped.
 */
const older = {
  name: "older",
  setup({ onLoad }) {
    onLoad({ filter: /\.ts$/ }, ({ path }) => {
      const { outputText } = ts.transpileModule(readFileSync(path, "utf8"), { compilerOptions: TARGET });
      return { contents: outputText, loader: "js" };
    });
  },
};

const SCRIPT = {
  ...{ bundle: true, minify: true, format: "iife", target: "es2016" },
  ...{ plugins: [older], legalComments: "linked", logLevel: "silent" },
};

/** Brings functions.js in dist up to date, unless an example does not come out. */
export async function bundleInPlace() {
  const documented = documentedFunctions();
  const { version } = JSON.parse(readFileSync("package.json", "utf8"));
  const fresh = ".dist-functions";
  await bundle(fresh, documented, version);
  const { exampleFaults } = await import(pathToFileURL("lib/build/examples.mjs").href);
  const faults = exampleFaults(readFileSync(`${fresh}/functions.js`, "utf8"), documented);
  if (faults.length > 0) throw new Error(`functions.js is not replaced:\n  ${faults.join("\n  ")}`);
  mkdirSync("dist", { recursive: true });
  renameSync(`${fresh}/functions.js`, "dist/functions.js");
  rmSync(fresh, { recursive: true });
}

/** One classic script, ECMAScript 2016, that associates every function and touches nothing else. */
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
const GLOBALS = "Math, Number, NaN, Infinity, String, Array, Object, Map, Set, WeakMap, WeakSet, Error";

/** The scripts of the guide's pages: the search of the index, "try it", and the form of the first opening. */
export function bundlePageScripts(out) {
  const entryPoints = ["search", "try", "first-opening"].map((name) => `src/guide/page/${name}.ts`);
  return build({ ...SCRIPT, entryPoints, outdir: out });
}

/** The script of the pane beside the sheet. */
export function bundlePaneScript(out) {
  return build({ ...SCRIPT, entryPoints: ["src/pane/pane.ts"], outdir: out });
}
