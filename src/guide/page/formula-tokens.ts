/** The formula cannot be read; the message is for the person who typed it. */
export class Unreadable extends Error {}

export interface Token {
  readonly kind: "number" | "text" | "word" | "sign";
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** A name, a cell, an area or a spill, perhaps of another sheet, perhaps with the columns of a table behind it. */
const BRACKETS = String.raw`\[(?:[^\[\]']|'.|\[(?:[^\[\]']|'.)*\])*\]`;
const SHEET = String.raw`(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.:]*)!`;
const WORD = String.raw`(?:${SHEET})?[\p{L}_$][\p{L}\p{N}_.$:]*#?(?:${BRACKETS})?|${BRACKETS}`;
const NUMBER = String.raw`(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const TOKEN = new RegExp(
  String.raw`\s*(?:(?<number>${NUMBER})|"(?<text>(?:[^"]|"")*)"|(?<word>${WORD})|(?<sign><=|>=|<>|[-+*/^&=<>%(){},;@]))`,
  "uy",
);

/** The tokens of a formula, taken one after the other. */
export class Tokens {
  private readonly tokens: readonly Token[];
  private next = 0;

  constructor(private readonly source: string) {
    this.tokens = tokensOf(source);
  }

  /** The sign that stands next, or nothing where something else does. */
  sign(): string {
    const token = this.tokens[this.next];
    return token?.kind === "sign" ? token.text : "";
  }

  /** The next token, whatever it is; nothing at the end. */
  take(): Token | undefined {
    return this.tokens[this.next++];
  }

  /** Takes the sign where it stands next, and says whether it did. */
  takes(sign: string): boolean {
    if (this.sign() !== sign) return false;
    this.next++;
    return true;
  }

  /** Takes a sign that must stand next. */
  expect(sign: string): void {
    if (!this.takes(sign)) throw new Unreadable(`${shown(this.tokens[this.next])} stands where ${sign} is needed`);
  }

  expectEnd(): void {
    if (this.next < this.tokens.length) throw new Unreadable(`${shown(this.tokens[this.next])} is too much`);
  }

  /** What a reading takes, and the same as it was typed. */
  typed<T>(reading: () => T): { read: T; typed: string } {
    const from = this.tokens[this.next]?.from ?? 0;
    const read = reading();
    return { read, typed: this.source.slice(from, this.tokens[this.next - 1]?.to) };
  }
}

export function shown(token: Token | undefined): string {
  if (token === undefined) return "the end";
  return token.kind === "text" ? `"${token.text}"` : token.text;
}

function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  while (text.slice(TOKEN.lastIndex).trim() !== "") {
    const from = TOKEN.lastIndex;
    const found = TOKEN.exec(text);
    const groups = found?.groups;
    if (!found || !groups) throw new Unreadable(`this cannot be read: ${text.slice(from).trim().slice(0, 20)}`);
    const to = from + found[0].length;
    const place = { from: to - found[0].trimStart().length, to };
    if (groups.number !== undefined) tokens.push({ kind: "number", text: groups.number, ...place });
    else if (groups.text !== undefined) tokens.push({ kind: "text", text: groups.text.replace(/""/g, '"'), ...place });
    else if (groups.word !== undefined) tokens.push({ kind: "word", text: groups.word, ...place });
    else tokens.push({ kind: "sign", text: groups.sign as string, ...place });
  }
  if (tokens.length === 0) throw new Unreadable("the formula is empty");
  return tokens;
}
