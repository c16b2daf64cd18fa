import { basename } from "node:path";
import { openBook } from "./book";
import { inOrder, packed } from "./packing";
import { writeWhole, type Recalculated } from "./recalculation";
import { countSharedStrings } from "./shared-strings";
import { isCalculated, settleWorkbook } from "./stored-form";
import { encoded } from "./xml";

/** Writes a report for reading and filing: a page, or a workbook to sort and filter. */
export async function writeReport(file: string, results: readonly Recalculated[]): Promise<void> {
  if (/\.html$/i.test(file)) writeWhole(file, pageOf(results));
  else await writeReportWorkbook(file, results);
}

const HEADERS = ["Workbook", "Sheet", "Cell", "Formula", "Saved", "Now", "Message"];

type Shown = string | number | boolean;

function rowsOf(results: readonly Recalculated[]): Shown[][] {
  return results.flatMap(({ workbook, error, faults, taken, differences }) => [
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
}

function summaryOf({ workbook, cells, passedOver, differences, error }: Recalculated): Shown[] {
  return [
    basename(workbook),
    cells,
    differences.length,
    passedOver,
    error ?? (differences.length > 0 ? "differs" : "as saved"),
  ];
}

const SUMMARY_HEADERS = ["Workbook", "Cells compared", "Cells that differ", "Formulas not compared", "Result"];

function pageOf(results: readonly Recalculated[]): string {
  const table = (headers: string[], rows: Shown[][]) =>
    `<table><thead><tr>${headers.map((text) => `<th>${encoded(text)}</th>`).join("")}</tr></thead><tbody>${rows
      .map((row) => `<tr>${row.map((value) => `<td>${encoded(String(value))}</td>`).join("")}</tr>`)
      .join("\n")}</tbody></table>`;
  const rows = rowsOf(results);
  return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Recalculation</title>
<style>body{font:15px/1.4 sans-serif;margin:2em}table{border-collapse:collapse;margin:1em 0}th,td{border:1px solid;padding:.25em .6em;text-align:left;vertical-align:top}td{overflow-wrap:anywhere}</style></head>
<body><h1>Recalculation</h1>
${table(SUMMARY_HEADERS, results.map(summaryOf))}
${rows.length === 0 ? "<p>Every cell holds what its formula gives.</p>" : table(HEADERS, rows)}
</body></html>
`;
}

async function writeReportWorkbook(file: string, results: readonly Recalculated[]): Promise<void> {
  const { Workbook } = await import("./workbook");
  const workbook = new Workbook();
  const sheets: [string, string[], Shown[][]][] = [
    ["Summary", SUMMARY_HEADERS, results.map(summaryOf)],
    ["Cells", HEADERS, rowsOf(results)],
  ];
  for (const [name, headers, rows] of sheets) {
    const sheet = workbook.addWorksheet(name, { views: [{ state: "frozen", ySplit: 1 }] });
    sheet.addRow(headers).font = { bold: true };
    for (const row of rows) sheet.addRow(row);
    headers.forEach((text, index) => {
      const longest = Math.max(text.length, ...rows.slice(0, 500).map((row) => String(row[index]).length));
      sheet.getColumn(index + 1).width = Math.min(60, longest + 2);
    });
  }
  const book = openBook(new Uint8Array(await workbook.xlsx.writeBuffer()), file);
  settleWorkbook(book, isCalculated);
  countSharedStrings(book);
  writeWhole(file, packed(inOrder(book.parts)));
}
