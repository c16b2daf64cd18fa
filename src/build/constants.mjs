import { readFileSync } from "node:fs";

/**
 * The constants that the bundle (and the tests on the sources) get from outside src: the version from package.json
 * and, from the docblocks, what each function rests on, as places in the table of sources.
 * @param {import("../documentation/docblocks.mjs").DocumentedFunction[]} documented
 * @param {string} version
 */
export function buildConstants(documented, version) {
  const keys = sourceKeys();
  const lines = documented.map(({ id, sources }) => [id, ...sources.map((key) => keys.indexOf(key))].join(" "));
  return {
    LIBRARY_VERSION: JSON.stringify(version),
    FUNCTION_SOURCES: JSON.stringify(lines.join(";")),
  };
}

/** The keys of src/tables/sources.ts in their order, read from its text: the build runs before any TypeScript is compiled. */
export function sourceKeys() {
  const text = readFileSync("src/tables/sources.ts", "utf8");
  return [...text.matchAll(/^ {2}\[\s*"([^"]+)",/gm)].map((match) => match[1] ?? "");
}
