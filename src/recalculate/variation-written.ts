import { writeWhole } from "./recalculation";
import { writeReportBook } from "./report-book";
import { variationPage } from "./variation-page";
import type { VariationReport } from "./variation-report";
import { variationWorkbook } from "./variation-sheet";

/** Writes what was found for reading and filing: a page, or a workbook. */
export async function writeVariationReport(file: string, reports: readonly VariationReport[]): Promise<void> {
  if (/\.html$/i.test(file)) writeWhole(file, variationPage(reports));
  else await writeReportBook(file, await variationWorkbook(reports));
}
