import { readFormula, Unreadable, type Call, type Formula } from "./formula";
import { CellError, type Implementation, type Rows, type Value } from "./values";

/** What a formula is worked out with: the functions, and what stands in the cells that it refers to. */
export interface Surroundings {
  readonly functions: ReadonlyMap<string, Implementation>;
  /** The cells of a reference; throws a CellError where there are none. */
  readonly cells: (reference: string) => Rows;
}

/** Works a typed formula out to rows of values. Whatever goes wrong is an error value with a message, as in a sheet. */
export function evaluate(
  typed: string,
  functions: ReadonlyMap<string, Implementation>,
  cells: Surroundings["cells"] = noCells,
): Rows {
  try {
    return workedOut(readFormula(typed), { functions, cells });
  } catch (thrown) {
    if (thrown instanceof Unreadable) return [[new CellError("#VALUE!", thrown.message)]];
    throw thrown;
  }
}

/** The rows of a formula that was read. */
export function workedOut(formula: Formula, surroundings: Surroundings): Rows {
  try {
    return rowsOf(formula, surroundings);
  } catch (thrown) {
    return [[errorOf(thrown)]];
  }
}

function rowsOf(formula: Formula, surroundings: Surroundings): Rows {
  switch (formula.kind) {
    case "rows":
      return formula.rows;
    case "reference":
      return surroundings.cells(formula.text);
    case "single": {
      const rows = rowsOf(formula.of, surroundings);
      if (rows.length === 1 && rows[0]?.length === 1) return rows;
      throw new CellError("#VALUE!", "@ picks one cell of an area; that is not worked out here");
    }
    case "operation": {
      const { sign, left, right } = formula;
      return together(rowsOf(left, surroundings), rowsOf(right, surroundings), (a, b) => operate(sign, a, b));
    }
    case "call":
      return called(formula, surroundings);
  }
}

function noCells(reference: string): never {
  throw new CellError(
    "#VALUE!",
    /^[A-Z]{1,3}\d+$|[$:![#]/i.test(reference)
      ? `this page has no cells: write a value instead of ${reference}`
      : `${reference} is no value; text needs quotation marks: "${reference}"`,
  );
}

function called({ name, given: formulas }: Call, surroundings: Surroundings): Rows {
  const { functions } = surroundings;
  const lazy = LAZY_FUNCTIONS.get(name);
  if (lazy) return lazy(formulas, surroundings);
  const given = formulas.map((formula) => (formula === undefined ? null : rowsOf(formula, surroundings)));
  const ours = functions.get(name.replace(/^YARN\./, ""));
  if (name.startsWith("YARN.") && ours) return ofLibrary(ours, given);
  const sheets = SHEET_FUNCTIONS.get(name);
  if (sheets) return sheets(given, functions);
  const known = [...SHEET_FUNCTIONS.keys(), ...LAZY_FUNCTIONS.keys()].join(", ");
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
    const rows = Array.isArray(result) ? (result as unknown[][]) : [[result]];
    // The errors inside are of the class of whoever runs the functions.
    return rows.map((row) => row.map((value) => (isObject(value) ? errorOf(value) : (value as Value))));
  } catch (thrown) {
    return [[errorOf(thrown)]];
  }
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function errorOf(thrown: unknown): CellError {
  if (thrown instanceof CellError) return thrown;
  const { code, message } = (isObject(thrown) ? thrown : {}) as Record<string, unknown>;
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

/** Is this function of the sheet one of the few that are worked out here? */
export function isWorkedOut(name: string): boolean {
  return SHEET_FUNCTIONS.has(name) || LAZY_FUNCTIONS.has(name);
}

/** Those that do not work out every argument. */
const LAZY_FUNCTIONS: ReadonlyMap<
  string,
  (given: readonly (Formula | undefined)[], surroundings: Surroundings) => Rows
> = new Map([
  ["IF", chosen],
  ["IFERROR", (given, surroundings) => unless(given, surroundings, () => true)],
  ["IFNA", (given, surroundings) => unless(given, surroundings, ({ code }) => code === "#N/A")],
]);

function chosen([condition, then, otherwise]: readonly (Formula | undefined)[], surroundings: Surroundings): Rows {
  const asked = condition ? rowsOf(condition, surroundings) : [[null]];
  const rowsFor = (holds: boolean): Rows => {
    const branch = holds ? then : otherwise;
    return branch ? rowsOf(branch, surroundings) : [[holds ? null : false]];
  };
  if (asked.length === 1 && asked[0]?.length === 1) return rowsFor(truth(asked[0][0] as Value));
  const [yes, no] = [rowsFor(true), rowsFor(false)];
  const either = together(yes, no, () => null);
  return together(asked, either, truth).map((row, down) =>
    row.map((holds, along) => (holds instanceof CellError ? holds : cellAt(holds ? yes : no, down, along))),
  );
}

function truth(value: Value): boolean {
  if (value instanceof CellError) throw value;
  return typeof value === "string" && /^(true|false)$/i.test(value) ? /^t/i.test(value) : numberOf(value) !== 0;
}

function unless(
  [value, otherwise]: readonly (Formula | undefined)[],
  surroundings: Surroundings,
  concerned: (error: CellError) => boolean,
): Rows {
  const rows = value ? workedOut(value, surroundings) : [[null]];
  const concerns = (one: Value) => one instanceof CellError && concerned(one);
  if (!rows.some((row) => row.some(concerns))) return rows;
  const instead = otherwise ? rowsOf(otherwise, surroundings) : [[null]];
  return rows.map((row, down) => row.map((one, along) => (concerns(one) ? cellAt(instead, down, along) : one)));
}

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
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => {
      const pair = [cellAt(left, row, column), cellAt(right, row, column)] as const;
      try {
        return pair.find((value) => value instanceof CellError) ?? calculate(...pair);
      } catch (thrown) {
        return errorOf(thrown);
      }
    }),
  );
}

/** A single row, column or cell is repeated; beyond the others there is nothing. */
function cellAt(rows: Rows, row: number, column: number): Value {
  const cells = rows.length === 1 ? rows[0] : rows[row];
  const value = cells?.length === 1 ? cells[0] : cells?.[column];
  return value === undefined ? new CellError("#N/A") : value;
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
  if (value === null) return "";
  return value instanceof CellError ? value.code : String(value);
}

function numberOf(value: Value): number {
  if (value === null) return 0;
  const number = typeof value === "string" && value.trim() === "" ? NaN : Number(value);
  if (Number.isNaN(number)) throw new CellError("#VALUE!", `${textOf(value)} is not a number`);
  return number;
}
