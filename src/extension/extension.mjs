import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { zipSync } from "fflate";
import { typeLibrary } from "./type-library.mjs";

/**
 * The library for LibreOffice Calc: an extension whose component, written in Python, hands every call to Node. All that
 * it says of the functions is taken from functions.json, and functions.js works them out as it does in Excel.
 */

/**
 * The name before the dot in a cell; Calc makes a function's name of a service and its method.
 * @typedef {{ name: string, description: string, optional?: boolean }} Parameter
 * @typedef {{ id: string, description: string, parameters: Parameter[] }} Entry a function in functions.json
 * @typedef {Entry & { method: string }} Described
 */
const SERVICE = "YARN";
const MODULE = "yarn";
const INTERFACE = "XFunctions";
const IDENTIFIER = "yarn.worksheet.functions";

/** The function that this host needs besides: its cells show the name of an error, not its message. */
const WHY = {
  id: "WHY",
  description:
    "Why a call gives an error: the message behind it, or an empty text where there is none. Without arguments: why no function works.",
  first: { name: "function", description: 'Name of the function, as text, e.g. "COUNT".' },
  /** @param {number} place */
  argument: (place) => ({
    name: `argument${place}`,
    description: `Argument ${place} of that function, as it was given.`,
  }),
};

/** The earliest date a package can carry: the same bytes whenever it is written. */
const NO_DATE = new Date(1980, 0, 1);

/**
 * Writes yarn.oxt beside the functions.json and functions.js that it is made from.
 * @param {string} out
 * @param {{ version: string, engines: { node: string } }} packageFile
 */
export function writeExtension(out, { version, engines }) {
  /** @type {{ functions: Entry[] }} */
  const { functions } = JSON.parse(readFileSync(join(out, "functions.json"), "utf8"));
  const described = [...functions.map(describedFunction), whyFunction(functions)];
  /** @param {string} name */
  const own = (name) => readFileSync(join(dirname(fileURLToPath(import.meta.url)), name));
  const facts = {
    service: SERVICE,
    interface: `${MODULE}.${INTERFACE}`,
    why: WHY.id.toLowerCase(),
    leastNode: (engines.node.match(/\d+/g) ?? []).map(Number),
    functions: described,
  };
  const methods = described.map(({ method, parameters }) => ({
    name: method,
    parameters: parameters.map((_, place) => `argument${place + 1}`),
  }));
  const texts = {
    "META-INF/manifest.xml": manifest(),
    "description.xml": description(version),
    "CalcAddIns.xcu": configuration(described),
    "extension.json": `${JSON.stringify(facts, null, 1)}\n`,
  };
  const files = {
    ...Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, Buffer.from(text)])),
    "functions.rdb": typeLibrary(MODULE, INTERFACE, methods),
    "component.py": own("component.py"),
    "calculator.cjs": own("calculator.cjs"),
    "functions.js": readFileSync(join(out, "functions.js")),
    "functions.js.LEGAL.txt": readFileSync(join(out, "functions.js.LEGAL.txt")),
    LICENSE: readFileSync("LICENSE"),
    "icon.png": readFileSync(join(out, "icons/icon-64.png")),
  };
  const stored = Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, new Uint8Array(bytes)]));
  writeFileSync(join(out, "yarn.oxt"), zipSync(stored, { mtime: NO_DATE, os: 0 }));
}

/** @param {Entry} entry @returns {Described} */
function describedFunction({ id, description, parameters }) {
  return {
    id,
    method: id.toLowerCase(),
    description,
    parameters: parameters.map(({ name, description, optional = false }) => ({
      name,
      // Calc calls every argument optional.
      description: optional ? description : `Needed. ${description}`,
    })),
  };
}

/** @param {Entry[]} functions @returns {Described} */
function whyFunction(functions) {
  const most = Math.max(...functions.map(({ parameters }) => parameters.length));
  const rest = Array.from({ length: most }, (_, index) => WHY.argument(index + 1));
  return describedFunction({
    id: WHY.id,
    description: WHY.description,
    parameters: [WHY.first, ...rest].map((one) => ({ ...one, optional: true })),
  });
}

function manifest() {
  const entries = [
    ["application/vnd.sun.star.uno-typelibrary;type=RDB", "functions.rdb"],
    ["application/vnd.sun.star.uno-component;type=Python", "component.py"],
    ["application/vnd.sun.star.configuration-data", "CalcAddIns.xcu"],
  ];
  return `<?xml version="1.0" encoding="UTF-8"?>
<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">
${entries
  .map(([type, file]) => `<manifest:file-entry manifest:media-type="${type}" manifest:full-path="${file}"/>`)
  .join("\n")}
</manifest:manifest>
`;
}

/** @param {string} version */
function description(version) {
  return `<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006" xmlns:xlink="http://www.w3.org/1999/xlink">
<identifier value="${IDENTIFIER}"/>
<version value="${inXml(version)}"/>
<display-name><name lang="en">Yarn worksheet functions</name></display-name>
<icon><default xlink:href="icon.png"/></icon>
</description>
`;
}

/**
 * What the function wizard and the cells know before the component is loaded.
 * @param {Described[]} functions
 */
function configuration(functions) {
  /** @param {string} name @param {string} text */
  const property = (name, text) => `<prop oor:name="${name}"><value xml:lang="en">${inXml(text)}</value></prop>`;
  /** @param {Parameter} parameter @param {number} place */
  const parameter = ({ name, description }, place) =>
    `<node oor:name="argument${place + 1}" oor:op="replace">${property("DisplayName", name)}${property("Description", description)}</node>`;
  /** @param {Described} entry */
  const entry = ({ id, method, description, parameters }) => `<node oor:name="${method}" oor:op="replace">
${property("DisplayName", `${SERVICE}.${id}`)}
${property("Description", description)}
<prop oor:name="Category"><value>Add-In</value></prop>
${property("CompatibilityName", `_xldudf_${SERVICE}_${id}`)}
<node oor:name="Parameters">${parameters.map(parameter).join("\n")}</node>
</node>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" oor:package="org.openoffice.Office">
<node oor:name="AddInInfo"><node oor:name="${SERVICE}" oor:op="replace"><node oor:name="AddInFunctions">
${functions.map(entry).join("\n")}
</node></node></node>
</oor:component-data>
`;
}

/** @param {string} text */
function inXml(text) {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}
