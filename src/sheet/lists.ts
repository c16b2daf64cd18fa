import { counted, refuse } from "../trade/refusal";
import { list, listOr, nameOf, readCell, readItem, sameLength, type Named } from "./arguments";
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
  return items.slice(0, count).map((cell, index) => readItem(cell, `${name} item ${index + 1}`, kind));
}

/** For each field the list it comes from, the kind of its items, and what every item is when the list is left out. */
export type Lists<R> = { readonly [K in keyof R]: readonly [from: Named, kind: Kind<R[K]>, leftOut?: R[K]] };

/** Lists that belong together item by item, taken whole: one object per item. All must be as long as the first. */
export function together<R extends object>(lists: Lists<R>): R[] {
  const fields = Object.keys(lists) as (keyof R & string)[];
  const [firstFrom, firstKind] = lists[fields[0] as keyof R & string];
  const [firstName] = nameOf(firstFrom);
  const items = list(firstFrom, firstKind).map((): Partial<R> => ({}));
  for (const field of fields) {
    const [from, kind, leftOut] = lists[field];
    const values =
      leftOut === undefined
        ? list(from, kind)
        : listOr(
            from,
            kind,
            items.map(() => leftOut),
          );
    sameLength(firstName, items.length, nameOf(from)[0], values.length);
    items.forEach((item, index) => (item[field] = values[index] as R[typeof field]));
  }
  return items as R[];
}
