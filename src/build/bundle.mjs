import { resolve } from "node:path";
import webpack from "webpack";
import { buildConstants } from "./constants.mjs";

/** One classic script, ECMAScript 2016, that associates every function and touches nothing else. */
export function bundle(out, documented, version) {
  return packed({
    entry: resolve("src/functions/index.ts"),
    output: { path: resolve(out), filename: "functions.js" },
    plugins: [new webpack.DefinePlugin(buildConstants(documented, version)), ...withOwnGlobals],
  });
}

/**
 * Where a host looks every global name up anew, that costs more than the arithmetic: a column of masses takes twelve
 * times as long. So the script takes what it uses of the language once, as arguments.
 */
const GLOBALS = "Math, Number, NaN, Infinity, String, Array, Object, Map, Set, WeakMap, WeakSet, Error";
const withOwnGlobals = [
  new webpack.BannerPlugin({ raw: true, banner: `(function (${GLOBALS}) {` }),
  new webpack.BannerPlugin({ raw: true, footer: true, banner: `})(${GLOBALS});` }),
];

/** The scripts of the guide's pages: the search of the index, and "try it". */
export function bundlePageScripts(out) {
  return packed({
    entry: { search: resolve("src/guide/page/search.ts"), try: resolve("src/guide/page/try.ts") },
    output: { path: resolve(out), filename: "[name].js" },
  });
}

/** The script of the pane beside the sheet. */
export function bundlePaneScript(out) {
  return packed({ entry: resolve("src/pane/pane.ts"), output: { path: resolve(out), filename: "pane.js" } });
}

function packed(particulars) {
  const compiler = webpack({
    mode: "production",
    target: ["web", "es2016"],
    resolve: { extensions: [".ts", ".js"] },
    // Types are checked by `npm run types`; here they are only stripped.
    module: {
      rules: [
        { test: /\.ts$/, loader: "ts-loader", options: { transpileOnly: true, compilerOptions: { noEmit: false } } },
      ],
    },
    performance: { hints: false },
    ...particulars,
  });
  return new Promise((done, failed) => {
    compiler.run((fault, stats) => {
      compiler.close(() => {
        if (fault) failed(fault);
        else if (stats?.hasErrors()) failed(new Error(stats.toString({ all: false, errors: true })));
        else done(undefined);
      });
    });
  });
}
