import { areaOf, columnNumber, LAST_COLUMN, LAST_ROW } from "./addresses";
import type { Book, BookSheet } from "./book";
import type { FormulaCell } from "./calculation";
import type { Area } from "./grid";

/** A range that a formula reads. */
export interface Reading {
  /** In small letters. */
  readonly sheet: string;
  readonly area: Area;
}

const WORD = String.raw`[\p{L}_][\p{L}\p{N}_.]*`;
const CELL = String.raw`\$?[A-Z]{1,3}\$?\d{1,7}`;
const READINGS = new RegExp(
  [
    String.raw`"(?:[^"]|"")*"`,
    String.raw`(?:(?<sheet>'(?:[^']|'')+'|${WORD}(?::${WORD})?)!)?(?<![\w.])(?:(?<cells>${CELL}(?::${CELL})?)|(?<columns>\$?[A-Z]{1,3}:\$?[A-Z]{1,3})|(?<rows>\$?\d{1,7}:\$?\d{1,7}))(?![\w.(![])`,
  ].join("|"),
  "giu",
);

/** Functions that ask where a range is and not what is in it. */
const PLACE_ONLY = /\b(?:ROWS?|COLUMNS?|AREAS|ISFORMULA|FORMULATEXT|SHEETS?|ISREF)\s*\([^()]*\)/gi;

/** Does a formula read what its text does not tell? */
export function readsAnything({ typed }: FormulaCell): boolean {
  return /\b(INDIRECT|OFFSET)\s*\(/i.test(typed);
}

/** The ranges that a formula reads, as far as its text tells (OFFSET and INDIRECT do not). */
export function readingsOf({ written, sheet }: FormulaCell, book: Book): Reading[] {
  return readingsIn(written, sheet, book);
}

/** The same of a formula on a sheet. */
export function readingsIn(written: string, on: BookSheet, book: Book): Reading[] {
  const found: Reading[] = [];
  for (const { groups = {} } of written.replace(PLACE_ONLY, "0").matchAll(READINGS)) {
    const { sheet, cells, columns, rows } = groups;
    const area = cells
      ? areaOf(cells.replace(/\$/g, ""))
      : columns
        ? wholeColumns(columns)
        : rows
          ? wholeRows(rows)
          : undefined;
    if (area) for (const one of sheetsOf(sheet, book, on)) found.push({ sheet: one, area });
  }
  return found;
}

function sheetsOf(written: string | undefined, book: Book, on: BookSheet): string[] {
  if (written === undefined) return [on.name.toLowerCase()];
  const plain = written.replace(/^'|'$/g, "").replace(/''/g, "'").toLowerCase();
  const names = book.sheets.map(({ name }) => name.toLowerCase());
  const [first, last] = plain.split(":").map((name) => names.indexOf(name));
  return first !== undefined && last !== undefined && first >= 0 && last >= first
    ? names.slice(first, last + 1)
    : [plain];
}

function wholeColumns(written: string): Area {
  const [left, right] = written.replace(/\$/g, "").split(":").map(columnNumber) as [number, number];
  return { top: 1, left: Math.min(left, right), bottom: LAST_ROW, right: Math.max(left, right) };
}

function wholeRows(written: string): Area {
  const [top, bottom] = written.replace(/\$/g, "").split(":").map(Number) as [number, number];
  return { top: Math.min(top, bottom), left: 1, bottom: Math.max(top, bottom), right: LAST_COLUMN };
}
