import { readFileSync } from "node:fs";
import { openBook, type Book } from "../../src/recalculate/book";
import { calculated, formulasOf } from "../../src/recalculate/calculation";
import { placeOfOne } from "../../src/recalculate/places";
import { storeResults } from "../../src/recalculate/stored-form";
import { storedValue, valueIn } from "../../src/recalculate/stored-text";
import { shownAs, type Value } from "../../src/recalculate/values";
import { bundledFunctions } from "./functions";

/** A workbook worked out from nothing with other values in some cells; a formula that stood there is gone. */
export function workedOutWith(file: string, values: Readonly<Record<string, Value>>): Book {
  const book = openBook(readFileSync(file), file);
  for (const [named, value] of Object.entries(values)) {
    const { sheet, row, column } = placeOfOne(book, named, "fault");
    const part = book.sheets.find(({ name }) => name === sheet)?.part;
    part?.cell(row, column).writeOnly(value === null ? undefined : storedValue(value));
  }
  const formulas = formulasOf(book);
  storeResults(book, formulas, calculated(book, formulas, bundledFunctions()));
  return book;
}

/** The value of one cell, by its address or name. */
export function valueAt(book: Book, named: string): Value {
  const { sheet, row, column } = placeOfOne(book, named, "cell");
  const cell = book.sheets.find(({ name }) => name === sheet)?.part.find(row, column);
  return cell === undefined ? null : valueIn(cell.value, book.shared);
}

/** The lines of the sheet Checks: what each says, and whether it holds. */
export function checksOf(book: Book): Map<string, Value> {
  const lines = new Map<string, Value>();
  for (let row = 7; ; row++) {
    const what = valueAt(book, `Checks!A${row}`);
    if (what === null) return lines;
    lines.set(shownAs(what), valueAt(book, `Checks!B${row}`));
  }
}
