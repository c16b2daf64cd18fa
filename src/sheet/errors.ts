import { Refusal, type RefusalKind } from "../trade/refusal";
import type { Cell } from "./cells";
import { inWords } from "./places";

const CODES: Record<RefusalKind, CustomFunctions.ErrorCode> = {
  argument: "#VALUE!",
  absent: "#N/A",
  impossible: "#NUM!",
  division: "#DIV/0!",
};

const KNOWN_CODES: readonly string[] = ["#VALUE!", "#N/A", "#NUM!", "#DIV/0!", "#REF!", "#NAME?", "#NULL!"];

/**
 * An error value that came in with the arguments: it goes out again as it came, like in any worksheet function. Like a
 * refusal it is an Error without the trace of calls, which takes most of the time in a long column of errors.
 */
export class ErrorInCell implements Error {
  readonly name = "ErrorInCell";

  constructor(
    readonly code: CustomFunctions.ErrorCode,
    readonly message: string,
  ) {}
}
Object.setPrototypeOf(ErrorInCell.prototype, Error.prototype);

/** Hosts disagree on the form of an error value in a range: {code} or {type: "Error", basicValue}. */
export function errorIn(cell: Cell): ErrorInCell | undefined {
  if (typeof cell !== "object" || cell === null) return undefined;
  const { code, type, basicValue, message } = cell as Record<string, unknown>;
  const text = typeof code === "string" ? code : type === "Error" ? basicValue : undefined;
  if (typeof text !== "string") return undefined;
  return new ErrorInCell(
    (KNOWN_CODES.indexOf(text) >= 0 ? text : "#VALUE!") as CustomFunctions.ErrorCode,
    typeof message === "string" ? message : "",
  );
}

/** So many cells of one call get their messages; a million different ones would take longer than the work. */
const MOST_TOLD = 50_000;

/** Cells of the present call with messages, and the errors that all further ones share. */
let told = 0;
let shared: Partial<Record<RefusalKind, CustomFunctions.Error>> = {};

/** What was told in one call is not counted in the next. */
export function forgetErrors(): void {
  [told, shared] = [0, {}];
}

/** Have so many cells been told what is wrong that further ones are told no more? */
export function enoughTold(): boolean {
  return told >= MOST_TOLD;
}

/** What all further cells get that an argument is wrong in. */
export function toldBefore(kind: RefusalKind): CustomFunctions.Error {
  return (shared[kind] ??= cellError(CODES[kind], `${MOST_TOLD} cells before this one say what is wrong`));
}

/** The cell error for whatever a calculation threw. */
export function worksheetError(thrown: unknown): CustomFunctions.Error {
  if (thrown instanceof ErrorInCell) return cellError(thrown.code, thrown.message);
  if (thrown instanceof Refusal) {
    return told++ < MOST_TOLD ? cellError(CODES[thrown.kind], inWords(thrown)) : toldBefore(thrown.kind);
  }
  // Anything else is a fault of this library, not of the caller; the sheet still gets an error it can show.
  return cellError(
    "#VALUE!",
    `internal fault, please report: ${thrown instanceof Error ? thrown.message : String(thrown)}`,
  );
}

function cellError(code: CustomFunctions.ErrorCode, message: string): CustomFunctions.Error {
  // Excel shows messages for #VALUE! and #N/A only; other codes carry them for the headless side.
  return message === "" ? new CustomFunctions.Error(code) : new CustomFunctions.Error(code, message);
}
