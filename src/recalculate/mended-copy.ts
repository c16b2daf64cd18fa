import { openBook, type Book } from "./book";
import { writeForCalc } from "./calc-form";
import { formulasOf, type FormulaCell } from "./calculation";
import { changeNames } from "./defined-names";
import { inFileForm } from "./future-functions";
import { packed } from "./packing";
import { copied, keptAmong, oursOrSaved, type Copied, type CopyJob } from "./plain-copy";
import { bytesOf, writeWhole } from "./recalculation";
import { storeResults } from "./stored-form";

/** Writes a copy in which dead or damaged calls of ours are in the form that Excel binds when it opens the file. */
export function makeMended({ file, called, out, host }: CopyJob): Copied {
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
    changeNames(book, (text) => inFileForm(text));
    const rewritten = host === "calc" ? writeForCalc(book) : undefined;
    writeWhole(out, packed(book.parts));
    return { changed: rewritten ?? broken.length, kept: keptAmong(ours, called) };
  });
}

/** A call in another form than the stored one, or without the marks of a dynamic array. */
function isBroken({ calls, dead, cell }: FormulaCell, { dynamicMarks }: Book): boolean {
  if (!calls) return false;
  return dead || cell.formula?.attributes.t !== "array" || !dynamicMarks.has(cell.attributes.cm ?? "");
}
