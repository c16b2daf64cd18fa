/** One entry of the index as the search sees it. All texts in lower case. */
export interface Searched {
  readonly id: string;
  /** Words by which a person of the trade would ask for it before anything else. */
  readonly nearest: string;
  /** Words by which a person of the trade might ask for it. */
  readonly trade: string;
  readonly description: string;
  /** Names and descriptions of the arguments, and whatever else may be asked for. */
  readonly details: string;
}

const LITTLE_WORDS = ["a", "an", "and", "by", "for", "from", "in", "is", "of", "on", "or", "the", "to", "with"];

/** Places of the entries that answer a question, the best first; all entries where nothing is asked. */
export function answersTo(asked: string, entries: readonly Searched[]): number[] {
  const words = wordsOf(asked);
  const telling = words.filter((word) => !LITTLE_WORDS.includes(word));
  const sought = (telling.length > 0 ? telling : words).map(withoutPlural);
  if (sought.length === 0) return entries.map((_, place) => place);
  const weighed = entries.map((entry, place) => {
    const weights = sought.map((word) => weightOf(word, entry));
    return { place, found: weights.filter((weight) => weight > 0).length, weight: weights.reduce((a, b) => a + b) };
  });
  // Entries that hold every word; where there are none, those that hold most of them.
  const most = Math.max(...weighed.map(({ found }) => found));
  return weighed
    .filter(({ found }) => found > 0 && found === most)
    .sort((a, b) => b.weight - a.weight || a.place - b.place)
    .map(({ place }) => place);
}

/** "noils" is to find "noil"; words are matched by their beginnings, so the shorter form finds both. */
function withoutPlural(word: string): string {
  return word.length > 3 && word.endsWith("s") ? word.slice(0, -1) : word;
}

function weightOf(word: string, { id, nearest, trade, description, details }: Searched): number {
  if (id === word) return 1000;
  let weight = id.startsWith(word) ? 40 : word.length > 2 && id.includes(word) ? 20 : 0;
  weight +=
    30 * begins(word, nearest) + 15 * begins(word, trade) + 8 * begins(word, description) + 2 * begins(word, details);
  return weight;
}

/** 2 where a word of the text is the one asked for, 1 where one begins with it. */
function begins(word: string, text: string): number {
  const words = wordsOf(text);
  if (words.includes(word)) return 2;
  return words.some((one) => one.startsWith(word)) ? 1 : 0;
}

export function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}.%/*]+/u)
    .map((word) => word.replace(/^yarn\.(?=.)/, "").replace(/^[./*]+|[./*]+$/g, ""))
    .filter((word) => word !== "");
}
