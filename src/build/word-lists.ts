import { evaluate } from "../guide/page/evaluate";
import type { Implementation } from "../guide/page/values";
import { listenToWords, type Vocabulary } from "../sheet/words";
import type { DocumentedFunction } from "../documentation/docblocks.mjs";

/** A list of words as functions.json holds it ("custom enum"), for the drop-down of an argument. */
export interface WordList {
  readonly id: string;
  readonly type: "string";
  readonly values: readonly { readonly name: string; readonly stringValue: string; readonly tooltip: string }[];
}

export interface WordLists {
  readonly lists: readonly WordList[];
  /** The id of the list for a function and an argument of it. */
  readonly of: (functionId: string, argument: string) => string | undefined;
}

/** An argument of a function, with the words it was seen to look up. */
interface Taking {
  readonly id: string;
  readonly argument: string;
  readonly description: string;
  readonly words: Vocabulary<unknown>;
}

/**
 * Which argument takes which words, from the functions themselves: each is called as its examples call it, with a text
 * that is no word put into one argument after the other, and the vocabulary in which that text is looked up is the
 * argument's. A table with a column of words looks nothing up, since one cell is no table.
 */
export function wordLists(
  documented: readonly DocumentedFunction[],
  functions: ReadonlyMap<string, Implementation>,
): WordLists {
  const takings = exampleCalls(documented, functions).flatMap(([entry, calls]) =>
    entry.parameters.flatMap(({ name, description }, index): Taking[] => {
      const found = vocabulariesAsked(functions.get(entry.id) as Implementation, calls, index, name);
      if (found.length > 1) throw new Error(`${entry.id}: ${name} takes words of several lists`);
      return found.map((words) => ({ id: entry.id, argument: name, description, words }));
    }),
  );
  const alike = new Map<string, Taking[]>();
  for (const taking of takings) {
    const key = [taking.words.of, ...taking.words.words].join("\n");
    alike.set(key, [...(alike.get(key) ?? []), taking]);
  }
  const idOf = new Map<string, string>();
  const [groups, ids] = [[...alike.values()], new Set<string>()];
  const lists = groups.map((same): WordList => {
    const [{ id: first, argument, description, words }] = same as [Taking];
    const ambiguous = groups.filter(([other]) => other?.words.of === words.of).length > 1;
    const id = spelled(ambiguous ? `${first} ${argument}` : words.of);
    if (ids.has(id)) throw new Error(`two lists of words are called ${id}`);
    ids.add(id);
    for (const taking of same) idOf.set(`${taking.id} ${taking.argument}`, id);
    const values = words.words.map((word) => ({
      name: word,
      stringValue: word,
      tooltip: meaningShown(word, words, description),
    }));
    return { id, type: "string", values };
  });
  return { lists, of: (functionId, argument) => idOf.get(`${functionId} ${argument}`) };
}

/** The arguments of a call as the host hands them over. */
export type CallCells = Parameters<Implementation>;

/** Every function with all the calls of it that the examples come to. */
export function exampleCalls(
  documented: readonly DocumentedFunction[],
  functions: ReadonlyMap<string, Implementation>,
): [DocumentedFunction, CallCells[]][] {
  const calls = new Map<string, CallCells[]>(documented.map(({ id }) => [id, []]));
  const recording = new Map(
    [...functions].map(([id, call]): [string, Implementation] => [
      id,
      (...cells) => {
        calls.get(id)?.push(cells);
        return call(...cells);
      },
    ]),
  );
  for (const { examples } of documented) for (const { formula } of examples) evaluate(formula, recording);
  return documented.map((entry) => [entry, calls.get(entry.id) as CallCells[]]);
}

/** The words that are looked up where a text stands in an argument. */
export function vocabulariesAsked(
  call: Implementation,
  calls: readonly CallCells[],
  index: number,
  argument: string,
): Vocabulary<unknown>[] {
  const found = new Set<Vocabulary<unknown>>();
  for (const cells of calls) {
    const probe = noWord();
    const tried = Array.from({ length: Math.max(cells.length, index + 1) }, (_, place) =>
      place === index ? [[probe]] : (cells[place] ?? null),
    );
    listenToWords((words, text, by) => {
      if (text === probe && (by === argument || by === `${argument} item 1`)) found.add(words);
    });
    try {
      call(...tried);
    } catch {
      // It is to be refused; what counts is where it was looked up.
    } finally {
      listenToWords(undefined);
    }
  }
  return [...found];
}

let tries = 0;

/** Another one each time, because a wrong word is remembered and not looked up again. */
function noWord(): string {
  return `no word ${(tries++).toString(26).replace(/\d/g, (digit) => "qrstuvwxyz"[Number(digit)] as string)}`;
}

/** As the ids of functions.json are spelled: letters, figures and underscores. */
function spelled(text: string): string {
  return text.replace(/[^A-Za-z0-9]+/g, "_").toUpperCase();
}

/**
 * What a word of the list says beside it: the meaning that its table gives; where the argument's own description goes
 * through all the words, that; else the further spellings.
 */
function meaningShown(word: string, { of, words, meanings }: Vocabulary<unknown>, description: string): string {
  const meant = meanings.get(word.toLowerCase());
  const { meaning } = (typeof meant === "object" && meant !== null ? meant : {}) as { meaning?: unknown };
  if (typeof meaning === "string") return meaning;
  if (words.every((each) => description.includes(`"${each}"`))) return description;
  const spellings = [...meanings].filter(([own, stands]) => stands === meant && own !== word.toLowerCase());
  return spellings.length === 0 ? `${of} "${word}"` : `also written ${spellings.map(([own]) => own).join(", ")}`;
}
