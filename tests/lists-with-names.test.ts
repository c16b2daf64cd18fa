import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { headingsTaken } from "../src/build/headings-taken";
import { documentedFunctions, type DocumentedHeading } from "../src/documentation/docblocks.mjs";
import { called, knownCalls, type Called, type KnownCall } from "./support/calls";
import { sourceFunctions } from "./support/functions";

/*
 * Every list that may have names, of every function: what its heading, its names, its spare rows and a total at its foot
 * do. Tables are in functions/headings.test.ts, shades in sheet/shade-rows.test.ts.
 */

const taken = headingsTaken(documentedFunctions(), sourceFunctions);

interface List {
  readonly known: KnownCall;
  readonly index: number;
  readonly name: string;
  readonly heading: DocumentedHeading;
  readonly figures: readonly unknown[];
  /** The call with these figures in a column. */
  readonly plain: Called;
}

const column = (items: readonly unknown[]): unknown[][] => items.map((item) => [item]);

/** Figures for lists that no example gives, one for each of the things that it goes along. */
const FIGURES = [0.2, 0.02, 0.6, 0.9, 1, 5, 100];

/** The known call with other cells in the place of the list. */
function callWith({ known, index }: Pick<List, "known" | "index">, cells: unknown): Called {
  return called(
    known.call,
    known.cells.map((own, place) => (place === index ? cells : own)),
  );
}

/** Calls for lists whose example has names already, or goes without the list. */
const CALLS: Readonly<Record<string, KnownCall["cells"]>> = {
  "FIBRES shares": [[[31.25]], [["tex"]], [[21], [30]], null, null, column([0.6, 0.4])],
  "MIXNEED quantities": [[[0.6, 0.4], [0.25, 0.75]], column([100, 40]), null], // prettier-ignore
  "LAYDOWN shares": [[[100]], column([0.6, 0.4]), [[2]], null, null],
  "LEASTCOST weighting": [
    column([12, 9, 7]),
    [[19, 70], [21, 65], [24, 60]], // prettier-ignore
    [["none", "none"], [20.5, "none"]], // prettier-ignore
    ...[null, null, column(["mass", "mass"]), null],
  ],
};

const lists: List[] = [];
const without: string[] = [];
for (const example of knownCalls(sourceFunctions)) {
  example.parameters.forEach(({ name }, index) => {
    const known = { ...example, cells: CALLS[`${example.id} ${name}`] ?? example.cells };
    const headings = taken(known.id, name)?.filter(({ heading, needed }) => needed || heading !== "name");
    const [heading] = headings ?? [];
    // Figures along the headings of their wavelengths are no list down a column.
    if (heading === undefined || headings?.length !== 1 || heading.heading === "wavelengths in nm") return;
    const usual = known.cells[index]?.flat();
    const lengths = new Set(known.cells.flatMap((own) => (own ? [own.length, own[0]?.length ?? 1] : [])));
    const tries: (readonly unknown[])[] = usual && usual.length > 1 ? [usual] : [];
    for (const length of lengths)
      for (const figure of FIGURES) if (length > 1) tries.push(new Array<unknown>(length).fill(usual?.[0] ?? figure));
    const fit = tries.find((figures) => "rows" in callWith({ known, index }, column(figures)));
    if (fit === undefined) without.push(`${known.id} ${name}`);
    else lists.push({ known, index, name, heading, figures: fit, plain: callWith({ known, index }, column(fit)) });
  });
}

const cases = lists.map((list) => [`${list.known.id} ${list.name}`, list] as const);

test("figures are known for every list", () => {
  expect(lists.length).toBeGreaterThan(40);
  expect(without).toEqual([]);
});

function figuresIn(outcome: Called): unknown {
  if (!("rows" in outcome)) return outcome;
  // Without names things are numbered.
  const rows = outcome.rows.map((row, at) => (row[0] === at ? row.slice(1) : row));
  return rows.flat().filter((cell) => typeof cell === "number");
}

function messageIn(outcome: Called): string {
  return "error" in outcome ? (outcome.error.message ?? "") : JSON.stringify(outcome);
}

const NAMES = ["heath", "tarn", "Ember (2)", "0417", "moss & rust", "No. 6", "7a", "oat"];

/** Names of the things that the list goes along, or some of our own where they have none. */
function namesFor({ known, index, figures }: List): string[] {
  for (const [place, cells] of known.cells.entries()) {
    const texts = (cells ?? []).map(([first]) => first).filter((first) => typeof first === "string");
    if (place !== index && texts.length >= figures.length && texts.length > 1) return texts.slice(-figures.length);
  }
  return figures.map((_, place) => NAMES[place % NAMES.length] as string);
}

describe.each(cases)("%s", (_, list) => {
  const { heading, figures, plain } = list;
  const names = namesFor(list);
  const usualNames = figuresIn(plain);

  test("with its heading, in any of its words, is the list below it", () => {
    for (const word of [heading.heading, ...heading.synonyms, "what somebody else calls it"])
      expect(callWith(list, [[`${word} (see note 3)`], ...column(figures)]), word).toEqual(plain);
  });

  test("with names before it, or among other columns of a table, is the same list", () => {
    const named = figures.map((figure, place) => [names[place], figure]);
    expect(figuresIn(callWith(list, named))).toEqual(usualNames);
    expect(figuresIn(callWith(list, [["Lot", heading.heading], ...named]))).toEqual(usualNames);
    for (const word of [heading.heading, ...heading.synonyms]) {
      const wide = figures.map((figure, place) => [45000 + place, figure, names[place], place, "note"]);
      const head = ["Dyed on", word, "Lot", "bin", "Remark"];
      const outcome = callWith(list, [head, ...wide]);
      const isSystem = (cells: unknown[][] | null): boolean => String(cells?.[0]?.[0]).toLowerCase() === word;
      const contradicts = /^(tex|nm)$/.test(word) && !list.known.cells.some(isSystem);
      if (contradicts) expect(messageIn(outcome), word).toContain("bring both to one unit");
      // The word of another list of this function may stand for the bin.
      else expect(figuresIn(outcome), word).toEqual(usualNames);
    }
  });

  test("a spare row, blank in figure and name, changes no figure and stays blank where names come back", () => {
    const named = figures.map((figure, place) => [names[place], figure]);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: figures.length }),
        fc.constantFrom<unknown>(null, "", undefined),
        (at, blank) => {
          const spared = callWith(list, [...named.slice(0, at), [blank, blank], ...named.slice(at)]);
          expect(figuresIn(spared)).toEqual(usualNames);
          const back = callWith(list, named);
          if (!("rows" in spared) || !("rows" in back) || !("rows" in plain) || at === figures.length) return;
          const shows = (rows: unknown[][]) => names.every((name) => rows.some(([first]) => first === name));
          // The names of a result are those of the list that it is about.
          const isNamed = shows(back.rows) && !shows(plain.rows);
          if (isNamed) expect(spared.rows.filter((row) => row.every((cell) => cell === ""))).toHaveLength(1);
        },
      ),
      { numRuns: 10 },
    );
  });

  test("a total at its foot is refused by its name", () => {
    const named = figures.map((figure, place) => [names[place], figure]);
    for (const word of ["Total", "sum", "Summe"])
      expect(messageIn(callWith(list, [...named, [word, 1]]))).toContain(`is called ${word}; leave totals out`);
  });

  test("a name without its figure is a missing figure", () => {
    const gap = figures.map((figure, place) => [names[place], place === 0 ? null : figure]);
    const outcome = callWith(list, gap);
    const alone = callWith(list, column(figures.map((figure, place) => (place === 0 ? null : figure))));
    expect("error" in outcome).toBe("error" in alone);
  });

  test("a first row of figures is never taken for its heading", () => {
    const wrong = { code: "#DIV/0!", message: "" };
    const outcome = callWith(list, column([wrong, ...figures.slice(1)]));
    expect(JSON.stringify(outcome)).toContain("#DIV/0!");
  });
});
