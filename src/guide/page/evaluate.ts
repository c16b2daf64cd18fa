import { readFormula, Unreadable, type Formula } from "./formula";
import { CellError, type Implementation, type Value } from "./values";

type Rows = Value[][];

/** Works a typed formula out to rows of values. Whatever goes wrong is an error value with a message, as in a sheet. */
export function evaluate(typed: string, functions: ReadonlyMap<string, Implementation>): Rows {
  try {
    return rowsOf(readFormula(typed), functions);
  } catch (thrown) {
    if (thrown instanceof Unreadable) return [[new CellError("#VALUE!", thrown.message)]];
    return [[errorOf(thrown)]];
  }
}

function rowsOf(formula: Formula, functions: ReadonlyMap<string, Implementation>): Rows {
  switch (formula.kind) {
    case "rows":
      return formula.rows;
    case "operation": {
      const { sign, left, right } = formula;
      return together(rowsOf(left, functions), rowsOf(right, functions), (a, b) => operate(sign, a, b));
    }
    case "call":
      return called(
        formula.name,
        formula.given.map((given) => (given === undefined ? null : rowsOf(given, functions))),
        functions,
      );
  }
}

function called(name: string, given: (Rows | null)[], functions: ReadonlyMap<string, Implementation>): Rows {
  const ours = functions.get(name.replace(/^YARN\./, ""));
  if (name.startsWith("YARN.") && ours) return ofLibrary(ours, given);
  const sheets = SHEET_FUNCTIONS.get(name);
  if (sheets) return sheets(given, functions);
  const known = [...SHEET_FUNCTIONS.keys()].join(", ");
  throw new CellError(
    "#NAME?",
    name.startsWith("YARN.")
      ? `${name} is not a function of this library`
      : `this page works out YARN functions and ${known} only, not ${name}`,
  );
}

/** Calls as Excel does: rows of cells, null for what is left out; an error that is thrown is the result. */
function ofLibrary(implementation: Implementation, given: (Rows | null)[]): Rows {
  try {
    const result = implementation(...given);
    return Array.isArray(result) ? (result as Rows) : [[result as Value]];
  } catch (thrown) {
    return [[errorOf(thrown)]];
  }
}

function errorOf(thrown: unknown): CellError {
  const { code, message } = (typeof thrown === "object" && thrown !== null ? thrown : {}) as Record<string, unknown>;
  if (typeof code !== "string") return new CellError("#VALUE!", String(thrown));
  return new CellError(code, typeof message === "string" ? message : "");
}

/** The few functions of the sheet that the documented examples wrap around ours. */
const SHEET_FUNCTIONS: ReadonlyMap<
  string,
  (given: (Rows | null)[], functions: ReadonlyMap<string, Implementation>) => Rows
> = new Map([
  ["INDEX", index],
  ["SUM", (given) => [[sum(given)]]],
  ["ROUND", rounded],
  ["LEN", (given) => together(given[0] ?? [[null]], [[null]], (value) => textOf(value).length)],
]);

function index([rows, down, along]: (Rows | null)[]): Rows {
  if (!rows) throw new CellError("#VALUE!", "INDEX needs an array");
  // With one number, a single row is counted along.
  const [row, column] = !along && rows.length === 1 ? [0, place(down)] : [place(down), place(along)];
  const width = (rows[0] as Value[]).length;
  if (row > rows.length || column > width || row < 0 || column < 0) {
    throw new CellError("#REF!", `the array has ${rows.length} rows and ${width} columns`);
  }
  const chosen = row === 0 ? rows : [rows[row - 1] as Value[]];
  return column === 0 ? chosen : chosen.map((cells) => [cells[column - 1] as Value]);
}

function place(rows: Rows | null | undefined): number {
  const value = rows?.[0]?.[0] ?? 0;
  if (value instanceof CellError) throw value;
  return Math.trunc(numberOf(value));
}

function sum(given: (Rows | null)[]): number {
  let total = 0;
  for (const rows of given) {
    for (const value of ([] as Value[]).concat(...(rows ?? []))) {
      if (value instanceof CellError) throw value;
      if (typeof value === "number") total += value;
    }
  }
  return total;
}

/** The sheet rounds the decimal that a person sees, half away from zero; so does the library's own rounding. */
function rounded([value, digits]: (Rows | null)[], functions: ReadonlyMap<string, Implementation>): Rows {
  return ofLibrary(functions.get("ROUNDCASH") as Implementation, [value ?? null, digits ?? [[0]]]);
}

/** Cell by cell; a single row, column or cell is repeated to fit. */
function together(left: Rows, right: Rows, calculate: (a: Value, b: Value) => Value): Rows {
  const height = Math.max(left.length, right.length);
  const width = Math.max((left[0] as Value[]).length, (right[0] as Value[]).length);
  const at = (rows: Rows, row: number, column: number): Value => {
    const cells = rows.length === 1 ? rows[0] : rows[row];
    const value = cells?.length === 1 ? cells[0] : cells?.[column];
    return value === undefined ? new CellError("#N/A") : value;
  };
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => {
      const pair = [at(left, row, column), at(right, row, column)] as const;
      try {
        return pair.find((value) => value instanceof CellError) ?? calculate(...pair);
      } catch (thrown) {
        return errorOf(thrown);
      }
    }),
  );
}

function operate(sign: string, a: Value, b: Value): Value {
  switch (sign) {
    case "&":
      return textOf(a) + textOf(b);
    case "=":
      return compared(a, b) === 0;
    case "<>":
      return compared(a, b) !== 0;
    case "<":
      return compared(a, b) < 0;
    case ">":
      return compared(a, b) > 0;
    case "<=":
      return compared(a, b) <= 0;
    case ">=":
      return compared(a, b) >= 0;
    default:
      return arithmetic(sign, numberOf(a), numberOf(b));
  }
}

function arithmetic(sign: string, a: number, b: number): number {
  if (sign === "/" && b === 0) throw new CellError("#DIV/0!");
  const result = sign === "+" ? a + b : sign === "-" ? a - b : sign === "*" ? a * b : sign === "/" ? a / b : a ** b;
  if (!Number.isFinite(result)) throw new CellError("#NUM!");
  return result === 0 ? 0 : result;
}

/** The sheet's order: numbers before text before FALSE before TRUE; text without regard to case. */
function compared(a: Value, b: Value): number {
  const [x, y] = [a ?? blankLike(b), b ?? blankLike(a)];
  const order = rank(x) - rank(y);
  if (order !== 0) return order;
  if (typeof x === "string")
    return x.toLowerCase() < (y as string).toLowerCase() ? -1 : sameText(x, y as string) ? 0 : 1;
  return Number(x) - Number(y);
}

function sameText(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

function blankLike(other: Value): Value {
  return typeof other === "string" ? "" : typeof other === "boolean" ? false : 0;
}

function rank(value: Value): number {
  return ["number", "string", "boolean"].indexOf(typeof value);
}

function textOf(value: Value): string {
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return value === null ? "" : String(value);
}

function numberOf(value: Value): number {
  if (value === null) return 0;
  const number = typeof value === "string" && value.trim() === "" ? NaN : Number(value);
  if (Number.isNaN(number)) throw new CellError("#VALUE!", `${textOf(value)} is not a number`);
  return number;
}
