import { shortened } from "../trade/refusal";

/** What one cell can hold when it reaches a function. An error value is an object (see errors.ts). */
export type Cell = unknown;

/** What a range or a single cell arrives as: rows of cells. */
export type Cells = Cell[][];

/** What a function gives back to one cell. */
export type Result = number | string | boolean;

/** What a function gives back: rows of results, with an error object where a row is bad. */
export type Results = (Result | CustomFunctions.Error)[][];

/** An empty cell arrives as null (or undefined) on some hosts; a formula that shows nothing gives "". */
export function isBlank(cell: Cell): cell is null | undefined | "" {
  return cell === null || cell === undefined || cell === "";
}

/** Is the argument left out, or a reference to one blank cell? */
export function isOmitted(cells: Cell): boolean {
  if (!Array.isArray(cells)) return isBlank(cells);
  return (
    cells.length === 0 ||
    (cells.length === 1 && Array.isArray(cells[0]) && cells[0].length <= 1 && isBlank(cells[0][0]))
  );
}

/** Rows of cells, whatever form the host used: a bare value counts as a single cell, nothing as a blank one. */
export function rowsOf(cells: Cell): Cells {
  if (!Array.isArray(cells)) return [[cells]];
  if (cells.length === 0) return [[null]];
  if (!Array.isArray(cells[0])) return [cells];
  return cells[0].length === 0 ? [[null]] : (cells as Cells);
}

/** The cells of a range in reading order. Not by spreading: a long column would overflow the stack. */
export function inReadingOrder(cells: Cells): Cell[] {
  const order: Cell[] = [];
  for (const row of cells) for (const cell of row) order.push(cell);
  return order;
}

/** A cell as a message quotes it: short, and never an object dump. */
export function shown(cell: Cell): string {
  if (isBlank(cell)) return "blank";
  if (typeof cell === "string") return `text "${shortened(cell)}"`;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  if (typeof cell === "number") return Number.isFinite(cell) ? String(cell) : "not a number";
  return "not a plain value";
}

/** A shape as a person says it. */
export function shapeOf(rows: number, columns: number): string {
  return `${rows}×${columns}`;
}
