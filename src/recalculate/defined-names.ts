import type { Book } from "./book";
import { put } from "./dynamic-arrays";
import { callsOurs } from "./formula-text";
import { textOf } from "./package-safety";
import { decoded, elements, encoded } from "./xml";

/** Changes the calls of ours in defined names: they can hold formulas too. */
export function changeNames({ parts, workbookPart, called }: Book, change: (formula: string) => string): void {
  const xml = textOf(parts, workbookPart, called) ?? "";
  let mended = "";
  let from = 0;
  for (const { inner, start, end } of elements(xml, "definedName")) {
    const text = decoded(inner);
    if (!callsOurs(text)) continue;
    mended += xml.slice(from, start) + xml.slice(start, end).replace(inner, () => encoded(change(text)));
    from = end;
  }
  if (from > 0) put(parts, workbookPart, mended + xml.slice(from));
}
