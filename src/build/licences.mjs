import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** What functions.js holds of other people's work. */
export const BUNDLED = ["big.js"];

/** @type {Licensed["use"][]} */
const USES = ["functions", "commands", "tests"];

/**
 * Every package of the lock file that is installed here, with its licence: what goes into the bundle
 * ("functions"), what the commands and their making need besides ("commands"), and what only tests ("tests").
 *
 * @typedef {{ name: string, version: string, licence: string, use: "functions" | "commands" | "tests", script: boolean }} Licensed
 * @returns {Licensed[]}
 */
export function licences(root = ".") {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  return Object.keys(packages)
    .filter((place) => place !== "" && existsSync(join(root, place, "package.json")))
    .map((place) => {
      const { dev, devOptional, hasInstallScript } = packages[place];
      const own = JSON.parse(readFileSync(join(root, place, "package.json"), "utf8"));
      /** @type {Licensed["use"]} */
      const use = dev || devOptional ? "tests" : BUNDLED.includes(own.name) ? "functions" : "commands";
      return {
        name: own.name,
        version: own.version,
        licence: licenceOf(own),
        use,
        script: hasInstallScript === true,
      };
    })
    .sort(
      (a, b) =>
        USES.indexOf(a.use) - USES.indexOf(b.use) || a.name.localeCompare(b.name) || a.version.localeCompare(b.version),
    );
}

/**
 * Older packages have an object or a list where there is one word today.
 * @typedef {string | { type: string }} Stated
 * @param {{ license?: Stated | Stated[], licenses?: Stated | Stated[] }} own
 */
function licenceOf({ license, licenses }) {
  const stated = license ?? licenses;
  const words = (Array.isArray(stated) ? stated : [stated]).map((entry) =>
    typeof entry === "object" ? entry.type : entry,
  );
  return words.filter((word) => typeof word === "string").join(" or ") || "none stated";
}

if (process.argv[1]?.endsWith("licences.mjs")) {
  const rows = licences().map(({ name, version, licence, use }) => [name, version, licence, use]);
  const widths = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  for (const row of rows) console.log(row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("  "));
}
