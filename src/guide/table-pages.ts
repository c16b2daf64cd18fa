import { AMBIGUOUS_COUNT_WORDS, COUNT_SYSTEMS } from "../tables/count-systems";
import { REGAIN_SCHEDULES, REGAINS } from "../tables/regains";
import { SOURCES } from "../tables/sources";
import type { DocumentedFunction } from "../documentation/docblocks.mjs";
import { code, escaped, scrollingTable, type Page } from "./html";
import { sourceOf, statusMark } from "./sources";

export function countSystemsPage(): Page {
  const table = (direct: boolean) =>
    scrollingTable(
      direct ? "Direct count systems" : "Indirect count systems",
      ["Word", "Meaning", direct ? "Count 1 in tex" : "tex × count", "Also written", "Source"],
      COUNT_SYSTEMS.filter((system) => system.direct === direct).map(({ word, meaning, size, aliases, source }) => [
        code(word),
        escaped(meaning),
        plain(size.numerator / size.denominator),
        aliases.map(code).join(", "),
        sourceCell(source),
      ]),
      [2],
    );
  const doubtful = Object.entries(AMBIGUOUS_COUNT_WORDS).map(([word, advice]) => [code(word), escaped(advice)]);
  return {
    file: "table-count-systems.html",
    title: "Count systems · Yarn worksheet functions",
    description: "Every count system the functions know: its word, its meaning, its size in tex and its source.",
    body: `<h1>Count systems</h1>
<p class="lead">The words to write as a count system, in every function that asks for one. Upper and lower case and outer spaces do not matter.</p>
<p>Sizes are kept as exact fractions of the international yard and pound; the figures below are rounded. To convert, use <a href="COUNT.html">COUNT</a>.</p>
<h2 id="direct">Direct: mass in a length</h2>
<p>A thicker yarn has a higher count. tex = size × count.</p>
${table(true)}
<h2 id="indirect">Indirect: length in a mass</h2>
<p>A thicker yarn has a lower count. tex = size ÷ count.</p>
${table(false)}
<h2 id="doubtful">Words with more than one meaning</h2>
<p>These are refused, and the message says what to write.</p>
${scrollingTable("Words with more than one meaning", ["Word", "Write instead"], doubtful)}`,
  };
}

export function regainsPage(): Page {
  const sections = REGAIN_SCHEDULES.map(({ word, aliases }) => {
    const rows = REGAINS.filter(({ schedule }) => schedule === word);
    return `<section aria-labelledby="${anchorOf(word)}"><h2 id="${anchorOf(word)}">${escaped(word)}</h2>
<p>Also written ${aliases.map(code).join(", ")}.</p>
${scrollingTable(
  `Standard regains, ${word}`,
  ["Fibre", "Form", "Regain", "Status"],
  rows.map(({ fibre, form, covers, regain, status }) => [
    escaped(fibre),
    escaped([form, ...covers].filter((text) => text !== "").join(", ")),
    `${plain(regain * 100)} %`,
    statusMark(status),
  ]),
  [2],
)}
<p class="source">${[...new Set(rows.map(({ source }) => source))].map((key) => escaped(sourceOf(key).title)).join("; ")}.</p></section>`;
  });
  return {
    file: "table-regains.html",
    title: "Standard regains · Yarn worksheet functions",
    description: "Standard (conventional, commercial) regains of fibres by schedule, with source and status.",
    body: `<h1>Standard regains</h1>
<p class="lead">Water as a share of dry mass at which fibre is invoiced or labelled, by schedule. The schedules differ: agree which one binds you.</p>
<p>In a cell, <a href="REGAIN.html">REGAIN</a> gives one value and <a href="REGAINS.html">REGAINS</a> the whole table. Which edition is in force is for the law and your contract: see <a href="cautions.html#labels">cautions</a>.</p>
<nav aria-label="Schedules"><ul class="jump">${REGAIN_SCHEDULES.map(({ word }) => `<li><a href="#${anchorOf(word)}">${escaped(word)}</a></li>`).join("")}</ul></nav>
${sections.join("\n")}`,
  };
}

export function sourcesPage(functions: readonly DocumentedFunction[]): Page {
  const items = SOURCES.map(({ key, title, status }) => {
    const own = functions.filter(({ sources }) => sources.includes(key));
    const links = own.map(({ id }) => `<a href="${id}.html">${id}</a>`);
    return `<li id="${sourceAnchor(key)}">${escaped(title)} ${statusMark(status)}
<p class="ids">${links.join(" ")}</p></li>`;
  });
  return {
    file: "table-sources.html",
    title: "Sources · Yarn worksheet functions",
    description: "What the functions rest on, and how well each source is known.",
    body: `<h1>Sources</h1>
<p class="lead">What the functions rest on, and which functions rest on it. Most figures were read in the source named; a few are from memory or are practice without a source, and say so.</p>
<ul class="entries">
${items.join("\n")}
</ul>`,
  };
}

function anchorOf(word: string): string {
  return word.toLowerCase().replace(/[^a-z0-9]+/g, "-");
}

function sourceCell(key: string): string {
  const { status } = sourceOf(key);
  return status === "read"
    ? `<a href="table-sources.html#${sourceAnchor(key)}">${escaped(key)}</a>`
    : statusMark(status);
}

function sourceAnchor(key: string): string {
  return `source-${key.toLowerCase()}`;
}

/** Up to ten significant digits, never in powers of ten. */
function plain(value: number): string {
  return Number(value.toPrecision(10)).toLocaleString("en-US", { maximumFractionDigits: 12, useGrouping: false });
}
