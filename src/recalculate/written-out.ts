import type { Book, BookName, BookSheet } from "./book";
import { asTyped, moved } from "./formula-text";
import { localNames } from "./future-functions";
import { addressMeant, areaMeant, BRACKETS, NAME } from "./structured";

const REFERRED = new RegExp(
  [
    String.raw`"(?:[^"]|"")*"`,
    String.raw`'(?:[^']|'')*'!${NAME}(?![\w.(![])`,
    String.raw`'(?:[^']|'')*'!`,
    String.raw`\[\d+\]!?`,
    String.raw`(?<table>${NAME})?(?<brackets>${BRACKETS})`,
    String.raw`(?<![\w.!$#])(?<name>(?:${NAME}!)?${NAME})(?![\w.(![])`,
  ].join("|"),
  "giu",
);

/**
 * A formula with addresses in place of the headings of Tables, and with what a name stands for in place of the name, so
 * that every engine reads the same.
 */
export function writtenOut(
  typed: string,
  { sheet, row, column }: { readonly sheet: BookSheet; readonly row: number; readonly column: number },
  book: Book,
): string {
  return written(typed, { sheet, row, column }, book, 0);
}

/** Names stand for names; one that stands for itself has no end. */
const DEEPEST_NAME = 8;

function written(
  typed: string,
  at: { readonly sheet: BookSheet; readonly row: number; readonly column: number },
  book: Book,
  depth: number,
): string {
  const tables = book.sheets.some((sheet) => sheet.tables.length > 0);
  if (book.names.length === 0 && !tables && !typed.includes("[")) return typed;
  const locals = localNames(typed);
  return typed.replace(REFERRED, (...found: unknown[]) => {
    const whole = found[0] as string;
    const place = found[found.length - 3] as number;
    const { table, brackets, name } = found[found.length - 1] as Partial<Record<string, string>>;
    if (table === undefined && locals.has(brackets?.slice(1, -1).toLowerCase() ?? "")) return whole.slice(1, -1);
    if (brackets !== undefined) return addressMeant(areaMeant(table, brackets, book, at.sheet, at.row), at.sheet);
    const quoted = name === undefined && /^'.*'!./su.test(whole);
    // "A:A" are columns, whatever else is called A.
    if (/^[A-Z]{1,3}$/i.test(whole) && (typed[place - 1] === ":" || typed[place + whole.length] === ":")) return whole;
    if ((name === undefined && !quoted) || depth === DEEPEST_NAME || locals.has(whole.toLowerCase())) return whole;
    const meaning = nameKnown(book, whole, at.sheet)?.ranges[0];
    if (meaning === undefined) {
      // The name of a Table alone, which scripts write where Excel writes Lots[], is all its rows.
      const rows = tables && name !== undefined ? areaMeant(name, "[]", book, at.sheet, at.row) : undefined;
      return rows === undefined ? whole : addressMeant(rows, at.sheet);
    }
    // What a name stands for is written for cell A1 and moves with the formula that uses it.
    const here = moved(asTyped(meaning).replace(/^=/, ""), at.row - 1, at.column - 1);
    return bracketed(written(here, at, book, depth + 1));
  });
}

/** A name of the formula's own sheet goes before one of the whole workbook. */
function nameKnown(book: Book, called: string, on: BookSheet): BookName | undefined {
  const mark = called.lastIndexOf("!");
  const same = namesOf(book).get(called.slice(mark + 1).toLowerCase());
  if (same === undefined) return undefined;
  const ofSheet = (named: string) => same.find(({ sheet }) => sheet?.toLowerCase() === named);
  const ofBook = same.find(({ sheet }) => sheet === undefined);
  if (mark < 0) return ofSheet(on.name.toLowerCase()) ?? ofBook;
  const sheet = called.slice(0, mark).replace(/^'|'$/g, "").replace(/''/g, "'").toLowerCase();
  return ofSheet(sheet) ?? (book.sheets.some(({ name }) => name.toLowerCase() === sheet) ? ofBook : undefined);
}

const known = new WeakMap<Book["names"], Map<string, BookName[]>>();

function namesOf({ names }: Book): Map<string, BookName[]> {
  let found = known.get(names);
  if (found === undefined) {
    found = new Map<string, BookName[]>();
    known.set(names, found);
    for (const name of names) {
      const key = name.name.toLowerCase();
      found.set(key, [...(found.get(key) ?? []), name]);
    }
  }
  return found;
}

/** A reference stays one; anything else is worked out as a whole. */
function bracketed(meaning: string): string {
  return /^(?:(?:'(?:[^']|'')*'|[\p{L}\p{N}_.]+)!)?\$?[A-Z]{1,3}\$?\d{1,7}(?::\$?[A-Z]{1,3}\$?\d{1,7})?$/iu.test(
    meaning,
  )
    ? meaning
    : `(${meaning})`;
}
