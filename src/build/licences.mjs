import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * Every package of the lock file that is installed here, with its licence: what goes into the bundle ("runtime") and
 * what only builds and tests it ("development").
 *
 * @typedef {{ name: string, version: string, licence: string, use: "runtime" | "development", script: boolean }} Licensed
 * @returns {Licensed[]}
 */
export function licences(root = ".") {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  return Object.keys(packages)
    .filter((place) => place !== "" && existsSync(join(root, place, "package.json")))
    .map((place) => {
      const { dev, devOptional, optional, hasInstallScript } = packages[place];
      const own = JSON.parse(readFileSync(join(root, place, "package.json"), "utf8"));
      return {
        name: own.name,
        version: own.version,
        licence: licenceOf(own),
        use: dev || devOptional || optional ? "development" : "runtime",
        script: hasInstallScript === true,
      };
    })
    .sort((a, b) => b.use.localeCompare(a.use) || a.name.localeCompare(b.name) || a.version.localeCompare(b.version));
}

/** Older packages have an object or a list where there is one word today. */
function licenceOf({ license, licenses }) {
  const stated = license ?? licenses;
  const words = (Array.isArray(stated) ? stated : [stated]).map((entry) => entry?.type ?? entry);
  return words.filter((word) => typeof word === "string").join(" or ") || "none stated";
}

if (process.argv[1]?.endsWith("licences.mjs")) {
  const rows = licences().map(({ name, version, licence, use }) => [name, version, licence, use]);
  const widths = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column].length)));
  for (const row of rows) console.log(row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("  "));
}
