import { absent, LONGEST_MESSAGE, refuse, saying, shortened, type RefusalKind } from "../trade/refusal";

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
  /** The words to name first when there are too many to name all; without it, the first of the table. */
  readonly likely?: readonly string[];
  /** Words of a table that cannot be complete: an unknown one is no fault, so it gives #N/A with this advice. */
  readonly absence?: (nearest: string | undefined) => string;
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

/** So many different wrong words are looked at for the word they were meant to be; a sheet of them has another trouble. */
const MOST_HINTED = 200;

/** What was found for the wrong words of the present call: a column often holds one of them many times. */
const hints = new Map<Vocabulary<unknown>, Map<string, string | undefined>>();

/** What was found for one call is not kept for the next. */
export function forgetWords(): void {
  hints.clear();
}

function hintFor<T>(key: string, words: Vocabulary<T>): string | undefined {
  let known = hints.get(words);
  if (known === undefined) hints.set(words, (known = new Map<string, string | undefined>()));
  if (known.size >= MOST_HINTED || known.has(key)) return known.get(key);
  const hint = nearest(key, words);
  known.set(key, hint);
  return hint;
}

type Listener = (words: Vocabulary<unknown>, text: string, argument: string) => void;

let listener: Listener | undefined;

/** Told of every word that is looked up, so that the build learns which argument takes which words. */
export function listenToWords(told: Listener | undefined): void {
  listener = told;
}

/**
 * What a word stands for; never a guess. An ambiguous word gets its choices, an unknown one the word of which it is
 * likely a misspelling, or else the words there are.
 */
export function meaningOf<T>(words: Vocabulary<T>, text: string, argument: string): T {
  listener?.(words, text, argument);
  const key = folded(text);
  const meaning = words.meanings.get(key);
  if (meaning !== undefined) return meaning;
  const several = words.ambiguous.get(key);
  if (several !== undefined) refuse(argument, `"${text}", of several meanings`, `write ${several}`);
  if (words.absence) {
    absent(argument, `"${shortened(text, 15)}"`, words.absence(hintFor(key, words)));
  }
  const came = `"${shortened(text)}", not a ${words.of}`;
  const hint = words.words.length <= FEW ? undefined : hintFor(key, words);
  refuse(argument, came, hint === undefined ? choices(words, argument, came) : `the nearest is ${hint}`);
}

/** How a word will be refused, if it will. */
export function refusalOf<T>({ meanings, ambiguous, absence }: Vocabulary<T>, text: string): RefusalKind | undefined {
  const key = folded(text);
  if (meanings.has(key)) return undefined;
  return absence && !ambiguous.has(key) ? "absent" : "argument";
}

/** So few words are all told, and the right one is seen among them. */
const FEW = 6;

/** What may be written. */
function choices<T>(words: Vocabulary<T>, argument: string, came: string): string {
  return `write ${words.words.length <= FEW ? listed(words.words) : named(words, argument, came)}`;
}

/** A number, a date or a truth where a word is wanted. */
export function refuseNoWord<T>(words: Vocabulary<T>, came: string, argument: string): never {
  const wanted = words.absence ? `must be a ${words.of}, as text` : choices(words, argument, `${came}, no ${words.of}`);
  return refuse(argument, words.absence ? came : `${came}, no ${words.of}`, wanted);
}

/** As many of the words as the message has room for. */
function named<T>({ words, likely = words }: Vocabulary<T>, argument: string, came: string): string {
  const room = LONGEST_MESSAGE - saying(argument, came, "write ").length;
  if (likely.length === words.length && listed(words).length <= room) return listed(words);
  let told = likely[0] as string;
  for (const next of likely.slice(1)) {
    const longer = `${told}, ${next}`;
    if (longer.length + MORE.length > room) break;
    told = longer;
  }
  return told + MORE;
}

const MORE = " or another";

/** Spaces that are more than one between two words, or none of the usual. */
const UNEVEN = /^\s|\s\s|[^\S ]|\s$/;

function folded(text: string): string {
  return (UNEVEN.test(text) ? text.trim().replace(/\s+/g, " ") : text).toLowerCase();
}

/** "a, b or c" */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1] as string}`;
}

/** One letter in so many may be wrong; a shorter word is as near to its neighbours as to itself. */
const LETTERS_A_FAULT = 4;
/** No heading is as long as this, so a cell of text costs nothing. */
const LONGEST_HEADING = 40;

/** Is one word likely the other, misspelt? Both in small letters. */
export function isMisspelt(written: string, word: string): boolean {
  const allowed = Math.floor(Math.min(written.length, word.length) / LETTERS_A_FAULT);
  if (written.length <= LETTERS_A_FAULT || written.length > LONGEST_HEADING || written === word) return false;
  if (Math.abs(written.length - word.length) > allowed || figuresOf(written) !== figuresOf(word)) return false;
  return editDistance(written, word) <= allowed;
}

/** The known word that this one is likely meant to be, as a person writes it; a wrong hint is worse than none. */
function nearest<T>(key: string, { meanings, ambiguous, words }: Vocabulary<T>): string | undefined {
  const figures = figuresOf(key);
  let fewest = Math.floor(key.length / LETTERS_A_FAULT);
  let found: readonly [spelling: string, meaning: T | undefined] | undefined;
  let doubtful = false;
  const consider = (spelling: string, meaning: T | undefined): void => {
    if (Math.abs(spelling.length - key.length) > fewest || figuresOf(spelling) !== figures) return;
    const edits = editDistance(key, spelling);
    if (edits > fewest) return;
    const asNear = edits === fewest && found !== undefined;
    doubtful = meaning === undefined || (asNear && (doubtful || found?.[1] !== meaning));
    [found, fewest] = [[spelling, meaning], edits];
  };
  meanings.forEach((meaning, spelling) => consider(spelling, meaning));
  ambiguous.forEach((_, spelling) => consider(spelling, undefined));
  if (found === undefined || doubtful) return undefined;
  const [spelling, meant] = found;
  return words.find((word) => meanings.get(folded(word)) === meant) ?? spelling;
}

/** The figures in a word. Another figure is another thing (m/50g, D65/10), not a misspelling. */
function figuresOf(word: string): string {
  return word.replace(/[^0-9]+/g, " ").trim();
}

/** Insertions, deletions and replacements that turn one word into the other (Levenshtein). */
function editDistance(from: string, to: string): number {
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    for (let column = 1; column <= to.length; column++) {
      const replaced = (previous[column - 1] as number) + (from[row - 1] === to[column - 1] ? 0 : 1);
      current[column] = Math.min(replaced, (previous[column] as number) + 1, (current[column - 1] as number) + 1);
    }
    previous = current;
  }
  return previous[to.length] as number;
}
