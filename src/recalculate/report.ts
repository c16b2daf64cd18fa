import { basename } from "node:path";
import { writeWhole, type Job, type Recalculated } from "./recalculation";
import { newWorkbook, reportSheet, sentenceOnSheet, tableOnSheet, writeReportBook } from "./report-book";
import { pageOf, tableOnPage, type ReportTable } from "./report-page";
import { counted, findingsTable, KINDS, MEANINGS, workingPaper, type Kind, type WorkingPaper } from "./working-paper";
import { encoded } from "./xml";

/** Writes a report for reading and filing: a page, or a workbook to sort and filter. */
export async function writeReport(
  file: string,
  results: readonly Recalculated[],
  asked: Partial<Job> = {},
  written = new Date(),
): Promise<void> {
  const papers = results.map((result) => workingPaper(result, asked, written));
  if (/\.html$/i.test(file)) writeWhole(file, onPage(papers));
  else await writeBook(file, papers);
}

const TITLE = "Recalculation";

function onPage(papers: readonly WorkingPaper[]): string {
  const overview = papers.length > 1 ? `${tableOnPage(overviewOf(papers), "Workbooks")}\n` : "";
  return pageOf(TITLE, `<h1>${TITLE}</h1>\n${overview}${papers.map(paperOnPage).join("\n")}`, { lying: true });
}

function overviewOf(papers: readonly WorkingPaper[]): ReportTable {
  return {
    columns: [{ heading: "Workbook" }, { heading: "Result" }],
    rows: papers.map(({ title, facts }) => [title, facts.find(([label]) => label === "Result")?.[1] ?? ""]),
  };
}

/** What is longer is for the workbook, which can be sorted and filtered. */
const MOST_ON_PAGE = 2_000;

function paperOnPage({ title: called, facts, compared, notCompared, totals, findings }: WorkingPaper): string {
  const kinds = (Object.keys(KINDS) as Kind[]).filter((kind) => findings.some((one) => one.kind === kind));
  return [
    `<section>\n<h2>${encoded(called)}</h2>`,
    ...listed(
      "The file and the work",
      facts.map(([label, words]) => `${label}: ${words}`),
    ),
    ...listed("What was compared", compared),
    ...listed("What was not", notCompared),
    ...(findings.length > 0 ? [tableOnPage(totals)] : []),
    ...kinds.map((kind) => {
      const own = findings.filter((one) => one.kind === kind);
      const rest = own.length - MOST_ON_PAGE;
      const table = findingsTable(own.slice(0, MOST_ON_PAGE), { withKind: false });
      const note = rest > 0 ? `${counted(rest, "line")} more: --report with .xlsx holds all.` : undefined;
      const title = KINDS[kind].replace(/^./, (first) => first.toUpperCase());
      return [
        `<h3>${encoded(title)}</h3>`,
        `<p class="small">${encoded(MEANINGS[kind])}</p>`,
        tableOnPage({ ...table, ...(note === undefined ? {} : { note }) }, title),
      ].join("\n");
    }),
    "</section>",
  ].join("\n");
}

function listed(title: string, sentences: readonly string[]): string[] {
  if (sentences.length === 0) return [];
  return [`<h3>${title}</h3>`, `<ul>${sentences.map((sentence) => `<li>${encoded(sentence)}</li>`).join("")}</ul>`];
}

/** A sheet that says what was done, and one with all findings to filter. */
async function writeBook(file: string, papers: readonly WorkingPaper[]): Promise<void> {
  const workbook = await newWorkbook();
  const summary = reportSheet(workbook, "Summary");
  let row = sentenceOnSheet(summary, 1, TITLE, { bold: true, size: 16 });
  for (const { title, facts, compared, notCompared, totals, findings } of papers) {
    row = sentenceOnSheet(summary, row + 1, title, { bold: true, size: 14 });
    for (const [label, words] of facts) row = sentenceOnSheet(summary, row, `${label}: ${words}`);
    row = listOnSheet(summary, row, "What was compared", compared);
    row = listOnSheet(summary, row, "What was not", notCompared);
    if (findings.length > 0) row = tableOnSheet(summary, row + 1, totals);
  }
  const kinds = Object.keys(KINDS) as Kind[];
  row = listOnSheet(
    summary,
    row,
    "What the findings mean",
    kinds
      .filter((kind) => papers.some(({ findings }) => findings.some((one) => one.kind === kind)))
      .map((kind) => `${KINDS[kind]}: ${MEANINGS[kind]}`),
  );

  const sheet = reportSheet(workbook, "Findings", 1);
  const several = papers.length > 1;
  const tables = papers.map(({ findings }) => findingsTable(findings, { withKind: true }));
  const [{ columns } = findingsTable([], { withKind: true })] = tables;
  const table: ReportTable = {
    columns: several ? [{ heading: "Workbook" }, ...columns] : columns,
    rows: tables.flatMap(({ rows }, index) =>
      rows.map((cells) => (several ? [basename(papers[index]?.title ?? ""), ...cells] : cells)),
    ),
  };
  [...(several ? [WORKBOOK_WIDTH] : []), ...FINDING_WIDTHS].forEach((width, index) => {
    sheet.getColumn(index + 1).width = width;
  });
  tableOnSheet(sheet, 1, table);
  sheet.pageSetup.orientation = "landscape";
  sheet.pageSetup.printTitlesRow = "1:1";
  sheet.autoFilter = { from: { row: 1, col: 1 }, to: { row: table.rows.length + 1, col: table.columns.length } };
  await writeReportBook(file, workbook);
}

/** Finding, sheet, cell, row, column, formula, saved, now, difference, per cent, remark. */
const FINDING_WIDTHS = [14, 12, 7, 20, 20, 34, 18, 18, 12, 9, 28];
const WORKBOOK_WIDTH = 18;

function listOnSheet(
  sheet: Parameters<typeof sentenceOnSheet>[0],
  from: number,
  title: string,
  sentences: readonly string[],
): number {
  if (sentences.length === 0) return from;
  let row = sentenceOnSheet(sheet, from + 1, title, { bold: true, size: 12 });
  for (const sentence of sentences) row = sentenceOnSheet(sheet, row, sentence);
  return row;
}
