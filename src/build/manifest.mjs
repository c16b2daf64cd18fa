import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { zipSync } from "fflate";

/**
 * Writes both manifests from the same facts: manifest.xml, and manifest.json with the package that holds it.
 * @param {string} out
 * @param {{ origin: string, version: string, runtime: "own" | "shared" }} build
 */
export function writeManifests(out, build) {
  const facts = {
    ...JSON.parse(readFileSync("manifest/facts.json", "utf8")),
    ...build,
    host: new URL(build.origin).host,
  };
  writeFileSync(join(out, "manifest.xml"), filled("manifest/manifest.xml", facts, inXml));
  const unified = filled("manifest/manifest.json", facts, inJson);
  writeFileSync(join(out, "manifest.json"), unified);
  // The unified manifest travels with its two icons; a fixed date keeps the package the same from build to build.
  const icons = [facts.packageIcon, facts.packageOutline].map((icon) => [icon, readFileSync(join(out, icon))]);
  const files = Object.fromEntries([["manifest.json", Buffer.from(unified)], ...icons]);
  writeFileSync(join(out, "unified-manifest.zip"), zipSync(files, { mtime: new Date(1980, 0, 1) }));
}

/**
 * A template with its blanks filled; a blank without a fact stops the build. What stands between {{#shared}} and
 * {{/shared}} is for a shared runtime only, between {{^shared}} and {{/shared}} for the functions' own.
 * @param {string} file
 * @param {Record<string, unknown>} facts
 * @param {(text: string) => string} written how a fact is written there
 */
export function filled(file, facts, written) {
  const sections = /^ *\{\{([#^])shared\}\}\n([^]*?)^ *\{\{\/shared\}\}\n/gm;
  const chosen = readFileSync(file, "utf8").replace(sections, (_, sign, section) =>
    (sign === "#") === (facts.runtime === "shared") ? section : "",
  );
  return chosen.replace(/\{\{(\w+)\}\}/g, (_, name) => {
    if (typeof facts[name] !== "string") throw new Error(`${file} asks for {{${name}}}, which is no fact`);
    return written(facts[name]);
  });
}

/** @param {string} text */
export function inXml(text) {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/"/g, "&quot;");
}

/** @param {string} text */
function inJson(text) {
  return JSON.stringify(text).slice(1, -1);
}
