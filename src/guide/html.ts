import { MOST_BESIDE } from "./page/written";

/** Text as it stands in a page. */
export function escaped(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}

export interface Page {
  /** File name in the guide's folder, with its ending. */
  readonly file: string;
  readonly title: string;
  readonly description: string;
  readonly body: string;
  /** Scripts, by their addresses from the guide's folder, in the order in which they run. */
  readonly scripts?: readonly string[];
}

/** Pages load only what stands beside them, and nothing that is written into the page. */
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";

const NAVIGATION: readonly (readonly [file: string, name: string])[] = [
  ["index.html", "All functions"],
  ["table-count-systems.html", "Count systems"],
  ["table-regains.html", "Regains"],
  ["recipes.html", "Recipes"],
  ["sample-workbooks.html", "Workbooks"],
  ["recalculate-here.html", "Recalculate here"],
  ["cautions.html", "Cautions"],
];

export function pageText({ file, title, description, body, scripts = [] }: Page, version: string): string {
  const links = NAVIGATION.map(
    ([address, name]) =>
      `<li><a href="${address}"${address === file ? ' aria-current="page"' : ""}>${escaped(name)}</a></li>`,
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="description" content="${escaped(description)}">
<title>${escaped(title)}</title>
<link rel="icon" href="../icons/icon-32.png">
<link rel="stylesheet" href="style.css">
${scripts.map((script) => `<script defer src="${script}"></script>\n`).join("")}</head>
<body>
<a class="skip" href="#content">To the content</a>
<header>
<a class="name" href="index.html">Yarn worksheet functions</a>
<nav aria-label="Guide"><ul>${links.join("")}</ul></nav>
</header>
<main id="content">
${body}
</main>
<footer>
<p>Version ${escaped(version)}. <a href="dead-calls.html">When a cell shows #NAME?</a> · <a href="first-opening.html">First opening in Excel</a> · <a href="libreoffice-calc.html">LibreOffice Calc</a> · <a href="many-workbooks.html">Many workbooks</a> · <a href="known-to.html">What a figure is known to</a> · <a href="table-sources.html">Sources</a> · <a href="privacy-and-licence.html">Privacy and licence</a></p>
</footer>
</body>
</html>
`;
}

/** A table that scrolls sideways by itself where the screen is narrow; cells are written as they are to stand. */
export function scrollingTable(
  name: string,
  headers: readonly string[],
  rows: readonly (readonly string[])[],
  numeric: readonly number[] = [],
): string {
  const cards = headers.length > MOST_BESIDE;
  // What is shown as cards is a table to a reader of the screen all the same.
  const role = (word: string) => (cards ? ` role="${word}"` : "");
  const classOf = (column: number) => (numeric.includes(column) ? ' class="number"' : "");
  const head = headers
    .map((header, column) => `<th scope="col"${role("columnheader")}${classOf(column)}>${escaped(header)}</th>`)
    .join("");
  const cell = (text: string, column: number) =>
    column === 0
      ? `<th scope="row"${role("rowheader")}${classOf(column)}>${text}</th>`
      : `<td${role("cell")}${classOf(column)}${cards ? ` data-heading="${escaped(headers[column] ?? "")}"` : ""}>${text}</td>`;
  const lines = rows.map((row) => `<tr${role("row")}>${row.map(cell).join("")}</tr>`);
  return `<div class="scroller" tabindex="0" role="region" aria-label="${escaped(name)}">
<table${role("table")}${cards ? ' class="cards"' : ""}><thead${role("rowgroup")}><tr${role("row")}>${head}</tr></thead>
<tbody${role("rowgroup")}>
${lines.join("\n")}
</tbody></table>
</div>`;
}

export function code(text: string): string {
  return `<code>${escaped(text)}</code>`;
}
