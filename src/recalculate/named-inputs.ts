import { addressOf, areaOf } from "./addresses";
import type { Book } from "./book";
import { formulasOf } from "./calculation";
import { valueIn } from "./stored-text";
import { CellError } from "./values";

/** A cell with a value of its own to which the workbook has given a name: what a person would change first. */
export interface NamedInput {
  readonly name: string;
  readonly sheet: string;
  readonly cell: string;
  readonly value: string | number | boolean;
}

const MOST_INPUTS = 300;

export function namedInputs(book: Book): NamedInput[] {
  const filled = formulasOf(book).map(({ sheet, saved }) => ({ sheet, saved }));
  const found: NamedInput[] = [];
  for (const { name, ranges } of book.names) {
    const [, quoted, plain, address] = /^(?:'((?:[^']|'')+)'|([^'!]+))!(\$?[A-Z]+\$?\d+)$/.exec(ranges[0] ?? "") ?? [];
    const area = areaOf((address ?? "").replace(/\$/g, ""));
    const called = quoted?.replace(/''/g, "'") ?? plain;
    const sheet = book.sheets.find((one) => one.name.toLowerCase() === called?.toLowerCase());
    if (area === undefined || sheet === undefined) continue;
    const { top: row, left: column } = area;
    const isFilled = filled.some(
      ({ sheet: on, saved: { top, left, bottom, right } }) =>
        on === sheet && row >= top && row <= bottom && column >= left && column <= right,
    );
    const stored = sheet.part.find(row, column);
    const value = isFilled || stored === undefined ? null : valueIn(stored.value, book.shared);
    if (value === null || value instanceof CellError) continue;
    found.push({ name, sheet: sheet.name, cell: addressOf(row, column), value });
    if (found.length === MOST_INPUTS) break;
  }
  return found;
}
