import { escaped, scrollingTable } from "./html";
import type { Rows } from "./page/values";
import { dayUnder, isHeaded, textOf } from "./page/written";

/** Values as a table; their first row is its heading where it is one. */
export function valuesTable(name: string, rows: Rows): string {
  const width = rows[0]?.length ?? 0;
  const numeric = Array.from({ length: width }, (_, column) => column).filter((column) =>
    rows.slice(1).some((row) => typeof row[column] === "number"),
  );
  const texts = (some: Rows) =>
    some.map((row) =>
      row.map((value, column) => escaped(textOf(value)) + dayBeside(dayUnder(rows[0]?.[column], value))),
    );
  if (isHeaded(rows)) return scrollingTable(name, (rows[0] ?? []).map(textOf), texts(rows.slice(1)), numeric);
  const lines = texts(rows).map(
    (row) =>
      `<tr>${row.map((cell, column) => `<td${numeric.includes(column) ? ' class="number"' : ""}>${cell}</td>`).join("")}</tr>`,
  );
  return `<div class="scroller" tabindex="0" role="region" aria-label="${escaped(name)}"><table><tbody>${lines.join("")}</tbody></table></div>`;
}

function dayBeside(day: string | undefined): string {
  return day === undefined ? "" : ` <small class="day">${day}</small>`;
}
