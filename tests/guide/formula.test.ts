import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { evaluate as inPage } from "../../src/guide/page/evaluate";
import { CellError, type Implementation, type Value } from "../../src/guide/page/values";
import { CellError as EngineError, evaluate as inEngine, type Outcome } from "../../src/recalculate/engine";
import { bundledFunctions } from "../support/functions";

const functions = bundledFunctions() as unknown as ReadonlyMap<string, Implementation>;

/** Both ways of working a formula out, in one form: rows of values, an error as its code. */
function fromPage(formula: string): Value[][] {
  return inPage(formula, functions).map((row) => row.map((value) => codeOf(value) ?? value));
}

function fromEngine(outcome: Outcome): Value[][] {
  const rows = Array.isArray(outcome) ? outcome : [[outcome]];
  return rows.map((row) => row.map((value) => (value instanceof EngineError ? value.code : value)));
}

/** The bundle's errors are of the runtime's class, not of the page's. */
function codeOf(value: unknown): string | undefined {
  return typeof value === "object" && value !== null ? (value as { code: string }).code : undefined;
}

describe("the page reads and works out every example like the headless engine", () => {
  const formulas = documentedFunctions().flatMap(({ examples }) => examples.map(({ formula }) => formula));
  const outcomes = inEngine(formulas, bundledFunctions());
  test.each(formulas.map((formula, place) => [formula, place] as const))("%s", (formula, place) => {
    expect(fromPage(formula)).toEqual(fromEngine(outcomes[place] as Outcome));
  });
});

describe("what a sheet works out without the library", () => {
  const known: readonly (readonly [formula: string, value: Value])[] = [
    ["=1+2*3", 7],
    ["2^3^2", 64],
    ["=-2^2", 4],
    ["=2^-1", 0.5],
    ["=(1+2)*3", 9],
    ["=10%", 0.1],
    ["=200%%", 0.02],
    ["=1.5e3/5", 300],
    ["=.5", 0.5],
    ['="a"&"b"&1', "ab1"],
    ['="say ""so"""', 'say "so"'],
    ['=LEN("five")', 4],
    ["=TRUE", true],
    ["=1<2", true],
    ['="B">"a"', true],
    ['="x"="X"', true],
    ["=3<>3", false],
    ["=2>=2", true],
    ["=ROUND(2.675,2)", 2.68],
    ["=ROUND(-2.5,0)", -3],
    ["=ROUND(1.005,2)", 1.01],
    ["=SUM({1,2;3,4},5)", 15],
    ["=SUM({1;2}*{10,20})", 90],
    ["=INDEX({1,2;3,4},2,1)", 3],
    ["=INDEX({5,6,7},3)", 7],
    ["=SUM(INDEX({1,2;3,4},0,2))", 6],
    ["=SUM(INDEX({1,2;3,4},2,0))", 7],
    ["=1/0", "#DIV/0!"],
    ["=INDEX({1,2},3,1)", "#REF!"],
    ['="a"+1', "#VALUE!"],
    ["=10^400", "#NUM!"],
    ["=NOSUCH(1)", "#NAME?"],
    ["=YARN.NOSUCH(1)", "#NAME?"],
  ];
  test.each(known)("%s is %s", (formula, value) => expect(fromPage(formula)).toEqual([[value]]));
});

describe("a formula that cannot be read says why", () => {
  const unreadable: readonly (readonly [formula: string, message: RegExp])[] = [
    ["", /empty/],
    ["=", /empty/],
    ["=1+", /the end/],
    ["=(1", /\)/],
    ["=1 2", /too much/],
    ["=A1*2", /no cells/],
    ["=YARN.COUNT(A2:A9,3)", /no cells/],
    ["=tex", /quotation marks/],
    ["={1,2;3}", /equally many/],
    ["={1,(2)}", /plain values/],
    ['="open', /cannot be read/],
    ["=1 § 2", /cannot be read/],
  ];
  test.each(unreadable)("%s", (formula, message) => {
    const [[value]] = inPage(formula, functions) as [[Value]];
    expect(value).toBeInstanceOf(CellError);
    expect((value as CellError).code).toBe("#VALUE!");
    expect((value as CellError).message).toMatch(message);
  });
});

test("an argument that is left out arrives as null, and one error does not spread over a column", () => {
  const received: unknown[] = [];
  const recording = new Map<string, Implementation>([["ECHO", (...cells) => (received.push(...cells), [[1]])]]);
  expect(inPage("=YARN.ECHO(1,,{2;3},)", recording)).toEqual([[1]]);
  expect(received).toEqual([[[1]], null, [[2], [3]], null]);
  expect(inPage("=10/{1;0}", functions).map(([value]) => codeOf(value) ?? value)).toEqual([10, "#DIV/0!"]);
});
