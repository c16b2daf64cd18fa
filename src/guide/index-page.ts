import { FAMILIES, type DocumentedFunction } from "../documentation/docblocks.mjs";
import { COUNT_SYSTEMS } from "../tables/count-systems";
import { REGAINS } from "../tables/regains";
import { escaped, type Page } from "./html";
import { sign } from "./drawings/signs";
import { familyFile } from "./family-page";
import { STEPS, type Step } from "./job";
import { wordsOf } from "./page/matching";
import type { SearchWords } from "./page/search";
import { RECIPES, type Recipe } from "./recipes";
import { STAGE_PURPOSES } from "./stages";
import { tradeWordsOf } from "./trade-words";
import { purposeOf, titleOf, type SampleWorkbook } from "./workbook-pages";

interface Entry {
  readonly id: string;
  readonly address: string;
  readonly description: string;
  readonly nearest?: string;
  readonly trade?: string;
  readonly details?: string;
}

export function indexPage(functions: readonly DocumentedFunction[], workbooks: readonly SampleWorkbook[]): Page {
  const families = Object.entries(FAMILIES).filter(([family]) => functions.some((own) => own.family === family));
  const stages = families.map(([family, title]) => {
    const own = functions.filter((documented) => documented.family === family);
    return stage(family, title, STAGE_PURPOSES[family] ?? "", own.map(functionEntry), familyFile(family));
  });
  return {
    file: "index.html",
    title: "Yarn worksheet functions",
    description: "Worksheet functions for having yarn made, by steps of the job, with a search.",
    scripts: ["search-words.js", "search.js"],
    body: `<h1>Yarn worksheet functions</h1>
<p class="lead">${functions.length} functions for having yarn made, from greasy wool to the landed cost of a skein. Write them in a cell like any other: <code>=YARN.COUNT(24,"Nm","tex")</code>.</p>
<form class="search" role="search" hidden><label for="search">Find a function by what you would call it</label>
<input id="search" type="search" autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="five ply, regain, landed, noil …"></form>
<p class="found" role="status"></p>
<ul class="results entries" hidden></ul>
<div class="stages">
<section aria-labelledby="job"><h2 id="job">The job in ten steps</h2>
<ol class="job">
${STEPS.map(step).join("\n")}
</ol></section>
${stages.join("\n")}
${stage("recipe-list", "Recipes", "Cases that take two or three functions together.", RECIPES.map(recipeEntry), "recipes.html")}
${stage("pages", "Tables and workbooks", "", otherEntries(workbooks))}
<section aria-labelledby="manners"><h2 id="manners">How every function behaves</h2>
<ul>
<li><strong>Cells and ranges.</strong> Every argument takes one cell or a range; one formula fills a whole column. Shapes must be equal, or one of them a single cell, row or column.</li>
<li><strong>Shares are fractions.</strong> A loss, yield or regain of 18.25 % is 0.1825, shown as a percent by the cell. A whole 18.25 is refused.</li>
<li><strong>Words.</strong> Units, systems and methods are words in quotation marks or cells. A word with two meanings is refused, and the message names them.</li>
<li><strong>Left out.</strong> An optional argument that is left out takes the value its description names. A blank cell is not zero.</li>
<li><strong>Errors stay alone.</strong> A bad row gives an error in its own cell, with a message that names the argument, what came and what is allowed.</li>
<li><strong>Nothing is fetched or remembered.</strong> Prices, rates and tariffs are always arguments.</li>
</ul></section>
</div>`,
  };
}

function step({ sign: drawn, title, sentence, families }: Step): string {
  const links = families.map((family) => {
    const name = FAMILIES[family as keyof typeof FAMILIES];
    return `<a href="${familyFile(family)}">${escaped(name)}</a>`;
  });
  return `<li>${sign(drawn)}<div><h3>${escaped(title)}</h3><p>${escaped(sentence)}</p><p class="families">${links.join(" · ")}</p></div></li>`;
}

function stage(anchor: string, title: string, purpose: string, entries: readonly Entry[], page?: string): string {
  const heading = page === undefined ? escaped(title) : `<a href="${page}">${escaped(title)}</a>`;
  return `<section aria-labelledby="${anchor}"><h2 id="${anchor}">${heading}</h2>${purpose === "" ? "" : `<p>${escaped(purpose)}</p>`}
<ul class="entries">
${entries.map(item).join("\n")}
</ul></section>`;
}

function item({ id, address, description }: Entry): string {
  return `<li class="entry" data-id="${escaped(id)}"><a href="${address}">${escaped(id)}</a> <span>${escaped(description)}</span></li>`;
}

/** The script that holds what entries are searched by besides their text; it loads with the search and only there. */
export function searchWords(functions: readonly DocumentedFunction[], workbooks: readonly SampleWorkbook[]): string {
  const entries = [...RECIPES.map(recipeEntry), ...functions.map(functionEntry), ...otherEntries(workbooks)];
  const words: SearchWords = Object.fromEntries(
    entries.map(({ id, nearest = "", trade = "", details = "" }) => [
      id,
      [nearest, trade, details].map((text) => [...new Set(wordsOf(text))].join(" ")),
    ]),
  );
  return `self.searchWords = ${JSON.stringify(words)};\n`;
}

function recipeEntry({ title, file, situation, words, reading }: Recipe): Entry {
  return { id: title, address: file, description: `Recipe. ${situation}`, nearest: words, details: reading };
}

function functionEntry({ id, family, description, parameters, remarks }: DocumentedFunction): Entry {
  return {
    id,
    address: `${id}.html`,
    description,
    nearest: tradeWordsOf(id, true),
    trade: tradeWordsOf(id, false),
    details: [
      FAMILIES[family as keyof typeof FAMILIES],
      ...parameters.flatMap((own) => [own.name.replace(/_/g, " "), own.description]),
      remarks,
    ].join(" "),
  };
}

function otherEntries(workbooks: readonly SampleWorkbook[]): Entry[] {
  return [
    {
      id: "Count systems",
      address: "table-count-systems.html",
      description: "Every count system by its word, with its size in tex and its source.",
      nearest: COUNT_SYSTEMS.flatMap(({ word, meaning, aliases }) => [word, meaning, ...aliases]).join(" "),
    },
    {
      id: "Standard regains",
      address: "table-regains.html",
      description: "Regains of fibres by schedule, with their status.",
      nearest: REGAINS.flatMap(({ fibre, form, schedule }) => [fibre, form, schedule]).join(" "),
    },
    ...workbooks.map((workbook) => ({
      id: titleOf(workbook),
      address: workbook.page,
      description: `Sample workbook. ${purposeOf(workbook)}`,
    })),
    {
      id: "Cautions",
      address: "cautions.html",
      description: "Dyes, pressure, machinery, labels, customs and tax: who decides, and it is not a worksheet.",
    },
    {
      id: "When a cell shows #NAME?",
      address: "dead-calls.html",
      description: "Why calls go dead in Excel, and how they are healed by hand, by the pane and without Excel.",
      nearest: "name error dead broken formula gone add-in missing heal repair",
    },
    {
      id: "First opening in Excel",
      address: "first-opening.html",
      description:
        "A form of fifteen minutes for the first person who has Excel; the first opening has not happened yet.",
    },
    {
      id: "Recalculate here",
      address: "recalculate-here.html",
      description:
        "A workbook of yours checked, recalculated, mended or made plain in a page; nothing leaves the computer.",
    },
    {
      id: "LibreOffice Calc",
      address: "libreoffice-calc.html",
      description: "The same functions in another spreadsheet program: the extension, and what is otherwise there.",
    },
    {
      id: "Many workbooks",
      address: "many-workbooks.html",
      description: "A list of thousands audited: going on after a stop, batches on several machines.",
    },
    {
      id: "What a figure is known to",
      address: "known-to.html",
      description:
        "Inputs drawn from their ranges through your own workbook: spread, chance of a limit, which input matters.",
    },
  ];
}
