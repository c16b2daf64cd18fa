import { readFileSync, writeFileSync } from "node:fs";
import { documentedFunctions, FAMILIES } from "../documentation/docblocks.mjs";

/** The tables of functions in the README are made from the docblocks; `npm run readme` writes them anew. */
const BEGIN = "<!-- functions: begin -->";
const END = "<!-- functions: end -->";

/** The README with its tables as the docblocks have them now. */
export function currentReadme(text = readFileSync("README.md", "utf8")) {
  const [before, rest] = text.split(BEGIN);
  const after = rest?.split(END)[1];
  if (after === undefined) throw new Error(`README.md lacks ${BEGIN} or ${END}`);
  return `${before}${BEGIN}\n\n${functionTables()}\n${END}${after}`;
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

function shown({ name, optional }) {
  return optional ? `[${name}]` : name;
}

if (process.argv[1]?.endsWith("readme.mjs")) writeFileSync("README.md", currentReadme());
