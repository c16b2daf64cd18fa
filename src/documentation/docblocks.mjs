import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { ts } from "./typescript.mjs";

/**
 * What the docblocks in src/functions say, as data: the one place where a function's id, description, parameters,
 * example and sources are written. The build, the guide, the table of all functions and the tests all read it from here.
 *
 * @typedef {{ heading: string, synonyms: readonly string[], needed: boolean }} DocumentedHeading
 * @typedef {{
 *   name: string, optional: boolean, description: string, headings?: readonly DocumentedHeading[]
 * }} DocumentedParameter   the headings are asked of the functions by the build
 * @typedef {{ formula: string, result: string, begins?: true }} DocumentedExample begins: the result has more rows
 * @typedef {{
 *   id: string, family: string, exportName: string, description: string, parameters: DocumentedParameter[],
 *   returns: string, remarks: string, throws: string, examples: DocumentedExample[], sources: string[]
 * }} DocumentedFunction
 */

/** The families in the order of the job, with the title a person reads. One file of src/functions each. */
export const FAMILIES = {
  count: "Counts",
  twist: "Twist",
  drafting: "Drafting",
  evenness: "Evenness",
  production: "Production",
  quality: "Within the order?",
  wool: "Wool: yield and price",
  condition: "Regain and condition",
  fineness: "Fineness, combing and sampling",
  skein: "Skeins and packs",
  route: "Quantities through the route",
  schedule: "When each mill must start",
  blend: "Blending dyed solids",
  shade: "Shade",
  cost: "Charges and apportioning",
  landed: "Landed cost, customs and exchange",
  control: "Margins, variances and stock",
  library: "The library itself",
};

/** @returns {string[]} the declaring files, in family order */
export function declarationFiles(folder = "src/functions") {
  const present = readdirSync(folder).filter(
    (file) => file.endsWith(".ts") && !file.endsWith(".d.ts") && file !== "index.ts",
  );
  const unknown = present.filter((file) => !(basename(file, ".ts") in FAMILIES));
  if (unknown.length > 0) throw new Error(`no family title in docblocks.mjs for ${unknown.join(", ")}`);
  return Object.keys(FAMILIES)
    .filter((family) => present.includes(`${family}.ts`))
    .map((family) => join(folder, `${family}.ts`));
}

/** What was read of a file, and of which text: the reading takes long, and much asks for it. @type {Map<string, { text: string, declared: DocumentedFunction[] }>} */
const read = new Map();

/** @returns {DocumentedFunction[]} */
export function documentedFunctions(folder = "src/functions") {
  return declarationFiles(folder).flatMap((file) => {
    const text = readFileSync(file, "utf8");
    const known = read.get(file);
    const declared = known?.text === text ? known.declared : declarationsIn(file, text);
    read.set(file, { text, declared });
    // The build adds to what it gets.
    return structuredClone(declared);
  });
}

/** @param {string} file @param {string} text @returns {DocumentedFunction[]} */
function declarationsIn(file, text) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  return source.statements.filter(ts.isFunctionDeclaration).flatMap((declaration) => {
    const block = ts.getJSDocCommentsAndTags(declaration).find(ts.isJSDoc);
    const tags = block?.tags ?? [];
    /** @param {string} name */
    const textsOf = (name) => tags.filter((tag) => tag.tagName.text === name).map(commentOf);
    const [id] = textsOf("customfunction");
    if (id === undefined) return [];
    /** @type {Map<string, string>} */
    const described = new Map();
    for (const tag of tags) if (ts.isJSDocParameterTag(tag)) described.set(tag.name.getText(), commentOf(tag));
    return [
      {
        id,
        family: basename(file, ".ts"),
        exportName: declaration.name?.text ?? "",
        description: flat(ts.getTextOfJSDocComment(block?.comment) ?? ""),
        parameters: declaration.parameters.map((parameter) => ({
          name: parameter.name.getText(),
          optional: parameter.questionToken !== undefined,
          description: described.get(parameter.name.getText()) ?? "",
        })),
        returns: textsOf("returns").join(" "),
        remarks: textsOf("remarks").join(" "),
        throws: throwsOf(block),
        examples: textsOf("example").map(readExample),
        sources: textsOf("see").flatMap((text) => text.split(/\s*,\s*/).filter(Boolean)),
      },
    ];
  });
}

/**
 * The `@throws` text, read from the raw block: its tag parser would take the first word for a type.
 * @param {import("typescript").JSDoc | undefined} block
 */
function throwsOf(block) {
  const raw = block
    ? block
        .getText()
        .replace(/^\s*\*\/?/gm, "")
        .replace(/^[ \t]*/gm, "")
    : "";
  const match = /@throws\s+([\s\S]*?)(?=\n@|\*\/|$)/.exec(raw);
  return match ? flat(match[1] ?? "") : "";
}

/** @param {import("typescript").JSDocTag} tag */
function commentOf(tag) {
  if (tag.tagName.text === "see") {
    // A see tag swallows its first word as a link target, so it is read as written.
    return flat(
      tag
        .getText()
        .replace(/^@see\s*/, "")
        .replace(/\n\s*\*/g, " "),
    );
  }
  return flat(ts.getTextOfJSDocComment(tag.comment) ?? "").replace(/^- /, "");
}

/** @param {string} text */
function flat(text) {
  return text.replace(/\s+/g, " ").trim();
}

/** @param {string} text @returns {DocumentedExample} */
function readExample(text) {
  const [formula, result] = text.split(" → ");
  const written = (result ?? "").trim();
  const example = { formula: (formula ?? "").trim(), result: written.replace(/;…}$/, "}") };
  return example.result === written ? example : { ...example, begins: true };
}
