import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { BUNDLE_FROM, COMMANDS_FROM, DIST_FROM } from "./built-from.mjs";
import { installPackages } from "./install.mjs";

/** Makes the commands ready: installs what they need, compiles them and packs the functions, where out of date. */
export async function prepareCommands() {
  installPackages({ all: false });
  if (!newer("lib/recalculate/calc.mjs", COMMANDS_FROM)) await (await import("./commands.mjs")).compileCommands();
  if (!newer("dist/functions.js", BUNDLE_FROM)) await (await import("./bundle.mjs")).bundleInPlace();
}

/** Makes ready whatever tests, measures or is shown: every package, all of dist, and the commands. */
export async function prepare() {
  installPackages({ all: true });
  if (!newer("lib/recalculate/calc.mjs", COMMANDS_FROM)) await (await import("./commands.mjs")).compileCommands();
  // Of all that is in dist, a command brings functions.js alone up to date.
  if (!newer("dist/functions.json", DIST_FROM)) await (await import("./build.mjs")).build();
}

/**
 * Is a file newer than everything it is made from?
 * @param {string} file
 * @param {string[]} madeFrom
 */
function newer(file, madeFrom) {
  return newest(madeFrom) < (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0);
}

/** @param {string[]} paths @returns {number} */
function newest(paths) {
  let latest = 0;
  for (const path of paths) {
    const found = statSync(path);
    latest = Math.max(
      latest,
      found.isDirectory() ? newest(readdirSync(path).map((name) => join(path, name))) : found.mtimeMs,
    );
  }
  return latest;
}

/** Once before the tests. */
export default prepare;

if (process.argv[1]?.endsWith("prepare.mjs")) await prepare();
