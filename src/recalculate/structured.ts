import { referenceTo } from "./addresses";
import type { Book, BookSheet, BookTable } from "./book";
import type { Area } from "./grid";

/** References by the headings of a Table: Lots[mass], Lots[[#This Row],[mass]:[price]], [@mass] inside the Table itself. */

/** A word that may name a table or stand for something by name. */
export const NAME = String.raw`[\p{L}_\\][\p{L}\p{N}_.\\?]*`;
/** What stands in square brackets, with "'" before a character that means itself. */
export const BRACKETS = String.raw`\[(?:'.|[^[\]']|\[(?:'.|[^\]'])*\])*\]`;

/** The cells that a reference means, for a formula in this row; nothing where table or heading are not there. */
export function areaMeant(
  named: string | undefined,
  brackets: string,
  book: Book,
  on: BookSheet,
  row: number,
): { readonly sheet: BookSheet; readonly area: Area } | undefined {
  for (const sheet of book.sheets) {
    for (const table of sheet.tables) {
      const meant =
        named === undefined ? sheet === on && holds(table, row) : table.name.toLowerCase() === named.toLowerCase();
      if (!meant) continue;
      const area = areaIn(table, brackets.slice(1, -1), row);
      return area && { sheet, area };
    }
  }
  return undefined;
}

/** Also the row of headings and the row of totals belong to the Table. */
function holds(table: BookTable, row: number): boolean {
  const { top, bottom } = wholeOf(table);
  return top <= row && row <= bottom;
}

function wholeOf({ tl, rows, headerRow, totalsRow, columns }: BookTable): Area {
  const bottom = tl.row + rows.length + Number(headerRow) + Number(totalsRow) - 1;
  return { top: tl.row, left: tl.col, bottom, right: tl.col + columns.length - 1 };
}

function areaIn(table: BookTable, inner: string, row: number): Area | undefined {
  const whole = wholeOf(table);
  const data = { top: whole.top + Number(table.headerRow), bottom: whole.bottom - Number(table.totalsRow) };
  const thisRow = /^\s*@/.test(inner);
  const asked = thisRow ? inner.replace(/^\s*@/, "") : inner;
  const items = /^\s*\[/.test(asked)
    ? [...asked.matchAll(/\[((?:'.|[^\]'])*)\]/g)].map(([, item]) => item as string)
    : asked === ""
      ? []
      : [asked];
  const special = items.filter((item) => item.startsWith("#")).map((item) => item.trim().toLowerCase());
  const columns = items.filter((item) => !item.startsWith("#")).map((item) => columnNamed(table, item));
  if (columns.includes(-1)) return undefined;

  const rows: { top: number; bottom: number }[] = special.flatMap((item) => {
    if (item === "#all") return [whole];
    if (item === "#data") return [data];
    if (item === "#headers") return table.headerRow ? [{ top: whole.top, bottom: whole.top }] : [];
    if (item === "#totals") return table.totalsRow ? [{ top: whole.bottom, bottom: whole.bottom }] : [];
    return item === "#this row" ? [{ top: row, bottom: row }] : [];
  });
  if (special.length > 0 && rows.length === 0) return undefined;
  if (thisRow) rows.push({ top: row, bottom: row });
  if (rows.length === 0) rows.push(data);
  return {
    top: Math.min(...rows.map(({ top }) => top)),
    bottom: Math.max(...rows.map(({ bottom }) => bottom)),
    left: whole.left + (columns.length > 0 ? Math.min(...columns) : 0),
    right: columns.length > 0 ? whole.left + Math.max(...columns) : whole.right,
  };
}

/** A heading as the file has it, or else without regard to the blanks around it. */
function columnNamed({ columns }: BookTable, written: string): number {
  const plain = (text: string) => text.replace(/\r\n?/g, "\n").toLowerCase();
  const wanted = plain(written.replace(/'(.)/g, "$1"));
  const names = columns.map(({ name }) => plain(name));
  const exact = names.indexOf(wanted);
  return exact >= 0 ? exact : names.findIndex((name) => name.trim() === wanted.trim());
}

/** The same reference as the address of its cells. */
export function addressMeant(meant: ReturnType<typeof areaMeant>, on: BookSheet): string {
  if (meant === undefined) return "#REF!";
  const address = referenceTo(meant.area);
  return meant.sheet === on ? address : `'${meant.sheet.name.replace(/'/g, "''")}'!${address}`;
}
