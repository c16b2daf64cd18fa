import type { Formula } from "../guide/page/formula";

/** Which cells of a table a reference names: whole columns, or their cells in the row of the formula. */
export interface Columns {
  readonly part: "data" | "all" | "headers" | "totals" | "this row";
  /** The first and last column; all of them where none is named. */
  readonly from?: string;
  readonly to?: string;
}

/** What a reference of a formula names. */
export type Reference =
  | { readonly kind: "area"; readonly sheet?: string; readonly address: string }
  | { readonly kind: "spill"; readonly sheet?: string; readonly address: string }
  | { readonly kind: "columns"; readonly table?: string; readonly columns: Columns }
  | { readonly kind: "name"; readonly sheet?: string; readonly name: string };

const CELL = String.raw`\$?[A-Z]{1,3}\$?\d{1,7}`;
const AREA = new RegExp(`^${CELL}(?::${CELL})?$|^\\$?[A-Z]{1,3}:\\$?[A-Z]{1,3}$`, "i");
const SPILL = new RegExp(`^(${CELL})#$`, "i");

/** Every reference of a formula, each once. */
export function referencesIn(formula: Formula): string[] {
  const found = new Set<string>();
  const visit = (part: Formula | undefined): void => {
    if (part === undefined) return;
    if (part.kind === "reference") found.add(part.text);
    else if (part.kind === "single") visit(part.of);
    else if (part.kind === "operation") [part.left, part.right].forEach(visit);
    else if (part.kind === "call") part.given.forEach(visit);
  };
  visit(formula);
  return [...found];
}

/** Reads a reference as it stands in a formula; nothing where it is of a kind that the pane cannot look up. */
export function readReference(text: string): Reference | undefined {
  const bracket = text.indexOf("[");
  if (bracket === 0 || (bracket > 0 && !text.slice(0, bracket).includes("!"))) return inTable(text, bracket);
  const { sheet, rest } = withoutSheet(text);
  // Several sheets at once.
  if (sheet?.includes(":")) return undefined;
  const where = sheet === undefined ? {} : { sheet };
  const spill = SPILL.exec(rest);
  if (spill) return { kind: "spill", ...where, address: plain(spill[1] as string) };
  if (AREA.test(rest)) return { kind: "area", ...where, address: plain(rest) };
  return /^[\p{L}_\\][\p{L}\p{N}_.\\]*$/u.test(rest) ? { kind: "name", ...where, name: rest } : undefined;
}

function withoutSheet(text: string): { sheet?: string; rest: string } {
  const mark = text.lastIndexOf("!");
  if (mark < 0) return { rest: text };
  return { sheet: text.slice(0, mark).replace(/^'|'$/g, "").replace(/''/g, "'"), rest: text.slice(mark + 1) };
}

function plain(address: string): string {
  return address.replace(/\$/g, "");
}

const PARTS = { "#all": "all", "#data": "data", "#headers": "headers", "#totals": "totals" } as const;

/** Lots[count], Lots[@count], [@[count, tex]], Lots[[#Headers],[a]:[b]], Lots[#All] … */
function inTable(text: string, bracket: number): Reference | undefined {
  const table = text.slice(0, bracket);
  const inner = text.slice(bracket + 1, -1).trim();
  const thisRow = inner.startsWith("@") || /^\[#this row\]/i.test(inner);
  const rest = inner.replace(/^@|^\[#this row\],?/i, "").trim();
  const special = /^\[?(#all|#data|#headers|#totals)\]?,?/i.exec(rest);
  const part = special ? PARTS[(special[1] as string).toLowerCase() as keyof typeof PARTS] : "data";
  const named = special ? rest.slice(special[0].length).trim() : rest;
  const [from, to = from] = named === "" ? [] : named.startsWith("[") ? bracketed(named) : [unescapedColumn(named)];
  if (named !== "" && from === undefined) return undefined;
  const columns: Columns = {
    part: thisRow ? "this row" : part,
    ...(from === undefined ? {} : { from, to: to ?? from }),
  };
  return { kind: "columns", ...(table === "" ? {} : { table }), columns };
}

/** [a] or [a]:[b] */
function bracketed(text: string): string[] {
  const found = /^\[((?:[^\]']|'.)*)\](?::\[((?:[^\]']|'.)*)\])?$/.exec(text);
  return found ? [found[1], found[2]].filter((name): name is string => name !== undefined).map(unescapedColumn) : [];
}

/** In a reference an apostrophe stands before brackets, #, @ and itself. */
function unescapedColumn(name: string): string {
  return name.replace(/'(.)/g, "$1");
}
