import { isWorkedOut, workedOut, type Surroundings } from "../guide/page/evaluate";
import { readFormula, Unreadable, type Call, type Formula } from "../guide/page/formula";
import { CellError, type Implementation, type Rows } from "../guide/page/values";
import { asTyped } from "../recalculate/formula-text";
import { referencesIn } from "./references";
import type { Cells } from "./sheet";

/** A formula, read: what it refers to, and what it gives once that is known. */
export interface Question {
  readonly references: readonly string[];
  answer(cells: Cells, functions: ReadonlyMap<string, Implementation>): Answer;
}

export interface Answer {
  readonly rows: Rows;
  /** Functions of the sheet in it that the pane cannot work out; the rows then tell no more than that. */
  readonly unknown: readonly string[];
  /** The calls of ours, the outermost first. */
  readonly calls: readonly AnsweredCall[];
}

export interface AnsweredCall {
  readonly id: string;
  readonly rows: Rows;
  readonly given: readonly Given[];
}

export interface Given {
  readonly written: string;
  /** Nothing for an argument that is left out. */
  readonly rows?: Rows;
}

export function readQuestion(formula: string): Question {
  let read: Formula;
  try {
    read = readFormula(asTyped(formula));
  } catch (thrown) {
    if (!(thrown instanceof Unreadable)) throw thrown;
    const rows = [[new CellError("#VALUE!", `the pane cannot read this formula: ${thrown.message}`)]];
    return { references: [], answer: () => ({ rows, unknown: [], calls: [] }) };
  }
  return {
    references: referencesIn(read),
    answer(cells, functions) {
      const calls = callsIn(read);
      const surroundings: Surroundings = { functions, cells: (reference) => cellsOf(reference, cells) };
      return {
        rows: workedOut(read, surroundings),
        unknown: [...new Set(calls.filter((call) => !isOurs(call) && !isWorkedOut(call.name)).map(({ name }) => name))],
        calls: calls.filter(isOurs).map((call) => ({
          id: call.name.replace(/^YARN\./, ""),
          rows: workedOut(call, surroundings),
          given: call.given.map((given, place) => ({
            written: call.written[place] as string,
            ...(given === undefined ? {} : { rows: workedOut(given, surroundings) }),
          })),
        })),
      };
    },
  };
}

function cellsOf(reference: string, cells: Cells): Rows {
  const found = cells.get(reference) ?? new CellError("#REF!", `${reference} was not looked up`);
  if (found instanceof CellError) throw found;
  return found;
}

function isOurs({ name }: Call): boolean {
  return name.startsWith("YARN.");
}

function callsIn(formula: Formula | undefined): Call[] {
  switch (formula?.kind) {
    case "call":
      return [formula, ...formula.given.flatMap(callsIn)];
    case "operation":
      return [...callsIn(formula.left), ...callsIn(formula.right)];
    case "single":
      return callsIn(formula.of);
    default:
      return [];
  }
}
