import type { Area } from "./grid";

export const LAST_ROW = 1_048_576;
export const LAST_COLUMN = 16_384;

/** 1 → A, 27 → AA. */
export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

export function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters.toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

export function addressOf(row: number, column: number): string {
  return `${columnLetters(column)}${row}`;
}

export function positionOf(address: string): { row: number; column: number } | undefined {
  const found = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/i.exec(address);
  return found ? { row: Number(found[2]), column: columnNumber(found[1] as string) } : undefined;
}

/** "B4:C6", or "B4" for one cell. */
export function areaOf(reference: string): Area | undefined {
  const [first, second] = reference.split(":");
  const [from, to] = [positionOf(first ?? ""), positionOf(second ?? first ?? "")];
  return from && to ? { top: from.row, left: from.column, bottom: to.row, right: to.column } : undefined;
}

export function referenceTo({ top, left, bottom, right }: Area): string {
  const from = addressOf(top, left);
  return top === bottom && left === right ? from : `${from}:${addressOf(bottom, right)}`;
}

export function heightOf({ top, bottom }: Area): number {
  return bottom - top + 1;
}

export function widthOf({ left, right }: Area): number {
  return right - left + 1;
}
