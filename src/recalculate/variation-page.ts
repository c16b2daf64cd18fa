import { dotsDrawing, histogramDrawing, inBothSizes, swingsDrawing } from "./chart-drawings";
import { pageOf, shownAs, tableOnPage } from "./report-page";
import type { OutcomeReport, VariationReport } from "./variation-report";
import { encoded } from "./xml";

/** What the outcomes of workbooks are known to, as a page. */
export function variationPage(reports: readonly VariationReport[]): string {
  return pageOf("What the figures are known to", reports.map(workbookOnPage).join("\n"));
}

function workbookOnPage(report: VariationReport): string {
  return `<h1>What the figures are known to</h1>\n<p>${encoded(report.called)}</p>\n${variationOnPage(report, 2)}`;
}

/** What was found in one workbook, under headings from a level on. */
export function variationOnPage({ lead, outcomes, ranges, cautions }: VariationReport, level: Level): string {
  return [
    `<p class="small">${encoded(lead)}</p>`,
    ...outcomes.map((outcome) => `<section>\n${outcomeOnPage(outcome, level)}\n</section>`),
    "<section>",
    heading(level, "The ranges"),
    tableOnPage(ranges, "The ranges"),
    heading(level, "What this does not say"),
    `<ul>${cautions.map((caution) => `<li>${encoded(caution)}</li>`).join("")}</ul>\n</section>`,
  ].join("\n");
}

/** The level of the headings of outcomes. */
type Level = 2 | 3;

function heading(level: number, words: string): string {
  return `<h${level}>${encoded(words)}</h${level}>`;
}

function outcomeOnPage({ title, sentences, failures, found }: OutcomeReport, level: Level): string {
  const parts = [
    heading(level, title),
    ...sentences.map((sentence, index) => `<p${index === 0 ? ' class="lead"' : ""}>${encoded(sentence)}</p>`),
  ];
  if (found !== undefined) {
    const { shows, figures, bins, marks, mean, swings, parts: shares, dots, across } = found;
    const written = (value: number) => shownAs(value, shows);
    parts.push(
      figure((size) => histogramDrawing(bins, marks, title, size)),
      tableOnPage(figures, `Figures of ${title}`),
      // Printed, an outcome takes two pages.
      '<div class="overleaf">',
      heading(level + 1, "Which input matters"),
      tableOnPage(shares, `Parts of the variance of ${title}`),
      figure((size) => swingsDrawing(swings, { at: mean, words: `mean ${written(mean)}` }, title, written, size)),
      figure((size) => dotsDrawing(dots, across, title, size)),
      "</div>",
    );
  }
  if (failures !== undefined) parts.push(tableOnPage(failures, `Runs of ${title} without a number`, level + 1));
  return parts.join("\n");
}

function figure(drawing: Parameters<typeof inBothSizes>[0]): string {
  return `<figure>${inBothSizes(drawing)}</figure>`;
}
