import { refuse } from "../trade/refusal";
import { nameOf, readCell, type Named } from "./arguments";
import { isBlank, isOmitted, type Cell, type Result, type Results } from "./cells";
import { mayBeBlank, type Kind } from "./kinds";
import { finiteRows } from "./lift";

/** Results, one per item of a list, in the shape of that list; cells after its last item stay blank. */
export function inShapeOf(argument: Named, results: readonly Result[]): Results {
  let next = 0;
  return finiteRows(nameOf(argument)[1].map((row) => row.map(() => results[next++] ?? "")));
}

/** Results as one column. */
export function asColumn(results: readonly Result[]): Results {
  return finiteRows(results.map((result) => [result]));
}

/** An optional argument beside a list: left out, one cell for all, or one cell per item. */
export function eachOf<T>(argument: Named, kind: Kind<T>, fallback: T, of: string, count: number): T[] {
  const [name, cells] = nameOf(argument);
  if (isOmitted(cells)) return new Array<T>(count).fill(fallback);
  const items = ([] as Cell[]).concat(...cells);
  if (items.length === 1) return new Array<T>(count).fill(readCell(items[0], name, kind));
  if (items.length < count || !items.slice(count).every(isBlank)) {
    refuse(name, `${items.length} items long`, `must be one cell or one per item of ${of}, ${count}`);
  }
  return items.slice(0, count).map((cell, index) => {
    const place = `${name} item ${index + 1}`;
    if (isBlank(cell) && !mayBeBlank(kind)) refuse(place, "blank", "fill it in; a blank is not 0");
    return readCell(cell, place, kind);
  });
}
