import { addressOf, columnLetters } from "./addresses";
import { newWorkbook, reportSheet, sentenceOnSheet, tableOnSheet, WIDTH_IN_COLUMNS, type Sheet } from "./report-book";
import type { ReportTable } from "./report-page";
import { dotsChart, histogramChart, swingsChart } from "./sheet-charts";
import type { OutcomeReport, VariationReport } from "./variation-report";
import type { Workbook } from "./workbook";

export const RANGES_SHEET = "Ranges";

/** A workbook with a sheet for each report. */
export async function variationWorkbook(reports: readonly VariationReport[], name = RANGES_SHEET): Promise<Workbook> {
  const workbook = await newWorkbook();
  reports.forEach((report, index) => fillSheet(workbook, index === 0 ? name : `${name} ${index + 1}`, report));
  return workbook;
}

const CHART_ROWS = 18;

function fillSheet(workbook: Workbook, name: string, report: VariationReport): void {
  const { called, lead, outcomes, ranges, cautions } = report;
  const sheet = reportSheet(workbook, name);
  const drawn = drawnBeside(sheet);
  let row = sentenceOnSheet(sheet, 1, "What the figures are known to", { bold: true, size: 16 });
  row = sentenceOnSheet(sheet, row, called);
  row = sentenceOnSheet(sheet, row, lead) + 1;
  for (const outcome of outcomes) {
    row = outcomeOnSheet(sheet, row, outcome, drawn);
    sheet.getRow(row - 1).addPageBreak();
  }
  row = tableOnSheet(sheet, row, { ...ranges, title: "The ranges" });
  row = sentenceOnSheet(sheet, row, "What this does not say", { bold: true, size: 12 });
  for (const caution of cautions) row = sentenceOnSheet(sheet, row, caution);
  sheet.pageSetup.printArea = `A1:${addressOf(row - 1, WIDTH_IN_COLUMNS)}`;
}

type Drawn = (table: ReportTable) => (column: number) => string;

/** Puts what charts draw beside what is printed, and gives the reference to each column of it. */
function drawnBeside(sheet: Sheet): Drawn {
  let left = WIDTH_IN_COLUMNS + 2;
  const name = `'${sheet.name.replace(/'/g, "''")}'`;
  return (table) => {
    const first = left;
    tableOnSheet(sheet, 1, table, first);
    left += table.columns.length + 1;
    return (column) => {
      const letters = columnLetters(first + column);
      return `${name}!$${letters}$2:$${letters}$${table.rows.length + 1}`;
    };
  };
}

function outcomeOnSheet(
  sheet: Sheet,
  from: number,
  { title, sentences, failures, found }: OutcomeReport,
  drawn: Drawn,
): number {
  let row = sentenceOnSheet(sheet, from, title, { bold: true, size: 14 });
  for (const sentence of sentences) row = sentenceOnSheet(sheet, row, sentence);
  row++;
  const area = () => {
    const placed = { row, rows: CHART_ROWS, columns: WIDTH_IN_COLUMNS };
    row += CHART_ROWS + 1;
    return placed;
  };
  if (found !== undefined) {
    const { shows, figures, bins, mean, swings, parts, dots, across, acrossShows } = found;
    const counts = drawn({
      columns: [
        { heading: `${title}, from`, shows },
        { heading: "Runs", shows: { decimals: 0 } },
      ],
      rows: bins.map(({ from: start, count }) => [start, count]),
    });
    const changes = drawn({
      columns: [{ heading: "Input" }, { heading: "at its low", shows }, { heading: "at its high", shows }],
      rows: swings.map(({ name, low, high }) => [name, low - mean, high - mean]),
    });
    const points = drawn({
      columns: [
        { heading: across, shows: acrossShows },
        { heading: title, shows },
      ],
      rows: dots,
    });
    row = tableOnSheet(sheet, row, figures);
    histogramChart(sheet, area(), title, counts(0), counts(1));
    row = tableOnSheet(sheet, row, { ...parts, title: "Which input matters" });
    sheet.getRow(row - 1).addPageBreak();
    const swung = `How far an input alone moves ${title} from its mean`;
    swingsChart(sheet, area(), swung, changes(0), changes(1), changes(2));
    dotsChart(sheet, area(), { across, up: title }, points(0), points(1));
  }
  return failures === undefined ? row : tableOnSheet(sheet, row, failures);
}
