import { columnLetters, columnNumber, LAST_COLUMN, LAST_ROW } from "./addresses";

/**
 * Formulas as text. A person types YARN.COUNT(…), LET(x,…) and Lots[@mass]; a file stores _xldudf_YARN_COUNT(…),
 * _xlfn.LET(_xlpm.x,…) and Lots[[#This Row],[mass]].
 */

/** Text in quotes, names of sheets in quotes, and what stands in brackets: nothing in them is a call or a reference. */
const PIECES = /"(?:[^"]|"")*"|'(?:[^']|'')*'|\[(?:'.|[^[\]']|\[(?:'.|[^\]'])*\])*\]|[^"'[]+|["'[]/g;

/** Applies a change to the parts of a formula that are neither text nor in brackets. */
export function outsideQuotes(formula: string, change: (piece: string) => string): string {
  return (formula.match(PIECES) ?? []).map((piece) => (/^["'[]/.test(piece) ? piece : change(piece))).join("");
}

const OURS_STORED = /\b_xldudf_YARN_([A-Z0-9]+)(?=\s*\()/gi;
const OURS_TYPED = /\bYARN\.([A-Z0-9]+)(?=\s*\()/gi;

/** The formula as a person would type it. */
export function asTyped(stored: string): string {
  // The parameter of a LAMBDA that may be left out stands in brackets where it is named first.
  const optional = new Set<string>();
  return outsideQuotes(withoutThisBook(withoutBookNumber(stored)), (piece) =>
    piece
      .replace(OURS_STORED, (_, id: string) => `YARN.${id.toUpperCase()}`)
      .replace(/\b_xlfn\.(_xlws\.)?/gi, "")
      .replace(/\b_xlpm\./gi, "")
      .replace(/\b_xlop\.([\p{L}_][\p{L}\p{N}_.]*)/giu, (_, name: string) => {
        if (optional.has(name.toLowerCase())) return name;
        optional.add(name.toLowerCase());
        return `[${name}]`;
      }),
  );
}

/** "[2]!_xldudf_YARN_COUNT(": other add-ins can tie a call to a workbook that does not exist. */
function withoutBookNumber(formula: string): string {
  return formula.replace(/("(?:[^"]|"")*")|\[\d+\]!(?=_xldudf_YARN_|YARN\.)/gi, (_, text?: string) => text ?? "");
}

/** "[0]!Rate" is a name of this very workbook. */
function withoutThisBook(formula: string): string {
  return formula.replace(/("(?:[^"]|"")*")|(?<![\w\]'])\[0\]!/g, (_, text?: string) => text ?? "");
}

/** Does the formula call one of our functions, in whatever form? */
export function callsOurs(formula: string): boolean {
  let calls = false;
  outsideQuotes(formula, (piece) => {
    calls ||= /\b(?:_xldudf_YARN_|YARN\.)[A-Z0-9]+\s*\(/i.test(piece);
    return piece;
  });
  return calls;
}

/** Would Excel show #NAME? for ever, because a call of ours is not in the form Excel stores? */
export function isDead(stored: string): boolean {
  let dead = withoutBookNumber(stored) !== stored;
  outsideQuotes(stored, (piece) => {
    dead ||= /\bYARN\.[A-Z0-9]+\s*\(/i.test(piece);
    return piece;
  });
  return dead;
}

/** Our calls as Excel stores them, all else untouched. */
export function withOursStored(formula: string): string {
  return outsideQuotes(withoutBookNumber(formula), (piece) =>
    piece
      .replace(OURS_TYPED, (_, id: string) => `_xldudf_YARN_${id.toUpperCase()}`)
      .replace(OURS_STORED, (_, id: string) => `_xldudf_YARN_${id.toUpperCase()}`),
  );
}

/** Our calls by the names that a person types, all else untouched. */
export function withOursPlain(formula: string): string {
  return outsideQuotes(withoutBookNumber(formula), (piece) =>
    piece
      .replace(OURS_STORED, (_, id: string) => `YARN.${id.toUpperCase()}`)
      .replace(OURS_TYPED, (_, id: string) => `YARN.${id.toUpperCase()}`),
  );
}

/** The names of sheets that a formula reads, with the number of the workbook where it is another ("[1]Far", "[1]"). */
export function sheetsNamedIn(formula: string): string[] {
  const names: string[] = [];
  const reading =
    /"(?:[^"]|"")*"|'((?:[^']|'')+)'!|(?<![#\p{L}\p{N}_.])((?:\[\d+\])?[\p{L}_][\p{L}\p{N}_.]*(?::[\p{L}_][\p{L}\p{N}_.]*)?|\[\d+\])!/gu;
  for (const [, quoted, plain] of formula.matchAll(reading)) {
    if (quoted !== undefined) names.push(...spanned(quoted.replace(/''/g, "'")));
    else if (plain !== undefined) names.push(...spanned(plain));
  }
  return names;
}

function spanned(name: string): string[] {
  return name.startsWith("[") ? [name] : name.split(":");
}

/** A formula as it reads when it is copied so many rows down and columns to the right. */
export function moved(formula: string, rows: number, columns: number): string {
  const oneCell = /(?<![\w.$])(\$?)([A-Z]{1,3})(\$?)(\d{1,7})(?![\w.(!])/gi;
  const wholeColumns = /(?<![\w.$])(\$?)([A-Z]{1,3}):(\$?)([A-Z]{1,3})(?![\w.(!])/gi;
  const wholeRows = /(?<![\w.$])(\$?)(\d{1,7}):(\$?)(\d{1,7})(?![\w.(!])/g;
  const column = (fixed: string, letters: string) =>
    fixed ? letters : columnLetters(wrapped(columnNumber(letters) + columns, LAST_COLUMN));
  const row = (fixed: string, number: string) => (fixed ? number : String(wrapped(Number(number) + rows, LAST_ROW)));
  return outsideQuotes(formula, (piece) =>
    piece
      .replace(
        oneCell,
        (_, fixedColumn: string, letters: string, fixedRow: string, number: string) =>
          `${fixedColumn}${column(fixedColumn, letters)}${fixedRow}${row(fixedRow, number)}`,
      )
      .replace(
        wholeColumns,
        (_, f1: string, c1: string, f2: string, c2: string) => `${f1}${column(f1, c1)}:${f2}${column(f2, c2)}`,
      )
      .replace(
        wholeRows,
        (_, f1: string, r1: string, f2: string, r2: string) => `${f1}${row(f1, r1)}:${f2}${row(f2, r2)}`,
      ),
  );
}

function wrapped(number: number, last: number): number {
  return ((((number - 1) % last) + last) % last) + 1;
}
