import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bundledFunctions } from "./support/functions";
import { randomCalls } from "./fuzz/random-calls";
import { called, faultIn, knownCalls, type KnownCall } from "./support/calls";

interface Parameter {
  readonly name: string;
  readonly description: string;
  readonly type: string;
  readonly dimensionality: string;
  readonly optional?: boolean;
}

const metadata = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  allowErrorForDataTypeAny: boolean;
  functions: { id: string; description: string; helpUrl: string; parameters: Parameter[] }[];
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
  ["a date with its time", [[46351.75]]],
  ["a date as text", [["2026-11-25"]]],
  ["the last date", [[2958465]]],
  ["a huge number", [[1e308]]],
  ["a huge negative number", [[-1e308]]],
  ["a tiny number", [[5e-324]]],
  ["not a number", [[NaN]]],
  ["infinity", [[Infinity]]],
  ["an error value", [[{ code: "#DIV/0!" }]]],
  ["an error value in the other form", [[{ type: "Error", basicValue: "#N/A" }]]],
  ["an error value with a message", [[{ code: "#VALUE!", message: "m".repeat(100) }]]],
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

function richly(cell: unknown): unknown {
  return typeof cell === "number"
    ? { type: "FormattedNumber", basicType: "Double", basicValue: cell, numberFormat: "0.00" }
    : { type: typeof cell === "string" ? "String" : "Boolean", basicValue: cell };
}

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

/** A unit, or what a number without one is. */
const UNIT_OR_NATURE =
  /\b(mm|cm|m|km|yd|in|g|kg|lb|tex|µm|micron|nm|m³|kg\/m³|cm³\/g|rpm|turns|hours?|degrees|N\/ktex|fractions?|shares?|regains?|counts?|number|numbers|whole|length|revolutions|circumference|sample|surcharge|weight|profit|quantity|result|units?|price|prices|cost|costs|amounts?|mass|masses|date|rate|ratio|rule|value|twist|factor|draft|diameter|wavelength|reflectance|L\*|TRUE|words?|decimals|most|least|difference|channel|constant|multiples)\b|%|²|\*/i;

describe("descriptions", () => {
  test("are short enough for a tooltip, and one that is cut off still tells the function", () => {
    for (const { id, description } of metadata.functions) {
      expect([id, description.length <= 200 && description.length >= 20]).toEqual([id, true]);
      expect([id, description]).toEqual([id, expect.stringMatching(/^[A-Z].*[.?]$/)]);
    }
    expect(new Set(metadata.functions.map(({ description }) => description)).size).toBe(metadata.functions.length);
  });

  test("of parameters are sentences, and that of a number tells its unit or what it is", () => {
    const poor = calls.flatMap(({ id, parameters, cells }) =>
      parameters
        .filter(({ description }, index) => {
          const isSentence = /^["A-Z0-9].{5,510}[.)…"]$/.test(description);
          const holdsNumbers = typeof cells[index]?.[0]?.[0] === "number";
          return !isSentence || (holdsNumbers && !UNIT_OR_NATURE.test(description));
        })
        .map(({ name, description }) => `${id} ${name}: ${description}`),
    );
    expect(poor).toEqual([]);
  });

  test("of optional parameters say what happens when they are left out", () => {
    const silent = calls.flatMap(({ id, parameters }) =>
      parameters
        .filter(
          ({ optional, description }) =>
            optional && !/left out|default|without|needed when|given with/i.test(description),
        )
        .map(({ name, description }) => `${id} ${name}: ${description}`),
    );
    expect(silent).toEqual([]);
  });
});

describe("a hundred random calls", () => {
  test("give the same again, in whatever order they are made", () => {
    const made = fc.sample(randomCalls(calls), { numRuns: 100, seed: 20_261 });
    const first = made.map(({ known, cells }) => called(known.call, cells));
    const again = [...made].reverse().map(({ known, cells }) => called(known.call, cells));
    expect(again.reverse()).toEqual(first);
    expect(first.filter((outcome) => "rows" in outcome).length).toBeGreaterThan(20);
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

  test("is not disturbed by the extra argument that Excel passes, after however many arguments", () => {
    expect(called(call, [...cells, { functionName: id }])).toEqual(usual);
    for (let given = 0; given <= cells.length; given++) {
      const some = cells.slice(0, given);
      expect(called(call, [...some, { functionName: id, address: "Sheet1!A1" }])).toEqual(called(call, some));
    }
  });

  test("takes a rich value for its basic value, and one that stands for an error as the error", () => {
    const rich = (own: unknown[][] | null) =>
      own === null ? null : own.map((row) => row.map((cell) => (cell === null ? null : richly(cell))));
    expect(called(call, cells.map(rich))).toEqual(usual);
    const entity = { type: "Entity", text: "x", basicType: "Error", basicValue: "#VALUE!" };
    cells.forEach((_own, index) => {
      const asError = called(call, replaced(cells, index, [[{ type: "Error", basicValue: "#VALUE!" }]]));
      expect(called(call, replaced(cells, index, [[entity]]))).toEqual(asError);
    });
  });

  test("refuses an argument whose rows differ in length", () => {
    cells.forEach((_own, index) => {
      expect(called(call, replaced(cells, index, [[1], [1, 2]]))).toMatchObject({
        error: {
          code: "#VALUE!",
          message: `argument ${index + 1} is ragged; its first row has 1 cell, another 2 cells`,
        },
      });
    });
  });

  test("gives results of its own: changing one changes neither the next nor the arguments", () => {
    const before = structuredClone(cells);
    const wanted = JSON.stringify(usual);
    const spoilt = called(call, cells);
    if ("rows" in spoilt) {
      for (const row of spoilt.rows) row.fill("spoilt");
      spoilt.rows.reverse();
      spoilt.rows.push(["more"]);
    }
    expect(JSON.stringify(called(call, cells))).toBe(wanted);
    expect(cells).toEqual(before);
  });

  test("leaves its arguments as they were and answers the same twice", () => {
    const before = structuredClone(cells);
    for (let again = 0; again < 3; again++) expect(called(call, cells)).toEqual(usual);
    expect(cells).toEqual(before);
  });
});
