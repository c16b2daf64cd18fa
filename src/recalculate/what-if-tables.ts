import { addressOf, areaOf, positionOf } from "./addresses";
import type { BookSheet } from "./book";
import type { FormulaCell } from "./calculation";
import type { StoredCell } from "./sheet-part";
import type { Attributes } from "./xml";

/** Does a what-if table begin in a cell? */
export function isWhatIfTable({ formula }: StoredCell): boolean {
  return formula?.attributes.t === "dataTable";
}

/**
 * A what-if table, which fills its area with what formulas above and beside it give for other values of one input or
 * two. Nothing here works it out: it is known for what it reads, so that a change which reaches it is told.
 */
export function whatIfTable(sheet: BookSheet, cell: StoredCell, { ref = "", r1, r2 }: Attributes): FormulaCell[] {
  const saved = areaOf(ref);
  if (saved === undefined) return [];
  const { top, left, bottom, right } = saved;
  const before = Math.max(1, left - 1);
  const above = top > 1 ? [`${addressOf(top - 1, before)}:${addressOf(top - 1, right)}`] : [];
  const beside = left > 1 ? [`${addressOf(top, before)}:${addressOf(bottom, before)}`] : [];
  const inputs = [r1, r2].filter((input) => input !== undefined && positionOf(input) !== undefined) as string[];
  // As a spreadsheet program shows it; what it reads beside its inputs is no part of that.
  const typed = `TABLE(${inputs.join(",")})`;
  const written = `TABLE(${[...inputs, ...above, ...beside].join(",")})`;
  const shape = { calls: false, dead: false, spills: true, confined: true, saved, volatile: false };
  return [{ sheet, cell, stored: "", typed, written, ...shape }];
}
