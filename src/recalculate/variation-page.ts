import { dotsDrawing, histogramDrawing, swingsDrawing } from "./chart-drawings";
import { pageOf, shownAs, tableOnPage } from "./report-page";
import type { OutcomeReport, VariationReport } from "./variation-report";
import { encoded } from "./xml";

/** What the outcomes of workbooks are known to, as a page. */
export function variationPage(reports: readonly VariationReport[]): string {
  return pageOf("What the figures are known to", reports.map(workbookOnPage).join("\n"));
}

function workbookOnPage({ called, lead, outcomes, ranges, cautions }: VariationReport): string {
  return [
    `<h1>What the figures are known to</h1>\n<p>${encoded(called)}</p>\n<p class="small">${encoded(lead)}</p>`,
    ...outcomes.map((outcome) => `<section>\n${outcomeOnPage(outcome)}\n</section>`),
    "<section>\n<h2>The ranges</h2>",
    tableOnPage(ranges),
    "<h2>What this does not say</h2>",
    `<ul>${cautions.map((caution) => `<li>${encoded(caution)}</li>`).join("")}</ul>\n</section>`,
  ].join("\n");
}

function outcomeOnPage({ title, sentences, failures, found }: OutcomeReport): string {
  const parts = [
    `<h2>${encoded(title)}</h2>`,
    ...sentences.map((sentence, index) => `<p${index === 0 ? ' class="lead"' : ""}>${encoded(sentence)}</p>`),
  ];
  if (found !== undefined) {
    const { shows, figures, bins, marks, mean, swings, parts: shares, dots, across } = found;
    const written = (value: number) => shownAs(value, shows);
    parts.push(
      figure(histogramDrawing(bins, marks, title)),
      tableOnPage(figures),
      "<h3>Which input matters</h3>",
      tableOnPage(shares),
      figure(swingsDrawing(swings, { at: mean, words: `mean ${written(mean)}` }, title, written)),
      figure(dotsDrawing(dots, across, title)),
    );
  }
  if (failures !== undefined) parts.push(tableOnPage(failures));
  return parts.join("\n");
}

function figure(drawing: string): string {
  return `<figure>${drawing}</figure>`;
}
