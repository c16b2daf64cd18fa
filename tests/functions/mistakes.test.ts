import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { CellError, evaluate, type Outcome } from "../../src/recalculate/engine";
import { sourceFunctions } from "../support/functions";

/*
 * What a tired person types, one mistake a line of tests/data/mistakes.jsonl, and how it ends. Either it is refused, and
 * the message names the argument and says what to look at; or a cell of the result notes it; or what was meant is
 * understood; or it cannot be told, because the same call is right for somebody else, who is named.
 */

const KINDS = ["swap", "unit", "percent", "heading", "total", "date", "sign", "blank", "text"];

interface Mistake {
  readonly of: string;
  readonly kind: string;
  readonly mistake: string;
  readonly formula: string;
  /** The argument that the message names, and words of its advice. */
  readonly refused?: readonly [argument: string, advice: string];
  /** Words of a cell of the result. */
  readonly noted?: string;
  /** The formula that was meant, which gives the same. */
  readonly meant?: string;
  /** For whom the same call is right. */
  readonly rightFor?: string;
}

const mistakes = readFileSync("tests/data/mistakes.jsonl", "utf8")
  .split("\n")
  .filter((line) => line !== "")
  .map((line) => JSON.parse(line) as Mistake);

const documented = documentedFunctions();

function cellsOf(outcome: Outcome): unknown[] {
  return Array.isArray(outcome) ? outcome.flat() : [outcome];
}

describe("the list", () => {
  test("holds at least three mistakes of every function that takes arguments, and one of every other", () => {
    const counts = new Map<string, number>();
    for (const { of } of mistakes) counts.set(of, (counts.get(of) ?? 0) + 1);
    const few = documented.filter(({ id, parameters }) => (counts.get(id) ?? 0) < (parameters.length > 0 ? 3 : 1));
    expect(few.map(({ id }) => id)).toEqual([]);
    const ids = new Set(documented.map(({ id }) => id));
    expect([...counts.keys()].filter((id) => !ids.has(id))).toEqual([]);
  });

  test("says of each what it is and how it ends, once, in a formula that a sheet takes", () => {
    const formulas = mistakes.map(({ formula }) => formula);
    expect(new Set(formulas).size).toBe(formulas.length);
    for (const { of, kind, mistake, formula, refused, noted, meant, rightFor } of mistakes) {
      expect([of, formula]).toEqual([of, expect.stringMatching(new RegExp(`^=YARN\\.${of}\\(`))]);
      expect(KINDS).toContain(kind);
      expect([refused, noted, meant, rightFor].filter((end) => end !== undefined).length, formula).toBe(1);
      expect(mistake.length, formula).toBeGreaterThan(3);
      if (refused) expect(refused.length, `${formula}: "refused" is the argument and words of the message`).toBe(2);
      // A sheet takes no percent between braces.
      expect(formula.replace(/"[^"]*"/g, '""')).not.toMatch(/\{[^{}]*%[^{}]*\}/);
    }
  });
});

const outcomes = evaluate(
  mistakes.map(({ formula }) => formula),
  sourceFunctions,
);
const ended = mistakes.map((mistake, index) => [mistake, outcomes[index] as Outcome] as const);

describe.each(KINDS)("%s", (kind) => {
  const ofKind = ended.filter(([mistake]) => mistake.kind === kind);
  test.each(ofKind.map(([mistake, outcome]) => [mistake.formula, mistake, outcome] as const))(
    "%s",
    (_, mistake, outcome) => {
      const cells = cellsOf(outcome);
      const errors = cells.filter((cell): cell is CellError => cell instanceof CellError);
      if (mistake.refused) {
        const [argument, advice] = mistake.refused;
        const message = errors[0]?.message ?? `no refusal but ${JSON.stringify(outcome)}`;
        expect(message.slice(0, argument.length + 1)).toMatch(new RegExp(`^${escaped(argument)}[ ,]`));
        expect(message).toContain(advice);
        expect(message.length).toBeLessThanOrEqual(120);
        // An advice that is cut off is none.
        expect(message).not.toMatch(/…$/);
      } else {
        // What was not refused must be a result, so that a later refusal comes into the list.
        expect(errors).toEqual([]);
        if (mistake.noted === undefined) return;
        expect(cells.filter((cell) => typeof cell === "string" && cell.includes(mistake.noted as string))).not.toEqual(
          [],
        );
      }
    },
  );
});

test("what was meant gives the same figures as the formula that says it", () => {
  const understood = ended.filter(([{ meant }]) => meant !== undefined);
  const said = evaluate(
    understood.map(([{ meant }]) => meant as string),
    sourceFunctions,
  );
  expect(understood.length).toBeGreaterThan(10);
  understood.forEach(([{ formula, meant }, outcome], index) => {
    expect(meant).not.toBe(formula);
    const cells = cellsOf(said[index] as Outcome);
    expect(cells.filter((cell) => cell instanceof CellError)).toEqual([]);
    // Names may come along with one of the two.
    const figures = cells.filter((cell) => typeof cell === "number");
    const same = figures.length > 0 ? cellsOf(outcome).filter((cell) => typeof cell === "number") : cellsOf(outcome);
    expect(same, formula).toEqual(figures.length > 0 ? figures : cells);
  });
});

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
