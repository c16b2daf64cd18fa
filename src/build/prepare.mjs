import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { installPackages } from "./install.mjs";
import { BUILT_FROM } from "./built-from.mjs";

/** Installs what is missing or has changed, and builds what is out of date. */
export async function prepare() {
  installPackages();
  if (upToDate()) return;
  const { build } = await import("./build.mjs");
  await build();
}

/** Is dist newer than everything it is made from? */
function upToDate() {
  const built = statSync("dist/functions.js", { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return newest(BUILT_FROM) < built;
}

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

if (process.argv[1]?.endsWith("prepare.mjs")) await prepare();
