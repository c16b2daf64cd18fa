import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { documentedFunctions, FAMILIES } from "../documentation/docblocks.mjs";

/** The table of all functions is made from the docblocks; `npm run readme` writes it anew. */
const FILE = "src/guide/functions.md";

/** The page as the docblocks have it now. */
export function functionsPage() {
  const head =
    "# All functions\n\nMade from the documentation of the functions (`npm run readme`); the guide has a page for each. `=YARN.SOURCES()` lists what each rests on.";
  return `${head}\n\n${functionTables()}`;
}

/** The sentence of the README that counts the published and hand-worked cases. */
const CASES = /\d+ from texts at hand, \d+ derived by arithmetic or a second working, \d+ from memory, \d+ rules of/;

/** The README with its cases as they are now. */
export function countedReadme(text = readFileSync("README.md", "utf8")) {
  const evidence = readdirSync("tests/golden").flatMap((file) =>
    [...readFileSync(`tests/golden/${file}`, "utf8").matchAll(/"evidence": ?"([^"]+)"/g)].map(([, word]) => word),
  );
  /** @param {(string | undefined)[]} words */
  const of = (...words) => evidence.filter((word) => words.includes(word)).length;
  if (!CASES.test(text)) throw new Error("README.md does not count the cases");
  return text.replace(
    CASES,
    `${of("read")} from texts at hand, ${of("derived", "second working")} derived by arithmetic or a second working, ${of("memory")} from memory, ${of("rule")} rules of`,
  );
}

function functionTables() {
  const documented = documentedFunctions();
  return Object.entries(FAMILIES)
    .map(([family, title]) => {
      const rows = documented
        .filter((entry) => entry.family === family)
        .map(
          ({ id, parameters, description }) => `| \`${id}(${parameters.map(shown).join(", ")})\` | ${description} |`,
        );
      return rows.length === 0 ? "" : `**${title}**\n\n| function | what it gives |\n|---|---|\n${rows.join("\n")}\n`;
    })
    .filter(Boolean)
    .join("\n");
}

/** @param {{ name: string, optional: boolean }} parameter */
function shown({ name, optional }) {
  return optional ? `[${name}]` : name;
}

if (process.argv[1]?.endsWith("readme.mjs")) {
  writeFileSync(FILE, functionsPage());
  writeFileSync("README.md", countedReadme());
}
