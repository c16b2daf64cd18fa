import { areaOf, columnNumber, LAST_COLUMN, LAST_ROW } from "./addresses";
import type { Book, BookSheet, BookTable } from "./book";
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
const BRACKETS = String.raw`\[(?:'.|[^[\]']|\[(?:'.|[^\]'])*\])*\]`;
const READINGS = new RegExp(
  [
    String.raw`"(?:[^"]|"")*"`,
    String.raw`(?:(?<sheet>'(?:[^']|'')+'|${WORD}(?::${WORD})?)!)?(?<![\w.])(?:(?<cells>${CELL}(?::${CELL})?)|(?<columns>\$?[A-Z]{1,3}:\$?[A-Z]{1,3})|(?<rows>\$?\d{1,7}:\$?\d{1,7}))(?![\w.(![])`,
    String.raw`(?<table>${WORD})?(?<brackets>${BRACKETS})`,
    String.raw`(?<name>${WORD})(?![\w.(!])`,
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
export function readingsOf({ typed, sheet, cell }: FormulaCell, book: Book): Reading[] {
  return readingsIn(typed, book, sheet, cell.row, 0);
}

const DEEPEST_NAME = 8;

function readingsIn(formula: string, book: Book, on: BookSheet, row: number, depth: number): Reading[] {
  const found: Reading[] = [];
  for (const { groups = {} } of formula.replace(PLACE_ONLY, "0").matchAll(READINGS)) {
    const { sheet, cells, columns, rows, table, brackets, name } = groups;
    const area = cells
      ? areaOf(cells.replace(/\$/g, ""))
      : columns
        ? wholeColumns(columns)
        : rows
          ? wholeRows(rows)
          : undefined;
    if (area) for (const one of sheetsOf(sheet, book, on)) found.push({ sheet: one, area });
    else if (brackets !== undefined) found.push(...inTable(table, brackets, book, on, row));
    else if (name !== undefined && depth < DEEPEST_NAME) {
      const named = book.names.find((one) => one.name.toLowerCase() === name.toLowerCase());
      if (named) for (const text of named.ranges) found.push(...readingsIn(text, book, on, row, depth + 1));
    }
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

function inTable(named: string | undefined, brackets: string, book: Book, on: BookSheet, row: number): Reading[] {
  for (const sheet of book.sheets) {
    for (const table of sheet.tables) {
      const holds = table.tl.row <= row && row <= table.tl.row + table.rows.length;
      if (named === undefined ? sheet !== on || !holds : table.name.toLowerCase() !== named.toLowerCase()) continue;
      return [{ sheet: sheet.name.toLowerCase(), area: areaIn(table, brackets, row) }];
    }
  }
  return [];
}

function areaIn(table: BookTable, brackets: string, row: number): Area {
  const inner = brackets.slice(1, -1);
  const asked = /^\s*[[@#]/.test(inner) ? inner : `[${inner}]`;
  const columns = [...asked.matchAll(/(?:\[|@)\s*([^#[\]@][^\]]*)/g)].map(([, name]) =>
    table.columns.findIndex(
      (column) => column.name.toLowerCase() === (name as string).replace(/'(.)/g, "$1").toLowerCase(),
    ),
  );
  const first = table.tl.row + (table.headerRow ? 1 : 0);
  const [top, bottom] = /@|#This Row/i.test(inner)
    ? [row, row]
    : /#Headers/i.test(inner)
      ? [table.tl.row, table.tl.row]
      : /#Totals/i.test(inner)
        ? [first + table.rows.length, first + table.rows.length]
        : [first, first + table.rows.length - 1];
  const known = columns.filter((column) => column >= 0);
  const left = table.tl.col + (known.length > 0 ? Math.min(...known) : 0);
  const right = table.tl.col + (known.length > 0 ? Math.max(...known) : table.columns.length - 1);
  return { top, left, bottom, right };
}
