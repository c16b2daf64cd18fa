import { openBook, type Book } from "./book";
import { formulasOf, type FormulaCell } from "./calculation";
import { put } from "./dynamic-arrays";
import { callsOurs, withOursStored } from "./formula-text";
import { textOf } from "./package-safety";
import { packed } from "./packing";
import { copied, keptAmong, oursOrSaved, type Copied, type CopyJob } from "./plain-copy";
import { bytesOf, writeWhole } from "./recalculation";
import { storeResults } from "./stored-form";
import { decoded, elements, encoded } from "./xml";

/** Writes a copy in which dead or damaged calls of ours are in the form that Excel binds when it opens the file. */
export function makeMended({ file, called, out }: CopyJob): Copied {
  return copied(() => {
    const book = openBook(bytesOf(file, called), called);
    const formulas = formulasOf(book);
    const broken = formulas.filter((formula) => isBroken(formula, book));
    const ours = oursOrSaved(book, formulas);
    // A call that cannot be worked out is mended too, with the value it has.
    storeResults(
      book,
      formulas,
      ours.map(({ formula, outcome }) => ({ formula, outcome })),
    );
    mendNames(book);
    writeWhole(out, packed(book.parts));
    return { changed: broken.length, kept: keptAmong(ours, called) };
  });
}

/** A call in another form than the stored one, or without the marks of a dynamic array. */
function isBroken({ calls, dead, cell }: FormulaCell, { dynamicMarks }: Book): boolean {
  if (!calls) return false;
  return dead || cell.formula?.attributes.t !== "array" || !dynamicMarks.has(cell.attributes.cm ?? "");
}

/** Defined names can hold calls too. */
function mendNames({ parts, workbookPart, called }: Book): void {
  const xml = textOf(parts, workbookPart, called) ?? "";
  let mended = "";
  let from = 0;
  for (const { inner, start, end } of elements(xml, "definedName")) {
    const text = decoded(inner);
    if (!callsOurs(text)) continue;
    mended += xml.slice(from, start) + xml.slice(start, end).replace(inner, () => encoded(withOursStored(text)));
    from = end;
  }
  if (from > 0) put(parts, workbookPart, mended + xml.slice(from));
}
