import { basename } from "node:path";
import { writeWhole, type Recalculated } from "./recalculation";
import { newWorkbook, reportSheet, tableOnSheet, widen, writeReportBook } from "./report-book";
import { pageOf, tableOnPage, type ReportTable, type Shown } from "./report-page";

/** Writes a report for reading and filing: a page, or a workbook to sort and filter. */
export async function writeReport(file: string, results: readonly Recalculated[]): Promise<void> {
  const tables = { summary: summaryOf(results), cells: cellsOf(results) };
  if (/\.html$/i.test(file)) writeWhole(file, onPage(tables));
  else await writeBook(file, tables);
}

interface Tables {
  readonly summary: ReportTable;
  readonly cells: ReportTable;
}

function cellsOf(results: readonly Recalculated[]): ReportTable {
  const rows = results.flatMap(({ workbook, error, faults, taken, differences }): Shown[][] => [
    ...(error === undefined ? [] : [[workbook, "", "", "", "", "", error]]),
    ...[...faults, ...taken].map(({ sheet, cell, message }) => [workbook, sheet, cell, "", "", "", message]),
    ...differences.map(({ sheet, cell, formula, saved, now, message }) => [
      workbook,
      sheet,
      cell,
      formula,
      saved ?? "(nothing)",
      now ?? "(nothing)",
      message,
    ]),
  ]);
  const headings = ["Workbook", "Sheet", "Cell", "Formula", "Saved", "Now", "Message"];
  return { columns: headings.map((heading) => ({ heading })), rows, long: true };
}

function summaryOf(results: readonly Recalculated[]): ReportTable {
  const counted = { decimals: 0 };
  return {
    columns: [
      { heading: "Workbook" },
      { heading: "Cells compared", shows: counted },
      { heading: "Cells that differ", shows: counted },
      { heading: "Formulas not compared", shows: counted },
      { heading: "Result" },
    ],
    rows: results.map(({ workbook, cells, passedOver, differences, error }) => [
      basename(workbook),
      cells,
      differences.length,
      passedOver,
      error ?? (differences.length > 0 ? "differs" : "as saved"),
    ]),
  };
}

function onPage({ summary, cells }: Tables): string {
  const found =
    cells.rows.length === 0
      ? "<p>Every cell holds what its formula gives.</p>"
      : tableOnPage({ ...cells, title: "Cell by cell" });
  return pageOf("Recalculation", `<h1>Recalculation</h1>\n${tableOnPage(summary)}\n${found}`);
}

async function writeBook(file: string, { summary, cells }: Tables): Promise<void> {
  const workbook = await newWorkbook();
  for (const [name, table] of [
    ["Summary", summary],
    ["Cells", cells],
  ] as const) {
    const sheet = reportSheet(workbook, name, 1);
    tableOnSheet(sheet, 1, table);
    widen(sheet, [table]);
  }
  await writeReportBook(file, workbook);
}
