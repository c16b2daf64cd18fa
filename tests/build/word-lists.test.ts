import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { bundledFunctions } from "../support/functions";
import { called, knownCalls, type Called, type KnownCall } from "../support/calls";

interface List {
  readonly id: string;
  readonly type: string;
  readonly values: readonly { readonly name: string; readonly stringValue: string; readonly tooltip: string }[];
}

const { enums, functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as {
  enums: List[];
  functions: { id: string; parameters: { name: string; customEnumId?: string }[] }[];
};
const calls = new Map(knownCalls(bundledFunctions()).map((known) => [known.id, known]));

/** Every argument of every function, with its list of words if it has one. */
const taking = functions.flatMap(({ id, parameters }) =>
  parameters.map(({ name, customEnumId }, index) => ({
    known: calls.get(id) as KnownCall,
    index,
    name,
    list: customEnumId,
    label: `${id} ${name}`,
  })),
);

type Taking = (typeof taking)[number];
type Cells = KnownCall["cells"];

function calledWith({ known, index }: Taking, cells: Cells, word: string): Called {
  return called(
    known.call,
    Array.from(known.parameters, (_, place) => (place === index ? [[word]] : (cells[place] ?? null))),
  );
}

function wordsOf({ list }: { list: string | undefined }): string[] {
  return enums.find(({ id }) => id === list)?.values.map(({ stringValue }) => stringValue) ?? [];
}

/** Calls in which words have a meaning that the fullest example of their function has no use for. */
const FURTHER: Readonly<Record<string, readonly Cells[]>> = {
  DESIGNATION: [
    [[["20 tex Z 700 x 2 S 400 x 3 Z 200"]], [["plies"]]],
    [[["8/8 NeC"]], [["plies"]]],
  ],
  DESIGNATE: [[[[30]], [[1]]]],
  SHADEPASS: [
    // Half-axes are three; several lights need a reflectance.
    [[[50, 20, 30]], [[51, 21, 28]], [[2, 3, 3]]],
    [[new Array<number>(31).fill(0.2)], [new Array<number>(31).fill(0.21)], [[2]]],
  ],
  // Direct counts: what is wanted is heavier than what there is.
  FOLDMISSING: [[[[100]], [[48], [24]], [["tex"]]]],
};

/**
 * The ways in which a word is tried, until one is taken: the known call; without its optional arguments; with each word
 * of another argument, because not every fibre has every form; with a figure of another size, because a figure that no
 * yarn has in the unit or system of the word is refused.
 */
function* callsFor({ known, index }: Taking): Generator<Cells> {
  const needed = known.cells.map((own, place) => (known.parameters[place]?.optional ? null : own));
  yield known.cells;
  yield needed;
  yield* FURTHER[known.id] ?? [];
  for (const other of taking.filter((each) => each.known === known && each.index !== index))
    for (const word of wordsOf(other)) yield needed.map((own, place) => (place === other.index ? [[word]] : own));
  for (const scaled of known.cells.keys())
    for (let power = -6; power <= 6; power++)
      yield known.cells.map((own, place) => (place === scaled ? timesTen(own, power) : own));
}

function timesTen(cells: Cells[number], power: number): Cells[number] {
  return cells?.map((row) => row.map((cell) => (typeof cell === "number" ? Number(`${cell}e${power}`) : cell))) ?? null;
}

/** What the outcome complains of, the first error in it. */
function complaintIn(outcome: Called): string | undefined {
  if ("fault" in outcome) return outcome.fault;
  const errors = "error" in outcome ? [outcome.error] : outcome.rows.flat().filter((cell) => isError(cell));
  return errors.length === 0 ? undefined : ((errors[0] as { message?: string }).message ?? "an error");
}

function isError(cell: unknown): boolean {
  return typeof cell === "object" && cell !== null && "code" in cell;
}

describe("the lists of words for drop-downs", () => {
  // The form of "enums" in Microsoft's schema of the unified manifest: extensions/…/customFunctions/enums.
  test("have the form that the host reads", () => {
    expect(enums.length).toBeGreaterThan(20);
    expect(new Set(enums.map(({ id }) => id)).size).toBe(enums.length);
    for (const { id, type, values } of enums) {
      expect(id).toMatch(/^[A-Za-z][A-Za-z0-9._]{2,63}$/);
      expect([id, type]).toEqual([id, "string"]);
      expect(new Set(values.map(({ stringValue }) => stringValue.toLowerCase())).size).toBe(values.length);
      for (const { name, stringValue, tooltip } of values) {
        expect([id, name]).toEqual([id, stringValue]);
        expect(stringValue).not.toBe("");
        expect(tooltip.length, `${id} ${name}`).toBeGreaterThan(2);
      }
    }
  });

  test("are each used, and each that is used is there", () => {
    const used = new Set(taking.flatMap(({ list }) => (list === undefined ? [] : [list])));
    expect([...used].sort()).toEqual(enums.map(({ id }) => id).sort());
  });

  test("hold words only that the function takes, one after the other", () => {
    const refused = taking.flatMap((argument) =>
      wordsOf(argument).flatMap((word) => {
        const complaintOf = (cells: Cells) => complaintIn(calledWith(argument, cells, word));
        for (const cells of callsFor(argument)) if (complaintOf(cells) === undefined) return [];
        return [`${argument.label} "${word}": ${complaintOf(argument.known.cells) ?? ""}`];
      }),
    );
    expect(refused).toEqual([]);
  });

  test("stand where a word that is none is refused, and nowhere is such an argument without one", () => {
    const wrong = taking.filter((argument) => {
      const complaint = complaintIn(calledWith(argument, argument.known.cells, "no such word")) ?? "";
      const asksForWords = /"no such word"(, not a|; known|; not in the regain tables)/.test(complaint);
      return asksForWords !== (argument.list !== undefined);
    });
    expect(wrong.map(({ label }) => label)).toEqual([]);
  });
});
