import { readFileSync } from "node:fs";
import { addSheet, freeSheetName } from "./added-sheet";
import { openBook } from "./book";
import { packed } from "./packing";
import { writeWhole } from "./recalculation";
import { bytesOfReport, writeReportBook } from "./report-book";
import { variationPage } from "./variation-page";
import type { VariationReport } from "./variation-report";
import { RANGES_SHEET, variationWorkbook } from "./variation-sheet";

/** Writes what was found for reading and filing: a page, or a workbook. */
export async function writeVariationReport(file: string, reports: readonly VariationReport[]): Promise<void> {
  if (/\.html$/i.test(file)) writeWhole(file, variationPage(reports));
  else await writeReportBook(file, await variationWorkbook(reports));
}

/** Writes a copy of the workbook that has the report as one sheet more; all else in it stays as it is. */
export async function writeCopyWithReport(from: string, to: string, report: VariationReport): Promise<void> {
  const { called } = report;
  const book = openBook(readFileSync(from), called);
  const workbook = await variationWorkbook([report], freeSheetName(book, RANGES_SHEET));
  addSheet(book, openBook(await bytesOfReport(workbook, to), to));
  writeWhole(to, packed(book.parts));
}
