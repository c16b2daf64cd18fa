import { dayShown, isDay } from "../../trade/calendar";
import { CellError, type Rows, type Value } from "./values";

/** A value as a cell shows it, a number with all its digits. */
export function textOf(value: Value | undefined): string {
  if (value instanceof CellError) return value.code;
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value ?? "");
}

/** The day that a number under a heading of dates stands for, which a sheet shows once its cells are formatted so. */
export function dayUnder(heading: Value | undefined, value: Value | undefined): string | undefined {
  const isOfDates = typeof heading === "string" && /^date$|\(date\)$/i.test(heading.trim());
  return isOfDates && typeof value === "number" && isDay(value) ? dayShown(value) : undefined;
}

/** More columns than this do not fit beside each other on a phone; there each row becomes a card. */
export const MOST_BESIDE = 4;

/** A row of words over rows of something else. */
export function isHeaded([first = [], ...rest]: Rows): boolean {
  return rest.length > 0 && first.length > 1 && first.every((value) => typeof value === "string");
}

/** A number as a table shows it: four decimals, or five digits where it is smaller than one. */
export function inTable(value: number): string {
  return String(Math.abs(value) >= 1 ? Number(value.toFixed(4)) : nearNothing(Number(value.toPrecision(5))));
}

/** What is left over when a difference of decimals should be nothing. */
function nearNothing(value: number): number {
  return Math.abs(value) < 1e-11 ? 0 : value;
}
