import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bundledFunctions } from "./support/functions";
import { called, faultIn, knownCalls, type KnownCall } from "./support/calls";

const metadata = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  allowErrorForDataTypeAny: boolean;
  functions: { id: string; helpUrl: string; parameters: { name: string; type: string; dimensionality: string }[] }[];
};
const calls = knownCalls(bundledFunctions());

/** What people put into cells, and what hosts hand over for it. */
const ODD: readonly [what: string, cells: unknown][] = [
  ["nothing", null],
  ["undefined", undefined],
  ["a blank cell", [[null]]],
  ["a blank cell as undefined", [[undefined]]],
  ["an empty text", [[""]]],
  ["a space", [[" "]]],
  ["text", [["abc"]]],
  ["a long text", [["x".repeat(5000)]]],
  ["a name of the object prototype", [["constructor"]]],
  ["the other one", [["__proto__"]]],
  ["a number as text", [["12"]]],
  ["TRUE", [[true]]],
  ["FALSE", [[false]]],
  ["zero", [[0]]],
  ["minus zero", [[-0]]],
  ["a negative number", [[-3]]],
  ["a fraction", [[0.5]]],
  ["a percent typed whole", [[18.25]]],
  ["a date", [[46351]]],
  ["a huge number", [[1e308]]],
  ["a huge negative number", [[-1e308]]],
  ["a tiny number", [[5e-324]]],
  ["not a number", [[NaN]]],
  ["infinity", [[Infinity]]],
  ["an error value", [[{ code: "#DIV/0!" }]]],
  ["an error value in the other form", [[{ type: "Error", basicValue: "#N/A" }]]],
  ["an error value of a newer kind", [[{ type: "Error", basicValue: "#SPILL!" }]]],
  ["an object", [[{ type: "Entity", text: "x" }]]],
  ["a column of blanks", [[null], [null], [null]]],
  ["a mixed column", [[1], ["abc"], [null], [{ code: "#REF!" }], [-1]]],
  ["a row", [[0.2, 0.3, 0.5]]],
  [
    "a matrix",
    [
      [1, 2],
      [3, 4],
      [5, 6],
    ],
  ],
  ["an empty range", []],
  ["a bare number", 12],
];

function replaced(cells: KnownCall["cells"], index: number, by: unknown): unknown[] {
  return cells.map((own, place) => (place === index ? by : own));
}

describe("functions.json", () => {
  test("names exactly what the bundle associates", () => {
    expect(metadata.functions.map(({ id }) => id).sort()).toEqual([...bundledFunctions().keys()].sort());
  });

  test("lets error values through and takes every argument as a matrix of anything", () => {
    expect(metadata.allowErrorForDataTypeAny).toBe(true);
    for (const { id, parameters } of metadata.functions) {
      for (const { type, dimensionality } of parameters)
        expect([id, type, dimensionality]).toEqual([id, "any", "matrix"]);
    }
  });

  test("gives every function a help address over https", () => {
    for (const { id, helpUrl } of metadata.functions)
      expect(helpUrl).toMatch(new RegExp(`^https://[^ ]+/guide/${id}\\.html$`));
  });
});

describe.each(calls.map((known) => [known.id, known] as const))("%s", (_, { id, parameters, call, cells }) => {
  const usual = called(call, cells);

  test("works as its example says", () => {
    expect(faultIn(usual)).toBeUndefined();
    expect("rows" in usual).toBe(true);
  });

  test("gives only cells and documented errors, whatever one argument holds", () => {
    const faults = parameters.flatMap(({ name }, index) =>
      ODD.map(([what, odd]) => [name, what, faultIn(called(call, replaced(cells, index, odd)))] as const).filter(
        ([, , fault]) => fault !== undefined,
      ),
    );
    expect(faults).toEqual([]);
  });

  test("gives only cells and documented errors, whatever all arguments hold", () => {
    const faults = ODD.map(
      ([what, odd]) =>
        [
          what,
          faultIn(
            called(
              call,
              parameters.map(() => odd),
            ),
          ),
        ] as const,
    );
    expect(faults.filter(([, fault]) => fault !== undefined)).toEqual([]);
  });

  test("called with nothing at all, refuses or answers", () => {
    expect(faultIn(called(call, []))).toBeUndefined();
  });

  test("a required argument that is missing is refused by its name", () => {
    parameters.forEach(({ name, optional }, index) => {
      if (optional) return;
      for (const blank of [null, undefined, [[null]], [[""]]]) {
        const outcome = called(call, replaced(cells, index, blank));
        expect("error" in outcome ? outcome.error.message : JSON.stringify(outcome)).toContain(name);
      }
    });
  });

  test("an optional argument may be null, undefined or a blank cell alike", () => {
    parameters.forEach(({ optional }, index) => {
      if (!optional) return;
      const [first, ...others] = [null, undefined, [[null]], [[""]]].map((blank) =>
        called(call, replaced(cells, index, blank)),
      );
      for (const other of others) expect(other).toEqual(first);
    });
  });

  test("is not disturbed by the extra argument that Excel passes", () => {
    expect(called(call, [...cells, { functionName: id }])).toEqual(usual);
  });

  test("leaves its arguments as they were and answers the same twice", () => {
    const before = structuredClone(cells);
    for (let again = 0; again < 3; again++) expect(called(call, cells)).toEqual(usual);
    expect(cells).toEqual(before);
  });
});
