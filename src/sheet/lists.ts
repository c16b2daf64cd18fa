import { counted, refuse } from "../trade/refusal";
import { nameOf, readCell, readItem, type Named } from "./arguments";
import { inReadingOrder, isBlank, isOmitted } from "./cells";
import type { Kind } from "./kinds";

/** An optional argument beside a list: left out, one cell for all, or one cell per item. */
export function eachOf<T>(argument: Named, kind: Kind<T>, fallback: T, of: string, count: number): T[] {
  const [name, cells] = nameOf(argument);
  if (isOmitted(cells)) return new Array<T>(count).fill(fallback);
  const items = inReadingOrder(cells);
  if (items.length === 1) return new Array<T>(count).fill(readCell(items[0], name, kind));
  if (items.length < count || !items.slice(count).every(isBlank)) {
    refuse(name, `${counted(items.length, "item")} long`, `must be one cell or one per item of ${of}, ${count}`);
  }
  return items.slice(0, count).map((cell, index) => readItem(cell, () => `${name} item ${index + 1}`, kind));
}
