import { addressOf, positionOf } from "./addresses";
import type { Book } from "./book";
import type { FormulaCell } from "./calculation";
import { formatsOf } from "./cell-formats";
import { headingsIn, type CellHeadings } from "./cell-headings";
import { valueIn } from "./stored-text";
import { CellError } from "./values";

/** What a report says of a cell besides what was found there. */
export interface Described extends CellHeadings {
  readonly formula: string;
  readonly saved: string | number | boolean | null;
  /** The cell's number format. */
  readonly format: string;
  readonly date1904?: true;
}

interface Found {
  readonly sheet: string;
  readonly cell: string;
  readonly described?: Described;
}

/** Beyond so many cells nobody reads on, and to look up headings takes its time. */
const MOST = 5_000;

/** Adds to cells of a book what a report says of them. */
export function describing(
  book: Book,
  formulas: readonly FormulaCell[],
): <One extends Found>(found: readonly One[]) => One[] {
  const formatOf = formatsOf(book);
  const headings = headingsIn(book, formatOf);
  const sheets = new Map(book.sheets.map((sheet) => [sheet.name, sheet]));
  const typed = new Map(formulas.map(({ sheet, cell, typed: text }) => [`${sheet.name}!${cell.address}`, text]));
  let left = MOST;
  return (found) =>
    found.map((one) => {
      const sheet = sheets.get(one.sheet);
      const place = positionOf(one.cell);
      if (sheet === undefined || place === undefined || left-- <= 0) return one;
      const stored = sheet.part.find(place.row, place.column);
      const saved = stored === undefined ? null : valueIn(stored.value, book.shared);
      const formula = typed.get(`${one.sheet}!${addressOf(place.row, place.column)}`);
      const described: Described = {
        ...headings(sheet, place.row, place.column),
        formula: formula === undefined ? "" : `=${formula}`,
        saved: saved instanceof CellError ? saved.code : saved,
        format: formatOf(stored),
        ...(book.date1904 ? { date1904: true } : {}),
      };
      return { ...one, described };
    });
}
