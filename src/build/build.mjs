import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import { faultsOf, sizeFaults } from "./checks.mjs";
import { bundle } from "./bundle.mjs";
import { writeIcons } from "./icons.mjs";
import { declarationFiles, documentedFunctions } from "./docblocks.mjs";

const packageFile = JSON.parse(readFileSync("package.json", "utf8"));
const documented = documentedFunctions();

export const DEFAULT_ORIGIN = "https://localhost:3000";

/** Builds dist for one origin; throws with every fault found. */
export async function build({ origin = DEFAULT_ORIGIN, out = "dist" } = {}) {
  const address = new URL(origin).origin;
  const metadata = await functionsMetadata(address);
  const faults = faultsOf(documented, metadata);
  if (faults.length > 0) throw new Error(`the build stops:\n  ${faults.join("\n  ")}`);

  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  writeFileSync(join(out, "functions.json"), `${JSON.stringify(metadata, null, 1)}\n`);
  writeFileSync(join(out, "documentation.json"), `${JSON.stringify(documented, null, 1)}\n`);
  await bundle(out, documented, packageFile.version);
  writeFileSync(join(out, "manifest.xml"), filled(readFileSync("manifest/manifest.xml", "utf8"), address));
  cpSync("manifest/functions.html", join(out, "functions.html"));
  mkdirSync(join(out, "icons"));
  writeIcons(join(out, "icons"));

  const tooLarge = sizeFaults(out);
  if (tooLarge.length > 0) throw new Error(`the build stops:\n  ${tooLarge.join("\n  ")}`);
}

/** functions.json: generated from the docblocks, then completed with what the generator does not write. */
async function functionsMetadata(address) {
  const { metadataJson, errors } = await generateCustomFunctionsMetadata(declarationFiles());
  if (errors.length > 0) throw new Error(`the metadata generator refuses:\n  ${errors.join("\n  ")}`);
  const metadata = JSON.parse(metadataJson);
  // Without this Excel answers an error value in a range itself and one bad row kills the column.
  metadata.allowErrorForDataTypeAny = true;
  for (const entry of metadata.functions) {
    entry.helpUrl = `${address}/guide/${entry.id}.html`;
    // The generator keeps the line breaks of the comment, and the tooltip would show them.
    for (const described of [entry, ...entry.parameters])
      described.description = described.description.replace(/\s+/g, " ");
  }
  return metadata;
}

/** The manifest's two blanks. */
function filled(manifest, address) {
  // An add-in version has four parts.
  return manifest.replaceAll("{{origin}}", address).replaceAll("{{version}}", `${packageFile.version}.0`);
}

if (process.argv[1]?.endsWith("build.mjs")) {
  const given = process.argv.indexOf("--origin");
  try {
    await build(given > 0 ? { origin: process.argv[given + 1] } : {});
  } catch (fault) {
    console.error(fault instanceof Error ? fault.message : fault);
    process.exit(1);
  }
}
