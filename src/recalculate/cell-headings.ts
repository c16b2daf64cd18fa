import type { Book, BookSheet } from "./book";
import { isDateFormat, shownIn } from "./number-format";
import type { StoredCell } from "./sheet-part";
import { valueIn } from "./stored-text";
import type { Value } from "./values";

/** What a person reads at the left and at the top of a cell. */
export interface CellHeadings {
  readonly row: string;
  readonly column: string;
}

/** So far from a cell its heading is looked for. */
const FARTHEST = 5_000;

/** The headings of any cell of a book, as far as its texts tell. */
export function headingsIn(
  book: Book,
  formatOf: (cell: StoredCell | undefined) => string,
): (sheet: BookSheet, row: number, column: number) => CellHeadings {
  const valueAt = (sheet: BookSheet, row: number, column: number): Value => {
    const cell = sheet.part.find(row, column);
    return cell === undefined || cell.isEmpty ? null : valueIn(cell.value, book.shared);
  };

  /** The first text above; over a column of texts the one where the column begins. */
  const above = (sheet: BookSheet, row: number, column: number): string => {
    const table = sheet.tables.find(({ tl, rows, columns, headerRow }) => {
      const top = tl.row + Number(headerRow);
      return row >= top && row <= top + rows.length && column >= tl.col && column < tl.col + columns.length;
    });
    if (table !== undefined) return table.columns[column - table.tl.col]?.name ?? "";
    const amongTexts = typeof valueAt(sheet, row, column) === "string";
    let found = "";
    for (let at = row - 1; at > 0 && row - at < FARTHEST; at--) {
      const value = valueAt(sheet, at, column);
      if (typeof value === "string" && value.trim() !== "") {
        found = value;
        if (!amongTexts) break;
      } else if (amongTexts && found !== "") break;
    }
    return found;
  };

  /** The first text of the cells in a row that end here; else the nearest text to the left, else the date they begin with. */
  const before = (sheet: BookSheet, row: number, column: number): string => {
    let found = "";
    let date = "";
    for (let at = column - 1; at > 0; at--) {
      const value = valueAt(sheet, row, at);
      if (value === null) {
        if (found !== "") break;
        continue;
      }
      if (typeof value === "string" && value.trim() !== "") found = value;
      const format = formatOf(sheet.part.find(row, at));
      if (typeof value === "number" && isDateFormat(format)) date = shownIn(format, value, book) ?? date;
    }
    return found === "" ? date : found;
  };

  return (sheet, row, column) => ({ row: before(sheet, row, column), column: above(sheet, row, column) });
}
