import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

/** Excel's limits on functions.json, and ours. */
const LONGEST_DESCRIPTION = 200;
const LONGEST_PARAMETER_DESCRIPTION = 512;

/**
 * Everything that must stop a build, as sentences.
 * @param {import("../documentation/docblocks.mjs").DocumentedFunction[]} documented
 * @param {{functions: {id: string, parameters: {name: string}[]}[]}} metadata
 */
export function faultsOf(documented, metadata) {
  /** @type {string[]} */
  const faults = [];
  const sourceKeys = new Set(knownSourceKeys());
  const seen = new Set();
  for (const entry of documented) {
    const { id } = entry;
    /** @param {string} text */
    const fault = (text) => faults.push(`${id}: ${text}`);
    if (seen.has(id)) fault("declared twice");
    seen.add(id);
    if (!/^[A-Z][A-Z0-9]{2,63}$/.test(id)) fault("an id is 3 to 64 capital letters and digits");
    if (entry.exportName.toUpperCase() !== id) fault(`exported as ${entry.exportName}, which does not spell the id`);
    if (entry.description === "") fault("no description");
    if (entry.description.length > LONGEST_DESCRIPTION) fault(`description over ${LONGEST_DESCRIPTION} characters`);
    if (entry.examples.length === 0) fault("no example");
    for (const { formula, result } of entry.examples) {
      if (!formula.startsWith("=") || !formula.includes(`YARN.${id}(`) || result === "")
        fault(`example not "=YARN.${id}(…) → result"`);
      // A sheet takes a percent in a cell and in a formula, but not between braces.
      if (/\{[^}]*%/.test(formula.replace(/"[^"]*"/g, '""'))) fault(`a percent between braces in ${formula}`);
    }
    if (entry.sources.length === 0) fault("no source key");
    for (const key of entry.sources) if (!sourceKeys.has(key)) fault(`unknown source key ${key}`);
    if (entry.returns === "" || entry.throws === "") fault("@returns and @throws are both needed");
    for (const parameter of entry.parameters) {
      if (parameter.description === "") fault(`parameter ${parameter.name} is not described`);
      if (parameter.description.length > LONGEST_PARAMETER_DESCRIPTION)
        fault(`parameter ${parameter.name}: description too long`);
    }
  }
  const generated = metadata.functions.map(({ id }) => id).sort();
  const declared = [...seen].sort();
  if (generated.join() !== declared.join())
    faults.push("the generated metadata and the docblocks name different functions");
  return faults;
}

/** The bundle as it goes over the wire, and the metadata as Excel reads it, in kB of 1,000 bytes. */
const LARGEST_BUNDLE_KB = 105;
const LARGEST_METADATA_KB = 250;

/**
 * Why what was built is too large, as sentences.
 * @param {string} out
 */
export function sizeFaults(out, bundleKb = LARGEST_BUNDLE_KB, metadataKb = LARGEST_METADATA_KB) {
  /** @type {string[]} */
  const faults = [];
  /** @param {string} file @param {string} how @param {number} bytes @param {number} limit */
  const compare = (file, how, bytes, limit) => {
    if (bytes > limit * 1000)
      faults.push(`${file} is ${(bytes / 1000).toFixed(1)} kB ${how}; the limit is ${limit} kB`);
  };
  const bundle = join(out, "functions.js");
  compare("functions.js", "gzipped", gzipSync(readFileSync(bundle), { level: 9 }).length, bundleKb);
  compare("functions.json", "as it is", statSync(join(out, "functions.json")).size, metadataKb);
  return faults;
}

/** Everything of ours that the pane loads for its start, its search and one function, functions.js apart. */
const LARGEST_PANE_KB = 30;

/** @param {string} out */
export function paneFaults(out, paneKb = LARGEST_PANE_KB) {
  /** @param {string} file */
  const sizeOf = (file) => gzipSync(readFileSync(join(out, file)), { level: 9 }).length;
  const start = ["pane.html", "pane/pane.js", "pane/pane.css", "pane/index.json"];
  const functions = readdirSync(join(out, "pane")).filter((file) => /^[A-Z0-9]+\.json$/.test(file));
  const largest = Math.max(...functions.map((file) => sizeOf(join("pane", file))));
  const bytes = start.reduce((sum, file) => sum + sizeOf(file), largest);
  if (bytes <= paneKb * 1000) return [];
  return [`the pane is ${(bytes / 1000).toFixed(1)} kB gzipped; the limit is ${paneKb} kB`];
}

/** The keys of src/tables/sources.ts, read from its text: the build runs before any TypeScript is compiled. */
function knownSourceKeys() {
  const text = readFileSync("src/tables/sources.ts", "utf8");
  return [...text.matchAll(/^ {2}\[\s*"([^"]+)",/gm)].map((match) => match[1]);
}
