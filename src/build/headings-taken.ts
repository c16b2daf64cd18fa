import type { Implementation } from "../guide/page/values";
import { listenToHeadings, spoken } from "../sheet/headings";
import type { DocumentedFunction, DocumentedHeading } from "../documentation/docblocks.mjs";
import { exampleCalls, type CallCells } from "./word-lists";

/** The headings of each argument that may come with a heading row: by function and argument. */
export type HeadingsTaken = (functionId: string, argument: string) => readonly DocumentedHeading[] | undefined;

/** Some cells, so that an argument that the examples leave out is read too. */
const SOMETHING = [[1], [1]];

/**
 * Which argument may have which headings, from the functions themselves: each is called as its examples call it, also
 * with some cells in one argument after the other, and tells the headings that it looks for.
 */
export function headingsTaken(
  documented: readonly DocumentedFunction[],
  functions: ReadonlyMap<string, Implementation>,
): HeadingsTaken {
  const taken = new Map<string, readonly DocumentedHeading[]>();
  for (const [{ id, parameters }, calls] of exampleCalls(documented, functions)) {
    const call = functions.get(id) as Implementation;
    for (const [index, { name }] of parameters.entries()) {
      listenToHeadings((argument, headings) => {
        if (argument !== name) return;
        const known = taken.get(`${id} ${name}`) ?? [];
        const told = headings.map(({ key, synonyms, needed }) => ({ heading: spoken(key), synonyms, needed }));
        const more = told.filter(({ heading }) => known.every((other) => other.heading !== heading));
        taken.set(`${id} ${name}`, [...known, ...more]);
      });
      for (const cells of calls) for (const tried of [cells, withSomethingIn(index, cells)]) attempt(call, tried);
    }
  }
  listenToHeadings(undefined);
  return (functionId, argument) => taken.get(`${functionId} ${argument}`);
}

function withSomethingIn(index: number, cells: CallCells): CallCells {
  return Array.from({ length: Math.max(cells.length, index + 1) }, (_, place) =>
    place === index ? SOMETHING : (cells[place] ?? null),
  );
}

function attempt(call: Implementation, cells: CallCells): void {
  try {
    call(...cells);
  } catch {
    // Some cells are no data of this argument; what counts is that its headings were told.
  }
}
