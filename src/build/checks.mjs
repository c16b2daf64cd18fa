import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { sourceKeys } from "./constants.mjs";

/** Excel's limits on functions.json, and ours. */
const LONGEST_DESCRIPTION = 200;
const LONGEST_PARAMETER_DESCRIPTION = 512;

/** @typedef {import("../documentation/docblocks.mjs").DocumentedFunction} DocumentedFunction */

/**
 * Everything in the docblocks that must stop a build, as sentences.
 * @param {DocumentedFunction[]} documented
 * @param {{functions: {id: string}[]}} metadata
 */
export function faultsOf(documented, metadata) {
  const declared = documented.map(({ id }) => id);
  const known = new Set(sourceKeys());
  const faults = documented.flatMap((entry, place) =>
    [
      declared.indexOf(entry.id) < place && "declared twice",
      ...nameFaults(entry),
      ...descriptionFaults(entry),
      ...exampleFaults(entry),
      ...sourceFaults(entry, known),
      (entry.returns === "" || entry.throws === "") && "@returns and @throws are both needed",
      ...entry.parameters.flatMap(parameterFaults),
    ]
      .filter((fault) => fault !== false)
      .map((fault) => `${entry.id}: ${fault}`),
  );
  const generated = metadata.functions.map(({ id }) => id).sort();
  if (generated.join() !== [...new Set(declared)].sort().join())
    faults.push("the generated metadata and the docblocks name different functions");
  return faults;
}

/** @param {DocumentedFunction} entry */
function nameFaults({ id, exportName }) {
  return [
    !/^[A-Z][A-Z0-9]{2,63}$/.test(id) && "an id is 3 to 64 capital letters and digits",
    exportName.toUpperCase() !== id && `exported as ${exportName}, which does not spell the id`,
  ];
}

/** @param {DocumentedFunction} entry */
function descriptionFaults({ description }) {
  return [
    description === "" && "no description",
    description.length > LONGEST_DESCRIPTION && `description over ${LONGEST_DESCRIPTION} characters`,
  ];
}

/** @param {DocumentedFunction} entry */
function exampleFaults({ id, examples }) {
  if (examples.length === 0) return ["no example"];
  return examples.flatMap(({ formula, result }) => [
    (!formula.startsWith("=") || !formula.includes(`YARN.${id}(`) || result === "") &&
      `example not "=YARN.${id}(…) → result"`,
    // A sheet takes a percent in a cell and in a formula, but not between braces.
    /\{[^}]*%/.test(formula.replace(/"[^"]*"/g, '""')) && `a percent between braces in ${formula}`,
  ]);
}

/** @param {DocumentedFunction} entry @param {ReadonlySet<string>} known */
function sourceFaults({ sources }, known) {
  if (sources.length === 0) return ["no source key"];
  return sources.filter((key) => !known.has(key)).map((key) => `unknown source key ${key}`);
}

/** @param {DocumentedFunction["parameters"][number]} parameter */
function parameterFaults({ name, description }) {
  return [
    description === "" && `parameter ${name} is not described`,
    description.length > LONGEST_PARAMETER_DESCRIPTION && `parameter ${name}: description too long`,
  ];
}

/** The bundle as it goes over the wire, and the metadata as Excel reads it, in kB of 1,000 bytes. */
const LARGEST_BUNDLE_KB = 90;
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
