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

const LITTLE_WORDS =
  "a an and are by can do does for from get have how i in into is it many me much my of on one or out the to we what when which with".split(
    " ",
  );

/** Places of the entries that answer a question, the best first; all entries where nothing is asked. */
export function answersTo(asked: string, entries: readonly Searched[]): number[] {
  const sought = wordsOf(corrected(asked, entries)).filter(tellingAmong(asked)).map(withoutPlural);
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

/** What was asked, with each word that no entry holds replaced by the known one that it most likely is. */
export function corrected(asked: string, entries: readonly Searched[]): string {
  const telling = tellingAmong(asked);
  const unknown = wordsOf(asked).filter(
    (word) => telling(word) && !entries.some((entry) => weightOf(withoutPlural(word), entry) > 0),
  );
  if (unknown.length === 0) return asked;
  const known = new Set(
    entries.flatMap(({ id, nearest, trade, description, details }) =>
      [id, nearest, trade, description, details].flatMap(wordsOf),
    ),
  );
  return wordsOf(asked)
    .map((word) => (unknown.includes(word) ? (meantBy(word, known) ?? word) : word))
    .join(" ");
}

/** Little words are passed over, unless nothing else was asked. */
function tellingAmong(asked: string): (word: string) => boolean {
  const only = wordsOf(asked).every((word) => LITTLE_WORDS.includes(word));
  return (word) => only || !LITTLE_WORDS.includes(word);
}

/** "plying" is "ply" and "weighed" is "weigh"; else the known word that differs by a slip of the fingers. */
function meantBy(word: string, known: ReadonlySet<string>): string | undefined {
  const stem = /^(.{3,}?)(?:ing|ed|er|es)$/.exec(word)?.[1];
  const forms = stem === undefined ? [] : [stem, `${stem}e`, stem.replace(/(.)\1$/, "$1")];
  const form = forms.find((one) => known.has(one));
  if (form !== undefined || word.length < 4) return form;
  const most = word.length < 9 ? 1 : 2;
  const near = [...known]
    .filter((one) => one.length > 3 && Math.abs(one.length - word.length) <= most)
    .map((one) => ({ one, slips: slipsBetween(word, one) }))
    .filter(({ slips }) => slips <= most)
    .sort((a, b) => a.slips - b.slips || Number(b.one[0] === word[0]) - Number(a.one[0] === word[0]));
  return near[0]?.one;
}

/** Letters left out, put in, exchanged, or two of them turned about. */
function slipsBetween(a: string, b: string): number {
  const rows = Array.from({ length: a.length + 1 }, (_, i) => [i]);
  for (let j = 1; j <= b.length; j++) (rows[0] as number[])[j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const at = (up: number, left: number) => (rows[i - up] as number[])[j - left] as number;
      let least = Math.min(at(1, 0) + 1, at(0, 1) + 1, at(1, 1) + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, at(2, 2) + 1);
      (rows[i] as number[])[j] = least;
    }
  }
  return (rows[a.length] as number[])[b.length] as number;
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
