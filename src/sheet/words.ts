import { absent, refuse } from "../trade/refusal";

/** A closed set of words with what each stands for; matched without regard to case, outer or doubled spaces. */
export interface Vocabulary<T> {
  /** What the words are, for messages: "count system", "mode". */
  readonly of: string;
  /** Every accepted spelling, in lower case. */
  readonly meanings: ReadonlyMap<string, T>;
  /** The spellings to suggest, as a person writes them. */
  readonly words: readonly string[];
  /** Words with more than one meaning, in lower case, with the advice to give instead of a guess. */
  readonly ambiguous: ReadonlyMap<string, string>;
  /** Words of a table that cannot be complete: an unknown one is no fault, so it gives #N/A with this advice. */
  readonly absence?: (nearest: string) => string;
}

/** Entries: the word as written, what it stands for, further spellings. */
export type VocabularyEntry<T> = readonly [word: string, meaning: T, ...aliases: string[]];

export function vocabulary<T>(
  of: string,
  entries: readonly VocabularyEntry<T>[],
  ambiguous: Readonly<Record<string, string>> = {},
): Vocabulary<T> {
  const meanings = new Map<string, T>();
  for (const [word, meaning, ...aliases] of entries) {
    for (const spelling of [word, ...aliases]) meanings.set(folded(spelling), meaning);
  }
  const doubtful = new Map<string, string>();
  for (const word of Object.keys(ambiguous)) doubtful.set(folded(word), ambiguous[word] as string);
  return { of, meanings, words: entries.map(([word]) => word), ambiguous: doubtful };
}

/** A closed set of words that stand for themselves: modes, methods, bases. */
export function wordsFor<W extends string>(of: string, ...words: readonly W[]): Vocabulary<W> {
  return vocabulary(
    of,
    words.map((word) => [word, word] as const),
  );
}

/** What a word stands for. An unknown word gets the nearest known one, an ambiguous one its choices; never a guess. */
export function meaningOf<T>(words: Vocabulary<T>, text: string, argument: string): T {
  const key = folded(text);
  const meaning = words.meanings.get(key);
  if (meaning !== undefined) return meaning;
  const choices = words.ambiguous.get(key);
  if (choices !== undefined) refuse(argument, `"${text}", of several meanings`, `write ${choices}`);
  if (words.absence) {
    const short = text.length > 15 ? `${text.slice(0, 14)}…` : text;
    absent(argument, `"${short}"`, words.absence(nearest(key, words)));
  }
  const came = `"${text.length > 24 ? `${text.slice(0, 23)}…` : text}", not a ${words.of}`;
  if (words.words.length <= 6) refuse(argument, came, `write ${listed(words.words)}`);
  refuse(argument, came, `the nearest is ${nearest(key, words)}`);
}

function folded(text: string): string {
  return text.trim().replace(/\s+/g, " ").toLowerCase();
}

/** "a, b or c" */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1] as string}`;
}

function nearest<T>(key: string, words: Vocabulary<T>): string {
  let best = words.words[0] as string;
  let fewest = Infinity;
  words.meanings.forEach((meaning, spelling) => {
    const edits = editDistance(key, spelling);
    if (edits < fewest) {
      fewest = edits;
      best = words.words.find((word) => words.meanings.get(folded(word)) === meaning) ?? spelling;
    }
  });
  return best;
}

/** Insertions, deletions and replacements that turn one word into the other (Levenshtein). */
function editDistance(from: string, to: string): number {
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  const length = Math.min(from.length, 32);
  for (let row = 1; row <= length; row++) {
    const current = [row];
    for (let column = 1; column <= to.length; column++) {
      const replaced = (previous[column - 1] as number) + (from[row - 1] === to[column - 1] ? 0 : 1);
      current[column] = Math.min(replaced, (previous[column] as number) + 1, (current[column - 1] as number) + 1);
    }
    previous = current;
  }
  return previous[to.length] as number;
}
