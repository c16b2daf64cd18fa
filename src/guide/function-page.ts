import type { DocumentedFunction, DocumentedHeading } from "../documentation/docblocks.mjs";
import { code, escaped, type Page } from "./html";
import { cautionLinks } from "./cautions";
import { familyFile } from "./family-page";
import { recipesWith } from "./recipes";
import { sourceOf, STATUS_WORDS } from "./sources";
import { exampleItem } from "./worked-example";

/** A function as it is written in a cell: =YARN.ID(needed, [optional]). */
function syntaxOf({ id, parameters }: DocumentedFunction): string {
  return `=YARN.${id}(${parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ")})`;
}

/** The page of one function, in the order in which a person needs it: what, how, try, arguments, result, traps, sources. */
export function functionPage(documented: DocumentedFunction, all: readonly DocumentedFunction[], title: string): Page {
  const { id, family, description, examples, parameters, returns, remarks, throws, sources } = documented;
  const linked = (text: string) => withLinks(text, id, all);
  const [first] = examples;
  const body = [
    `<p class="stage"><a href="${familyFile(family)}">${escaped(title)}</a></p>`,
    `<h1>${id}</h1>`,
    `<p class="lead">${linked(description)}</p>`,
    `<pre class="syntax" tabindex="0" role="region" aria-label="Syntax"><code>${escaped(syntaxOf(documented))}</code></pre>`,
    `<section aria-labelledby="try"><h2 id="try">Try it</h2>`,
    `<form class="try" hidden><label for="formula">Formula, worked out in this page</label>`,
    `<textarea id="formula" rows="${first && first.formula.length > 60 ? 4 : 2}" spellcheck="false" autocapitalize="off" autocomplete="off">${escaped(first?.formula ?? "")}</textarea>`,
    `<button type="submit">Work it out</button></form>`,
    `<div class="worked-out" role="status"></div>`,
    `<noscript><p>Trying needs scripts; the examples below show the results.</p></noscript></section>`,
    `<section aria-labelledby="examples"><h2 id="examples">Example${examples.length > 1 ? "s" : ""}</h2>`,
    `<ul class="examples">`,
    ...examples.map((example, place) => exampleItem(example, place === 0 ? documented : undefined)),
    `</ul></section>`,
    `<section aria-labelledby="arguments"><h2 id="arguments">Arguments</h2>`,
    parameters.length === 0 ? `<p>None.</p>` : argumentList(documented, linked),
    `</section>`,
    `<section aria-labelledby="result"><h2 id="result">Result</h2><p>${linked(returns)}</p></section>`,
    remarks === ""
      ? ""
      : `<section aria-labelledby="remarks"><h2 id="remarks">How it is worked out</h2><p>${linked(remarks)}</p></section>`,
    `<section aria-labelledby="errors"><h2 id="errors">Errors</h2><p>${linked(throws)}</p></section>`,
    `<section aria-labelledby="sources"><h2 id="sources">What it rests on</h2><ul>`,
    ...sources.map((key) => {
      const { title: name, status } = sourceOf(key);
      const plain = key === "MEMORY" || key === "PRACTICE" || key === "DEFINITION";
      return `<li>${escaped(name)}${plain ? "" : ` <span class="status ${status}">${STATUS_WORDS[status]}</span>`}</li>`;
    }),
    `</ul></section>`,
    recipes(id),
    cautionLinks(family),
    related(documented, all, title),
  ];
  return {
    file: `${id}.html`,
    title: `${id} · Yarn worksheet functions`,
    description,
    body: body.filter((part) => part !== "").join("\n"),
    scripts: ["try.js", "../functions.js"],
  };
}

function argumentList({ parameters }: DocumentedFunction, linked: (text: string) => string): string {
  const entries = parameters.map(
    ({ name, optional, description, headings }) =>
      `<dt>${code(name)}${optional ? ' <span class="optional">optional</span>' : ""}</dt><dd>${linked(description)}${headings ? headingsShown(headings) : ""}</dd>`,
  );
  return `<dl class="arguments">${entries.join("\n")}</dl>`;
}

function recipes(id: string): string {
  const links = recipesWith(id).map(({ file, title }) => `<li><a href="${file}">${escaped(title)}</a></li>`);
  if (links.length === 0) return "";
  return `<section aria-labelledby="recipes"><h2 id="recipes">Recipes with it</h2><ul>${links.join("")}</ul></section>`;
}

/** What the columns of an argument may be headed, with what else people call them. */
function headingsShown(headings: readonly DocumentedHeading[]): string {
  const said = ({ heading, synonyms, needed }: DocumentedHeading): string =>
    `<li><b>${escaped(heading)}</b>${needed ? "" : " (may be missing)"}${synonyms.length > 0 ? `, also ${escaped(synonyms.join(", "))}` : ""}</li>`;
  return `<details class="headings"><summary>Headings it knows</summary><ul>${headings.map(said).join("")}</ul></details>`;
}

function related({ id, family }: DocumentedFunction, all: readonly DocumentedFunction[], title: string): string {
  const others = all.filter((other) => other.family === family && other.id !== id);
  if (others.length === 0) return "";
  const links = others.map((other) => `<li><a href="${other.id}.html">${other.id}</a></li>`);
  return `<nav class="related" aria-labelledby="related"><h2 id="related">Also in ${escaped(title)}</h2><ul>${links.join("")}</ul></nav>`;
}

/** Names of other functions become links to their pages; what stands in quotation marks stays as it is. */
function withLinks(text: string, own: string, all: readonly DocumentedFunction[]): string {
  const known = new Set(all.map(({ id }) => id));
  return text
    .split(/("[^"]*")/)
    .map((part) =>
      part.startsWith('"')
        ? escaped(part)
        : escaped(part).replace(/\b(YARN\.)?([A-Z][A-Z0-9]{2,})\b/g, (whole, prefix: string | undefined, id: string) =>
            id !== own && known.has(id) ? `<a href="${id}.html">${prefix ?? ""}${id}</a>` : whole,
          ),
    )
    .join("");
}
