import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { tsImport } from "tsx/esm/api";
import { faultsOf, paneFaults, sizeFaults } from "./checks.mjs";
import { bundle, bundlePageScripts, bundlePaneScript } from "./bundle.mjs";
import { buildConstants } from "./constants.mjs";
import { writeIcons } from "./icons.mjs";
import { madeInPlace } from "./in-place.mjs";
import { addressOf, DEFAULT_ORIGIN, folderFor } from "./addresses.mjs";
import { writeExtension } from "../extension/extension.mjs";
import { filled, inXml, writeManifests } from "./manifest.mjs";
import { declarationFiles, documentedFunctions } from "../documentation/docblocks.mjs";

const packageFile = JSON.parse(readFileSync("package.json", "utf8"));
/**
 * @typedef {{ name: string, description: string, optional?: boolean, customEnumId?: string }} Parameter
 * @typedef {{ id: string, description: string, helpUrl: string, parameters: Parameter[] }} Entry
 * @typedef {{ functions: Entry[], enums?: unknown, allowErrorForDataTypeAny?: boolean, allowCustomDataForDataTypeAny?: boolean }} Metadata functions.json
 */
const documented = documentedFunctions();

/**
 * Builds for one address into its own folder; throws with every fault found, and then leaves what was there before.
 * The functions run in a runtime of their own, or in one that they share with the pane.
 * @param {{ origin?: string | undefined, runtime?: "own" | "shared" | undefined, label?: string }} [wanted] label: what YARN.VERSION() gives
 * @returns {Promise<string>} the folder
 */
export async function build({ origin = DEFAULT_ORIGIN, runtime = "own", label = packageFile.version } = {}) {
  if (!["own", "shared"].includes(runtime)) throw new Error(`the runtime is "${runtime}"; it is own or shared`);
  const address = addressOf(origin);
  const out = folderFor(address);
  const metadata = await functionsMetadata(address);
  stopFor(faultsOf(documented, metadata));

  await madeInPlace(out, async (fresh) => {
    mkdirSync(join(fresh, "icons"));
    writeFileSync(join(fresh, "functions.json"), `${JSON.stringify(metadata, null, 1)}\n`);
    writeFileSync(join(fresh, "documentation.json"), `${JSON.stringify(documented, null, 1)}\n`);
    cpSync("manifest/functions.html", join(fresh, "functions.html"));
    writeIcons(join(fresh, "icons"));
    writeManifests(fresh, { origin: address, version: packageFile.version, runtime });
    await bundle(fresh, documented, label);
    stopFor(sizeFaults(fresh));
    const { exampleFaults, functionsOf } = await tsImport("./examples.ts", import.meta.url);
    const packed = readFileSync(join(fresh, "functions.js"), "utf8");
    stopFor(exampleFaults(packed, documented));
    writeExtension(fresh, packageFile);
    await bundlePageScripts(join(fresh, "guide"), packageFile.version);
    await buildPane(fresh, metadata, runtime);
    const { writeGuide } = await tsImport("../guide/guide.ts", import.meta.url);
    writeGuide(fresh, documented, packageFile.version, functionsOf(packed));
  });
  return out;
}

/**
 * The page that works beside the sheet, with what it knows of the functions.
 * @param {string} out
 * @param {Metadata} metadata
 * @param {"own" | "shared"} runtime
 */
async function buildPane(out, metadata, runtime) {
  writeFileSync(join(out, "pane.html"), filled("src/pane/pane.html", { runtime }, inXml));
  await bundlePaneScript(join(out, "pane"));
  const { stylesheet } = await tsImport("../guide/stylesheet.ts", import.meta.url);
  writeFileSync(join(out, "pane", "pane.css"), stylesheet("src/pane/pane.css"));
  const { writePaneFacts } = await tsImport("../guide/pane-facts.ts", import.meta.url);
  writePaneFacts(out, documented, metadata);
  stopFor(paneFaults(out));
}

/** @param {string[]} faults */
function stopFor(faults) {
  if (faults.length > 0) throw new Error(`the build stops:\n  ${faults.join("\n  ")}`);
}

/**
 * functions.json: generated from the docblocks, then completed with what the generator does not write.
 * @param {string} address
 * @returns {Promise<Metadata>}
 */
async function functionsMetadata(address) {
  const { metadataJson, errors } = await generateCustomFunctionsMetadata(declarationFiles());
  if (errors.length > 0) throw new Error(`the metadata generator refuses:\n  ${errors.join("\n  ")}`);
  /** @type {Metadata} */
  const metadata = JSON.parse(metadataJson);
  // Without this Excel answers an error value in a range itself and one bad row kills the column.
  metadata.allowErrorForDataTypeAny = true;
  // The generator adds this one; beside the other it has crashed Excel 2021, and no function here takes rich values.
  delete metadata.allowCustomDataForDataTypeAny;
  const { words, headings } = await askedOfSources();
  // Older Excel does not know the lists and passes over them.
  metadata.enums = words.lists;
  for (const entry of metadata.functions) {
    entry.helpUrl = `${address}/guide/${entry.id}.html`;
    for (const parameter of entry.parameters) {
      const list = words.of(entry.id, parameter.name);
      if (list !== undefined) parameter.customEnumId = list;
    }
    // The generator keeps the line breaks of the comment, and the tooltip would show them.
    for (const described of [entry, ...entry.parameters])
      described.description = described.description.replace(/\s+/g, " ");
  }
  for (const { id, parameters } of documented)
    for (const parameter of parameters) {
      const taken = headings(id, parameter.name);
      if (taken !== undefined) parameter.headings = taken;
    }
  return metadata;
}

/** The words and headings that arguments take, asked of the sources under a runtime that stands in for Excel's. */
async function askedOfSources() {
  const functions = new Map();
  class CellError {
    /** @param {string} code @param {string} message */
    constructor(code, message) {
      Object.assign(this, { code, message });
    }
  }
  /** @param {string} id @param {unknown} implementation */
  const associate = (id, implementation) => void functions.set(id, implementation);
  const constants = Object.entries(buildConstants(documented, packageFile.version));
  /** @type {Record<string, unknown>} */
  const stage = { CustomFunctions: { Error: CellError, associate } };
  for (const [name, json] of constants) stage[name] = JSON.parse(json);
  Object.assign(globalThis, stage);
  try {
    const asked = await tsImport("./asked-of-sources.ts", import.meta.url);
    return await asked.askedOfSources(documented, functions);
  } finally {
    for (const name of Object.keys(stage)) Reflect.deleteProperty(globalThis, name);
  }
}

if (process.argv[1]?.endsWith("build.mjs")) {
  /** @param {string} name */
  const option = (name) => {
    const place = process.argv.indexOf(name);
    return place < 0 ? undefined : (process.argv[place + 1] ?? "");
  };
  try {
    const built = await build({
      origin: option("--origin"),
      runtime: /** @type {"own" | "shared" | undefined} */ (option("--runtime")),
    });
    if (option("--origin") !== undefined) console.log(`Built ${built}`);
  } catch (fault) {
    console.error(fault instanceof Error ? fault.message : fault);
    process.exit(1);
  }
}
