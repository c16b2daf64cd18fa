import type { Implementation } from "../guide/page/values";
import type { DocumentedFunction } from "../documentation/docblocks.mjs";
import { headingsTaken, type HeadingsTaken } from "./headings-taken";
import { wordLists, type WordLists } from "./word-lists";

/**
 * What only the functions of src themselves can tell of their arguments. The build loads them into `functions` through
 * the runtime that it has set.
 */
export async function askedOfSources(
  documented: readonly DocumentedFunction[],
  functions: ReadonlyMap<string, Implementation>,
): Promise<{ readonly words: WordLists; readonly headings: HeadingsTaken }> {
  await import("../functions/index");
  return { words: wordLists(documented, functions), headings: headingsTaken(documented, functions) };
}
