import { areaOf } from "./addresses";
import { placeOf, type FormulaCell } from "./calculation";

/** A1# has no meaning once A1 holds a value: it becomes the area that the result filled. */
export function withoutSpillReferences(formula: FormulaCell, areas: ReadonlyMap<string, string>): void {
  const stored = formula.cell.formula;
  if (stored === undefined || !/ANCHORARRAY\(/.test(stored.text)) return;
  const text = stored.text.replace(
    /_xlfn\.ANCHORARRAY\(((?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(\$?[A-Z]{1,3}\$?\d{1,7})\)/giu,
    (whole, sheet: string | undefined, cell: string) => {
      const area = areaOf(cell.replace(/\$/g, ""));
      const named = sheet?.slice(0, -1).replace(/^'|'$/g, "").replace(/''/g, "'") ?? formula.sheet.name;
      const filled = area && areas.get(placeOf(named, area.top, area.left));
      return filled === undefined ? whole : `${sheet ?? ""}${filled}`;
    },
  );
  if (text !== stored.text) formula.cell.reword(text);
}
