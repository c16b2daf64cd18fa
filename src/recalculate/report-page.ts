import { generalText, shownIn } from "./number-format";
import { encoded } from "./xml";

/** A table of a report, for a page and for a sheet. */
export interface ReportTable {
  readonly title?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Shown[])[];
  /** May it be broken over two pages, however short it is? */
  readonly breaks?: boolean;
  /** Its words may be long and without a space: they are broken anywhere. */
  readonly long?: boolean;
  /** What is said below it. */
  readonly note?: string;
}

export interface Column {
  readonly heading: string;
  /** How its numbers are shown; a column of words has none. */
  readonly shows?: Shows;
  /** Do its figures have formats of their own? */
  readonly figures?: boolean;
  /** Are its words never broken? */
  readonly unbroken?: boolean;
}

export interface Shows {
  readonly decimals: number;
  /** A share of 1 is shown as 100 %. */
  readonly percent?: boolean;
}

/** A number as a cell of a workbook shows it. */
export interface InFormat {
  readonly value: number;
  readonly format: string;
  readonly date1904?: boolean;
}

export type Shown = string | number | boolean | InFormat;

/**
 * Ink on paper: everything is told by place, length and words, so that a print in black and white and an eye that sees
 * no colours lose nothing. A4 with margins that every printer can keep.
 */
const STYLE = `
:root{color-scheme:light dark;--ink:#1a1a1a;--paper:#fff;--soft:#595959;--line:#bdbdbd;--fill:#4d4d4d}
@media(prefers-color-scheme:dark){:root{--ink:#ececec;--paper:#161616;--soft:#b5b5b5;--line:#5a5a5a;--fill:#a8a8a8}}
@page{size:A4;margin:16mm 14mm}
*{box-sizing:border-box}
body{font:15px/1.45 system-ui,sans-serif;color:var(--ink);background:var(--paper);max-width:50rem;margin:0 auto;padding:1.5rem 1rem}
h1{font-size:1.6rem;line-height:1.2;margin:0 0 .2rem}
h2{font-size:1.2rem;margin:2.2rem 0 .4rem;padding-top:.5rem;border-top:2px solid var(--ink)}
h3{font-size:1rem;margin:1.4rem 0 .3rem}
p{margin:.4rem 0}
.lead{font-size:1.1rem}
.small{color:var(--soft);font-size:.87rem}
.wide{overflow-x:auto}
table{border-collapse:collapse;margin:.4rem 0;font-variant-numeric:tabular-nums}
th,td{padding:.22rem .7rem .22rem 0;text-align:left;vertical-align:top;border-bottom:1px solid var(--line);overflow-wrap:break-word}
.long td{overflow-wrap:anywhere;min-width:4.5em}
thead th{border-bottom:2px solid var(--ink);vertical-align:bottom}
.number{text-align:right}
td.number,td.unbroken{white-space:nowrap}
figure{margin:1rem 0}
svg{display:block;width:100%;height:auto}
.narrow{display:none;max-width:27rem}
@media screen and (max-width:36rem){.broad{display:none}.narrow{display:block}}
svg text{font:12px system-ui,sans-serif;fill:var(--ink);paint-order:stroke;stroke:var(--paper);stroke-width:3px}
@media print{
:root{--ink:#000;--paper:#fff;--soft:#444;--line:#aaa;--fill:#4d4d4d}
body{font-size:10.5pt;max-width:none;padding:0}
figure,tr,h2,h3,.short{break-inside:avoid}
section+section,section+h1,.overleaf{break-before:page}
section+section h2:first-child,.overleaf h3:first-child{margin-top:0}
figure{margin:.5rem 0}
th,td{padding-top:.12rem;padding-bottom:.12rem}
svg{width:66%}
h2,h3,h3+.small{break-after:avoid}
thead{display:table-header-group}
.wide{overflow:visible}
}`;

/** A sheet of paper on its side, for tables of many columns. */
const LYING = `
@page{size:A4 landscape;margin:14mm}
body{max-width:80rem}
@media print{body{font-size:9pt}}`;

/** A page that stands by itself: no script, nothing loaded. */
export function pageOf(title: string, body: string, { lying = false }: { lying?: boolean } = {}): string {
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${encoded(title)}</title>
<style>${STYLE}${lying ? LYING : ""}</style></head>
<body>
${body}
</body></html>
`;
}

/** A table of so many rows is not broken over two pages. */
const SHORT = 25;

/** Wide tables scroll by themselves, with the keyboard too; the label says what scrolls. */
export function tableOnPage(
  { title, columns, rows, breaks = false, long = false, note }: ReportTable,
  label = title ?? "Table",
  level = 3,
): string {
  const cell = (tag: "th" | "td", text: string, column: Column) => {
    const kind = isOfNumbers(column) ? ' class="number"' : column.unbroken ? ' class="unbroken"' : "";
    return `<${tag}${kind}>${encoded(text)}</${tag}>`;
  };
  const heads = columns.map((column) => cell("th", column.heading, column));
  const lines = rows.map((row) => {
    const cells = columns.map((column, index) => cell("td", shownAs(row[index] ?? "", column.shows), column));
    return `<tr>${cells.join("")}</tr>`;
  });
  return [
    ...(title === undefined ? [] : [`<h${level}>${encoded(title)}</h${level}>`]),
    `<div class="wide${rows.length <= SHORT && !breaks ? " short" : ""}${long ? " long" : ""}" tabindex="0" role="region" aria-label="${encoded(label)}"><table><thead><tr>${heads.join("")}</tr></thead><tbody>`,
    ...lines,
    "</tbody></table>",
    ...(note === undefined ? [] : [`<p class="small">${encoded(note)}</p>`]),
    "</div>",
  ].join("\n");
}

export function isOfNumbers({ shows, figures = false }: Column): boolean {
  return shows !== undefined || figures;
}

/** A number as its column shows it, with a thin space at the thousands. */
export function shownAs(value: Shown, shows: Shows | undefined): string {
  if (typeof value === "object") return shownIn(value.format, value.value, value) ?? generalText(value.value);
  if (typeof value !== "number" || shows === undefined) return String(value);
  const { decimals, percent = false } = shows;
  const [whole = "", ...rest] = Math.abs(percent ? 100 * value : value)
    .toFixed(decimals)
    .split(".");
  const digits = [whole.replace(/\B(?=(\d{3})+$)/g, "\u202f"), ...rest].join(".");
  const sign = value < 0 && /[1-9]/.test(digits) ? "−" : "";
  return `${sign}${digits}${percent ? " %" : ""}`;
}
