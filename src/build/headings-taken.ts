import type { Implementation } from "../guide/page/values";
import { listenToHeadings, spoken } from "../sheet/headings";
import type { DocumentedFunction, DocumentedHeading } from "../documentation/docblocks.mjs";
import { exampleCalls, vocabulariesAsked, type CallCells } from "./word-lists";

/** The headings of each argument that may come with a heading row: by function and argument. */
export type HeadingsTaken = (functionId: string, argument: string) => readonly DocumentedHeading[] | undefined;

/** Some cells, so that an argument that the examples leave out is read too. */
const SOMETHING = [[1], [1]];

/**
 * Which argument may have which headings, from the functions themselves: each is called as its examples call it, also
 * with some cells in one argument after the other, and with a word in those that take words, since a light asks for
 * reflectances where there were L*a*b*; and it tells the headings that it looks for.
 */
export function headingsTaken(
  documented: readonly DocumentedFunction[],
  functions: ReadonlyMap<string, Implementation>,
): HeadingsTaken {
  const taken = new Map<string, readonly DocumentedHeading[]>();
  for (const [{ id, parameters }, calls] of exampleCalls(documented, functions)) {
    const call = functions.get(id) as Implementation;
    const tried = parameters.flatMap(({ name }, index) => {
      const words = vocabulariesAsked(call, calls, index, name).map((vocabulary) => [[vocabulary.words[0]]]);
      return [SOMETHING, ...words].flatMap((put) => calls.map((cells) => withIn(index, put, cells)));
    });
    listenToHeadings((argument, headings) => {
      if (parameters.every(({ name }) => name !== argument)) return;
      const known = taken.get(`${id} ${argument}`) ?? [];
      const told = headings.map(({ key, synonyms, needed }) => ({ heading: spoken(key), synonyms, needed }));
      const more = told.filter(({ heading }) => known.every((other) => other.heading !== heading));
      taken.set(`${id} ${argument}`, [...known, ...more]);
    });
    for (const cells of [...calls, ...tried]) attempt(call, cells);
    listenToHeadings(undefined);
  }
  return (functionId, argument) => taken.get(`${functionId} ${argument}`);
}

function withIn(index: number, put: CallCells[number], cells: CallCells): CallCells {
  return Array.from({ length: Math.max(cells.length, index + 1) }, (_, place) =>
    place === index ? put : (cells[place] ?? null),
  );
}

function attempt(call: Implementation, cells: CallCells): void {
  try {
    call(...cells);
  } catch {
    // Some cells are no data of this argument; what counts is that its headings were told.
  }
}
