import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { evaluate } from "../../src/recalculate/engine";
import type { Implementation, Implementations } from "../../src/recalculate/bundle";

/** One way to call a function that is known to work, taken from its own documented example. */
export interface KnownCall {
  readonly id: string;
  readonly parameters: readonly { readonly name: string; readonly optional: boolean; readonly description: string }[];
  readonly call: Implementation;
  /** One entry a parameter, null where the example leaves it out. */
  readonly cells: readonly (unknown[][] | null)[];
}

/** A known call of every function: the arguments with which the documented examples reach it. */
export function knownCalls(functions: Implementations): KnownCall[] {
  const reached = new Map<string, unknown[][][]>();
  const recording = new Map(
    [...functions].map(([id, call]) => [
      id,
      (...cells: unknown[]) => {
        // The fullest example says most about the function.
        if (cells.length > (reached.get(id)?.length ?? -1)) reached.set(id, cells as unknown[][][]);
        return call(...cells);
      },
    ]),
  );
  const documented = documentedFunctions();
  evaluate(
    documented.flatMap(({ examples }) => examples.map(({ formula }) => formula)),
    recording,
  );
  return documented.map(({ id, parameters }) => ({
    id,
    parameters,
    call: functions.get(id) as Implementation,
    cells: parameters.map((_, index) => omittedAsNull(reached.get(id)?.[index])),
  }));
}

/** The engine hands an omitted argument over as one blank cell, Excel as null. */
function omittedAsNull(cells: unknown[][] | undefined): unknown[][] | null {
  return cells === undefined || (cells.length === 1 && cells[0]?.length === 1 && cells[0][0] === null) ? null : cells;
}

/** What calling a function came to. */
export type Called =
  | { readonly rows: unknown[][] }
  | { readonly error: { code: string; message?: string } }
  | { readonly fault: string };

/** Calls as Excel would; anything thrown that is no cell error is a fault. */
export function called(call: Implementation, cells: readonly unknown[]): Called {
  try {
    const rows = call(...cells);
    return Array.isArray(rows) ? { rows: rows as unknown[][] } : { fault: `returned ${String(rows)}` };
  } catch (thrown) {
    const error = thrown as { code?: unknown; message?: string };
    return typeof error?.code === "string"
      ? { error: error as { code: string; message?: string } }
      : { fault: String(thrown) };
  }
}

const CODES = ["#VALUE!", "#N/A", "#NUM!", "#DIV/0!", "#REF!", "#NAME?", "#NULL!"];

/** What is wrong with a result, if anything: every result must be a rectangle of plain cells or documented errors. */
export function faultIn(outcome: Called): string | undefined {
  if ("fault" in outcome) return outcome.fault;
  if ("error" in outcome) return faultInError(outcome.error);
  const { rows } = outcome;
  if (rows.length === 0 || (rows[0] as unknown[]).length === 0) return "empty result";
  for (const row of rows) {
    if (row.length !== (rows[0] as unknown[]).length) return "ragged rows";
    for (const cell of row) {
      const fault = faultInCell(cell);
      if (fault !== undefined) return fault;
    }
  }
  return undefined;
}

function faultInCell(cell: unknown): string | undefined {
  if (typeof cell === "string" || typeof cell === "boolean") return undefined;
  if (typeof cell === "number") {
    if (!Number.isFinite(cell)) return `a cell holds ${cell}`;
    return Object.is(cell, -0) ? "a cell holds -0" : undefined;
  }
  return typeof cell === "object" && cell !== null ? faultInError(cell) : `a cell holds ${String(cell)}`;
}

function faultInError(error: { code?: unknown; message?: unknown }): string | undefined {
  if (typeof error.code !== "string" || !CODES.includes(error.code)) return `error code ${String(error.code)}`;
  const message = typeof error.message === "string" ? error.message : "";
  if (message.length > 120) return `message of ${message.length} characters: ${message}`;
  if (message.startsWith("internal fault")) return message;
  // What a person typed may be such a word; it stands in quotes, and headings in a list.
  const own = message.replace(/".*"|".*| headed [^;]*/s, "");
  if (/NaN|Infinity|undefined|null|\[object/.test(own)) return `message shows a machine's word: ${message}`;
  return undefined;
}
