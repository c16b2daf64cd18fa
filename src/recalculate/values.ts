/** A value as the worksheet shows it; an error keeps the message it was raised with. */
export type Value = number | string | boolean | null | CellError;

export class CellError {
  constructor(
    readonly code: string,
    readonly message = "",
  ) {}
}

/** What a formula gave: one value, or rows of them. */
export type Outcome = Value | Value[][];

/** An outcome as rows, whatever its shape. */
export function rowsOf(outcome: Outcome): Value[][] {
  return Array.isArray(outcome) ? outcome : [[outcome]];
}

/** A value as a cell shows it in text: the shortest decimal of the number, TRUE and FALSE, the error's code. */
export function shownAs(value: Value): string {
  if (value === null) return "";
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return value instanceof CellError ? value.code : String(value);
}
