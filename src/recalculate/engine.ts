import { Workbook } from "@cj-tech-master/excelts";
import { calculateFormulas, parse, tokenize } from "@cj-tech-master/excelts/formula";
import type { Implementation, Implementations } from "./bundle";

/** The one file that knows the calculation engine. */

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

/** The engine's own form of values. */
type Running =
  | { kind: 0 }
  | { kind: 1; value: number }
  | { kind: 2; value: string }
  | { kind: 3; value: boolean }
  | { kind: 4; code: string; message?: string }
  | { kind: 5; rows: Running[][]; height: number; width: number }
  | { kind: number };

/** Error messages raised while one formula is worked out: the engine keeps the code only. */
class Messages {
  private readonly raised: CellError[] = [];

  note(error: CellError): void {
    if (error.message !== "") this.raised.push(error);
  }

  /** The message of the last error of this code. */
  lastFor(code: string): string {
    for (let index = this.raised.length - 1; index >= 0; index--) {
      const error = this.raised[index] as CellError;
      if (error.code === code) return error.message;
    }
    return "";
  }

  clear(): void {
    this.raised.length = 0;
  }
}

/** Works out formulas as typed in a cell ("=YARN.COUNT(10,"NeC","NeW")"), in order, whatever fails. */
export function evaluate(formulas: readonly string[], functions: Implementations): Outcome[] {
  const outcomes: Outcome[] = formulas.map(() => new CellError("#VALUE!", "the formula could not be worked out"));
  const workbook = new Workbook();
  const sheet = workbook.addWorksheet("Sheet1");
  const messages = new Messages();
  registerAll(workbook, functions, messages);

  // The whole formula is wrapped in a call that catches its value, so that nothing spills and nothing is lost.
  workbook.registerFunction("CAUGHT", (received) => {
    const [index, value] = received as [{ value: number }, Running];
    outcomes[index.value] = outcomeOf(value, messages);
    messages.clear();
    return { kind: 1, value: 0 };
  });

  formulas.forEach((typed, index) => {
    const formula = typed.trim().replace(/^=/, "");
    const fault = syntaxFault(formula, functions);
    if (fault) outcomes[index] = fault;
    else {
      sheet.getCell(`A${index + 1}`).value = { formula: `CAUGHT(${index},${formula})`, ...dynamic(`A${index + 1}`) };
    }
  });
  calculateFormulas(workbook);
  return outcomes;
}

/** What makes the engine treat a formula as a dynamic array, as Excel stores one. */
function dynamic(ref: string): { shareType: "array"; ref: string; isDynamicArray: true } {
  return { shareType: "array", ref, isDynamicArray: true };
}

function syntaxFault(formula: string, functions: Implementations): CellError | undefined {
  if (formula === "") return new CellError("#VALUE!", "the formula is empty");
  for (const [, id] of formula.replace(/"[^"]*"/g, '""').matchAll(/\bYARN\.([A-Z0-9_.]+)\s*\(/gi)) {
    if (!functions.has((id as string).toUpperCase())) {
      return new CellError("#NAME?", `YARN.${(id as string).toUpperCase()} is not a function of this library`);
    }
  }
  try {
    parse(tokenize(formula));
    return undefined;
  } catch (fault) {
    return new CellError(
      "#VALUE!",
      `the formula is not well formed: ${fault instanceof Error ? fault.message : String(fault)}`,
    );
  }
}

/** Makes our functions known under the name a person types and the name a workbook stores. */
function registerAll(workbook: Workbook, functions: Implementations, messages: Messages): void {
  functions.forEach((implementation, id) => {
    const call = adapted(implementation, messages);
    workbook.registerFunction(`YARN.${id}`, call);
    workbook.registerFunction(`_XLDUDF_YARN_${id}`, call);
  });
  // The engine's ROUND works on the binary value (1.005 gives 1); the sheet's own rounds the decimal a person sees.
  const roundCash = functions.get("ROUNDCASH");
  if (roundCash) workbook.registerFunction("ROUND", adapted(roundCash, messages));
}

/** Calls one of our functions the way Excel does: ranges as rows of cells, omitted arguments as null. */
function adapted(implementation: Implementation, messages: Messages): (received: unknown[]) => unknown {
  return (received) => {
    try {
      return running(implementation(...received.map((value) => cellsOf(value as Running))), messages);
    } catch (thrown) {
      return runningError(thrown, messages);
    }
  };
}

function cellsOf(value: Running): unknown[][] {
  return "rows" in value ? value.rows.map((row) => row.map(cellOf)) : [[cellOf(value)]];
}

function cellOf(value: Running): unknown {
  if ("code" in value) return { code: value.code };
  return "value" in value ? value.value : null;
}

function running(result: unknown, messages: Messages): Running {
  if (!Array.isArray(result)) return runningCell(result, messages);
  const rows = (result as unknown[][]).map((row) => row.map((cell) => runningCell(cell, messages)));
  if (rows.length === 1 && rows[0]?.length === 1) return rows[0][0] as Running;
  return { kind: 5, rows, height: rows.length, width: rows[0]?.length ?? 0 };
}

function runningCell(cell: unknown, messages: Messages): Running {
  if (typeof cell === "number") return { kind: 1, value: cell };
  if (typeof cell === "string") return { kind: 2, value: cell };
  if (typeof cell === "boolean") return { kind: 3, value: cell };
  // A returned null shows as 0 in Excel.
  if (cell === null || cell === undefined) return { kind: 1, value: 0 };
  return runningError(cell, messages);
}

function runningError(thrown: unknown, messages: Messages): Running {
  const { code, message } = thrown as { code?: unknown; message?: unknown };
  const error = new CellError(
    typeof code === "string" ? code : "#VALUE!",
    typeof message === "string" ? message : typeof code === "string" ? "" : String(thrown),
  );
  messages.note(error);
  // The engine hands the object on as it is, so the message usually comes back with its own cell.
  return { kind: 4, code: error.code, message: error.message };
}

function outcomeOf(value: Running, messages: Messages): Outcome {
  if (!("rows" in value)) return valueOf(value, messages);
  return value.rows.map((row) => row.map((cell) => valueOf(cell, messages)));
}

function valueOf(value: Running, messages: Messages): Value {
  if ("code" in value) return new CellError(value.code, value.message ?? messages.lastFor(value.code));
  return "value" in value ? value.value : null;
}
