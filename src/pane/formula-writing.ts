import { readReference } from "./references";
import { supports } from "./sheet";

/** An argument as somebody fills it in: numbers, references, arrays and texts in quotation marks stand as they are. */
export function argumentText(filled: string): string {
  const text = filled.trim();
  if (text === "" || /^["{=(+-]/.test(text)) return text.replace(/^=/, "");
  if (/^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?%?$/i.test(text) || /^(true|false)$/i.test(text)) return text;
  const reference = readReference(text);
  // A word alone is a word: names of areas are picked by selecting them.
  if (reference !== undefined && reference.kind !== "name") return text;
  if (/^[\p{L}_][\p{L}\p{N}_.]*\(.*\)$/u.test(text)) return text;
  return `"${text.replace(/"/g, '""')}"`;
}

/** The formula, without the optional arguments that are left out at its end. */
export function formulaText(id: string, filled: readonly string[]): string {
  const texts = filled.map(argumentText);
  while (texts.length > 0 && texts[texts.length - 1] === "") texts.pop();
  return `=YARN.${id}(${texts.join(",")})`;
}

/** The document property in which a book notes which version of the functions it was made with. */
export const MADE_WITH = "YARN version";

export interface Placing {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
  /** Goes into the cell above; empty for none. */
  readonly heading: string;
  /** Of the functions; noted once a book. */
  readonly version: string;
  /** Was it said that what stands there may go? */
  readonly replacing: boolean;
}

/** What became of putting a formula in: what the cell shows, or what stands in the way. */
export type Placed = { readonly shown: string } | { readonly inTheWay: string };

/** Puts a formula into a cell, and a heading above it. Writes; only ever after a click. */
export async function putIn(context: Excel.RequestContext, placing: Placing): Promise<Placed> {
  const sheet = context.workbook.worksheets.getItem(placing.sheet);
  const cell = sheet.getCell(placing.row, placing.column);
  const above = placing.heading !== "" && placing.row > 0 ? sheet.getCell(placing.row - 1, placing.column) : undefined;
  const taken = above === undefined ? [cell] : [cell, above];
  for (const each of taken) each.load("address,formulas");
  await context.sync();
  const filled = taken.filter(({ formulas }) => (formulas as unknown[][])[0]?.[0] !== "");
  if (filled.length > 0 && !placing.replacing)
    return { inTheWay: `Not empty: ${filled.map(({ address }) => address).join(" and ")}.` };
  cell.formulas = [[placing.formula]];
  // An apostrophe keeps a text a text.
  if (above !== undefined) above.values = [[placing.heading.replace(/^(?=[=+@'-])/, "'")]];
  cell.load("text");
  await context.sync();
  if (supports("1.7")) await noteVersion(context, placing.version);
  return { shown: cell.text[0]?.[0] ?? "" };
}

async function noteVersion(context: Excel.RequestContext, version: string): Promise<void> {
  const { custom } = context.workbook.properties;
  const noted = custom.getItemOrNullObject(MADE_WITH);
  noted.load("value");
  await context.sync();
  if (noted.isNullObject) custom.add(MADE_WITH, version);
  await context.sync();
}
