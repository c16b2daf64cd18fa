import type { DocumentedExample, DocumentedFunction } from "../documentation/docblocks.mjs";
import { code, escaped } from "./html";
import { readFormula, type Formula } from "./page/formula";
import type { Rows } from "./page/values";
import { isHeaded, MOST_BESIDE } from "./page/written";
import { valuesTable } from "./values-table";

/** An example for whoever reads: the tables that go in as tables, and so what comes out. */
function worked({ formula, result, begins }: DocumentedExample, { id, parameters }: DocumentedFunction): string {
  const read = readFormula(formula);
  const whole = read.kind === "call" && read.name === `YARN.${id}` ? read : undefined;
  const given = (whole?.given ?? []).map(tableIn);
  const named = given.map((rows, place) => ({ rows, name: parameters[place]?.name ?? "" }));
  const tables = named.flatMap(({ rows, name }) =>
    rows === undefined ? [] : [`<p class="table-name">${code(name)}</p>${valuesTable(name, rows)}`],
  );
  const written = named.map(({ rows, name }, place) => (rows === undefined ? (whole?.written[place] ?? "") : name));
  const short = tables.length === 0 ? formula : `=YARN.${id}(${written.join(", ")})`;
  const out = tableIn(readFormula(result));
  const gives =
    out !== undefined && isHeaded(out)
      ? `<p class="gives">gives</p>${valuesTable("Result", out)}${begins ? '<p class="gives">and so on</p>' : ""}`
      : `<p><span class="gives">gives</span> ${code(result)}</p>`;
  return `<p>${code(short)}</p>${tables.join("")}${gives}`;
}

/** An array in braces of at least two rows, as rows; nothing where it is something else, one column or a spectrum. */
function tableIn(formula: Formula | undefined): Rows | undefined {
  if (formula?.kind !== "rows") return undefined;
  const { rows } = formula;
  const width = rows[0]?.length ?? 0;
  return rows.length > 1 && width > 1 && (width <= MOST_BESIDE || isHeaded(rows)) ? rows : undefined;
}

/** The formula and its result in one line; the first of a page with its tables as tables. */
export function exampleItem(example: DocumentedExample, first?: DocumentedFunction): string {
  const { formula, result, begins } = example;
  const line = `${code(formula)} <span class="gives">gives</span> ${code(result)}${begins ? " and so on" : ""}`;
  const said = first === undefined ? line : worked(example, first);
  const wide = said.includes("<table") ? ' class="with-tables"' : "";
  return `<li${wide} data-formula="${escaped(formula)}"${inner(formula)}><div>${said}</div></li>`;
}

/** The call inside, where an example picks one value out of what the function gives. */
function inner(formula: string): string {
  const from = formula.indexOf("YARN.");
  if (from <= 1) return "";
  let depth = 0;
  let quoted = false;
  for (let at = from; at < formula.length; at++) {
    const sign = formula[at];
    if (sign === '"') quoted = !quoted;
    else if (!quoted && sign === "(") depth++;
    else if (!quoted && sign === ")" && --depth === 0)
      return ` data-whole="${escaped(`=${formula.slice(from, at + 1)}`)}"`;
  }
  return "";
}
