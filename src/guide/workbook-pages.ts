import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { code, escaped, type Page } from "./html";
import { readWorkbook, type WorkbookFacts } from "./workbook-reader";

export interface SampleWorkbook {
  readonly file: string;
  readonly page: string;
  readonly facts: WorkbookFacts;
}

/** The workbooks that stand in the folder, by name. */
export function sampleWorkbooks(folder = "sample-workbooks"): SampleWorkbook[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(".xlsx") && !file.startsWith("~"))
    .sort()
    .map((file) => ({
      file,
      page: `workbook-${basename(file, ".xlsx")}.html`,
      facts: readWorkbook(readFileSync(join(folder, file))),
    }));
}

export function purposeOf({ facts }: SampleWorkbook): string {
  return facts.about.find(([label]) => label === "Purpose")?.[1] ?? "";
}

export function titleOf({ facts, file }: SampleWorkbook): string {
  return facts.title === "" ? basename(file, ".xlsx").replace(/-/g, " ") : facts.title;
}

/** The list of the workbooks, then a page for each. */
export function workbookPages(workbooks: readonly SampleWorkbook[], ids: readonly string[]): Page[] {
  return [listPage(workbooks), ...workbooks.map((workbook) => workbookPage(workbook, ids))];
}

function listPage(workbooks: readonly SampleWorkbook[]): Page {
  const items = workbooks.map(
    (workbook) =>
      `<li><h2><a href="${workbook.page}">${escaped(titleOf(workbook))}</a></h2><p>${escaped(purposeOf(workbook))}</p></li>`,
  );
  return {
    file: "sample-workbooks.html",
    title: "Sample workbooks · Yarn worksheet functions",
    description: "Workbooks of invented cases, to start your own from.",
    body: `<h1>Sample workbooks</h1>
<p class="lead">Workbooks of invented cases, to start your own from. Cells with a box and a tint are typed in; every sheet shows whether the checks hold.</p>
${items.length === 0 ? "<p>This build holds no workbooks.</p>" : `<ul class="entries">${items.join("\n")}</ul>`}
<h2 id="without">Opened without the add-in</h2>
<p>The values that were saved stay, and can be read, printed and copied. A cell that is recalculated shows <code>#NAME?</code> until the add-in is there.</p>`,
  };
}

function workbookPage(workbook: SampleWorkbook, ids: readonly string[]): Page {
  const { file, page, facts } = workbook;
  const title = titleOf(workbook);
  const links = facts.functions.map((id) => (ids.includes(id) ? `<a href="${id}.html">${id}</a>` : code(id)));
  return {
    file: page,
    title: `${title} · Yarn worksheet functions`,
    description: purposeOf(workbook) || title,
    body: `<p class="stage"><a href="sample-workbooks.html">Sample workbooks</a></p>
<h1>${escaped(title)}</h1>
<p class="lead">${escaped(purposeOf(workbook))}</p>
<p><a class="download" href="../workbooks/${encodeURIComponent(file)}" download>${escaped(file)}</a></p>
<dl class="arguments">${aboutEntries(facts)}</dl>
<h2 id="sheets">Sheets</h2>
<dl class="arguments">${facts.sheets
      .map(({ name, sentence }) => `<dt>${escaped(name)}</dt><dd>${escaped(sentence)}</dd>`)
      .join("\n")}</dl>
<h2 id="functions">Functions it calls</h2>
<p class="ids">${links.join(" ")}</p>`,
  };
}

/** The purpose is the page's lead, so it is not said twice. */
function aboutEntries({ about }: WorkbookFacts): string {
  const entries: [string, string[]][] = [];
  for (const [label, text] of about) {
    const last = entries[entries.length - 1];
    if (label === "" && last) last[1].push(text);
    else entries.push([label, [text]]);
  }
  return entries
    .filter(([label]) => label !== "Purpose")
    .map(([label, texts]) => `<dt>${escaped(label)}</dt>${texts.map((text) => `<dd>${escaped(text)}</dd>`).join("")}`)
    .join("\n");
}
