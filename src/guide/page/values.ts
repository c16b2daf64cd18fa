/** What a cell holds on a page; null is a blank. */
export type Value = number | string | boolean | null | CellError;

export type Rows = Value[][];

/** The error a function gives to a cell: this is what `CustomFunctions.Error` is on a page. */
export class CellError {
  constructor(
    readonly code: string,
    readonly message = "",
  ) {}
}

/** A function of the library as Excel calls it: rows of cells, null for what is left out. */
export type Implementation = (...cells: (unknown[][] | null)[]) => unknown;
