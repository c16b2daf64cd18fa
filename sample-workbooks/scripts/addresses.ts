export interface Place {
  readonly column: number;
  readonly row: number;
}

/** The numbers of a cell, from 1. */
export function place(address: string): Place {
  const match = /^([A-Z]+)(\d+)$/.exec(address);
  if (!match) throw new Error(`${address} is not a cell`);
  return {
    column: [...(match[1] as string)].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0),
    row: Number(match[2]),
  };
}

/** The letters of a column by its number, from 1. */
export function columnLetter(column: number): string {
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** The address of a cell by its numbers, from 1. */
export function addressOf(column: number, row: number): string {
  return `${columnLetter(column)}${row}`;
}

/** A range of a sheet as other sheets and charts name it: absolute, with the sheet in quotes. */
export function absolute(sheet: string, range: string): string {
  return `'${sheet}'!${range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`;
}
