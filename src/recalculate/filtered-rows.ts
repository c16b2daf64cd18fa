import { areaOf } from "./addresses";
import type { Book, BookSheet } from "./book";
import type { Area } from "./grid";
import { outsideQuotes } from "./formula-text";
import { readingsIn } from "./references";
import { elements } from "./xml";

/** The areas, each with its headings, in which a part of a file says that rows are filtered. */
export function filteredAreas(xml: string): Area[] {
  return [...elements(xml, "autoFilter")].flatMap(({ attributes, inner }) => {
    // A column without a criterion only shows no button.
    const filters = [...elements(inner, "filterColumn")].some((column) => column.inner.trim() !== "");
    const area = filters ? areaOf(attributes.ref ?? "") : undefined;
    return area ?? [];
  });
}

const SUBTOTAL_OF_ALL = /\b(SUBTOTAL\s*\(\s*)([1-9]|1[01])(?=\s*,)/gi;

/**
 * A SUBTOTAL passes over the rows that a filter hides, whatever its first argument says of hidden rows. Engines know
 * rows as hidden only, so where a filter hid them they are told to pass over those: 9 becomes 109.
 */
export function passingOverFiltered(formula: string, on: BookSheet, book: Book): string {
  if (!/\bSUBTOTAL\s*\(/i.test(formula)) return formula;
  const { filtered, otherwise } = hiddenRowsRead(formula, on, book);
  if (!filtered || otherwise) return formula;
  return outsideQuotes(formula, (piece) =>
    piece.replace(SUBTOTAL_OF_ALL, (_, before: string, code: string) => `${before}${100 + Number(code)}`),
  );
}

/** Why rows that a filter hides cannot be told apart from those that are hidden by hand, where that makes a difference. */
export function filterTrouble(formula: string, on: BookSheet, book: Book): string | undefined {
  if (!/\b(SUBTOTAL|AGGREGATE)\s*\(/i.test(formula)) return undefined;
  const { filtered, otherwise } = hiddenRowsRead(formula, on, book);
  if (!filtered) return undefined;
  if (/\bAGGREGATE\s*\(/i.test(formula)) return "an AGGREGATE of filtered rows";
  const all = otherwise && formula.search(SUBTOTAL_OF_ALL) >= 0;
  return all ? "a SUBTOTAL of rows of which some are filtered and some are hidden" : undefined;
}

/** Does a formula read rows that a filter hid, and rows that are hidden otherwise? */
function hiddenRowsRead(formula: string, on: BookSheet, book: Book): { filtered: boolean; otherwise: boolean } {
  let [filtered, otherwise] = [false, false];
  for (const { sheet, area } of readingsIn(formula, on, book)) {
    const read = book.sheets.find(({ name }) => name.toLowerCase() === sheet);
    for (const row of read?.part.hiddenRows ?? []) {
      if (row < area.top || row > area.bottom) continue;
      if (read?.filtered.some(({ top, bottom }) => row > top && row <= bottom)) filtered = true;
      else otherwise = true;
    }
  }
  return { filtered, otherwise };
}
