import type { Book } from "./book";
import type { FormulaCell } from "./calculation";
import { Complaint } from "./command-line";
import { DAYS_TO_1904, FIRST_DAY_OF_1970 } from "./number-format";
import { placeOfOne, type Place } from "./places";
import { storedValue } from "./stored-text";
import type { Value } from "./values";

/** A value to be put into a cell, as typed: Inputs!B4=0.03, Loss=3%, 'My sheet'!A1=2026-03-01, Name="a text". */
export interface Setting {
  readonly place: string;
  readonly value: string;
}

export function settingIn(typed: string): Setting {
  const found = /^((?:'(?:[^']|'')*'!)?[^='!]+(?:![^='!]+)?)=([^]*)$/.exec(typed.trim());
  if (found === null) throw new Complaint(`--set is ${typed}; write it as Inputs!B4=0.03 or Name=0.03`);
  return { place: (found[1] as string).trim(), value: (found[2] as string).trim() };
}

/** Puts the values into the cells of an opened book with these formulas, which no file has yet, and tells where. */
export function putInto(book: Book, formulas: readonly FormulaCell[], settings: readonly Setting[]): Place[] {
  return settings.map(({ place: named, value }) => {
    const place = placeOfOne(book, named, "--set");
    const sheet = book.sheets.find(({ name }) => name === place.sheet);
    const owner = formulas.find(
      ({ sheet: on, saved: { top, left, bottom, right } }) =>
        on === sheet && place.row >= top && place.row <= bottom && place.column >= left && place.column <= right,
    );
    if (owner !== undefined) {
      throw new Complaint(`--set ${named} is worked out by =${owner.typed}; name a cell that holds a value`);
    }
    sheet?.part.cell(place.row, place.column).writeOnly(storedValueOf(value, book));
    return place;
  });
}

function storedValueOf(typed: string, book: Book): ReturnType<typeof storedValue> | undefined {
  const value = valueOf(typed, book);
  return value === null ? undefined : storedValue(value);
}

/** As a cell takes what a person types: a number, a percentage, a date by the standard, a truth, or a text. */
function valueOf(typed: string, { date1904 }: Book): Value {
  if (typed === "") return null;
  const quoted = /^"([^]*)"$/.exec(typed);
  if (quoted) return (quoted[1] as string).replace(/""/g, '"');
  if (/^(true|false)$/i.test(typed)) return /^true$/i.test(typed);
  const percentage = /^([-+]?[\d.]+)\s*%$/.exec(typed);
  const number = percentage ? Number(`${percentage[1] as string}e-2`) : Number(typed);
  if (Number.isFinite(number)) return number;
  const date = /^\d{4}-\d{2}-\d{2}$/.test(typed) ? Date.parse(typed) : NaN;
  if (Number.isNaN(date)) return typed;
  return date / MILLISECONDS_A_DAY + FIRST_DAY_OF_1970 - (date1904 ? DAYS_TO_1904 : 0);
}

const MILLISECONDS_A_DAY = 86_400_000;
