import { refuse, shortened } from "../refusal";

/** The kinds of word in a yarn designation: a number, a name (of a count system), or one of its signs. */
export type TokenKind = "number" | "word" | "/" | "x" | ";" | "R" | "S" | "Z" | "f" | "t0";

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  /** Of a number; 0 for everything else. */
  readonly value: number;
}

const SPACE = /[\s\u200b]+/y;
/** 30, 69,3, 69.3; with the trade's 's behind it: 30s, 30's. A capital S is a twist. */
const NUMBER = /(\d[\d.,]*|[.,]\d+)(?:['’ʼ]?s(?![A-Za-z\d]))?/y;
const NO_TWIST = /t0(?![\w.,])/iy;
/** Letters, and behind a stroke only what can be a unit: "gr/100yd" is one name, "tex/2 S" is not. */
const NAME = /[a-z]+(?:\/\d*(?:yd|km|kg|lb|oz|g|m)(?![a-z]))?/iy;
const SIGN = /[/;×✕⨯*х]/y;

const SIGNS: Readonly<Record<string, TokenKind>> = {
  "/": "/",
  ";": ";",
  "×": "x",
  "✕": "x",
  "⨯": "x",
  "*": "x",
  // Cyrillic kha, from a keyboard that writes it for x.
  х: "x",
};

/** Names of one letter that are signs, whatever their case. */
const LETTERS: Readonly<Record<string, TokenKind>> = { x: "x", r: "R", s: "S", z: "Z", f: "f" };

export function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  let place = 0;
  const taken = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = place;
    const found = pattern.exec(text);
    if (found !== null) place += found[0].length;
    return found;
  };
  while (place < text.length) {
    if (taken(SPACE)) continue;
    let found: RegExpExecArray | null;
    if ((found = taken(NUMBER))) {
      const digits = found[1] as string;
      tokens.push({ kind: "number", text: digits, value: numberIn(text, digits) });
    } else if (taken(NO_TWIST)) {
      tokens.push({ kind: "t0", text: "t0", value: 0 });
    } else if ((found = taken(NAME))) {
      const name = found[0];
      const sign = name.length === 1 ? LETTERS[name.toLowerCase()] : undefined;
      tokens.push({ kind: sign ?? "word", text: name, value: 0 });
    } else if ((found = taken(SIGN))) {
      tokens.push({ kind: SIGNS[found[0]] as TokenKind, text: found[0], value: 0 });
    } else {
      unreadable(text, { kind: "word", text: text.charAt(place), value: 0 });
    }
  }
  return tokens;
}

/** One to three digits, a mark and exactly three: 1,200 and 1.200 are 1.2 here and 1200 there. */
const MAY_PART_THOUSANDS = /^[1-9]\d{0,2}[.,]\d{3}$/;

/** A comma is a decimal comma; but before exactly three digits it, or a point, could as well part thousands. */
function numberIn(text: string, digits: string): number {
  if (!/^\d*[.,]?\d+$/.test(digits)) unreadable(text, { kind: "number", text: digits, value: 0 });
  const pointed = digits.replace(",", ".");
  if (MAY_PART_THOUSANDS.test(digits)) {
    refuse(
      "text",
      `"${shortened(text)}", where ${digits} can be two numbers`,
      `write ${unmistakable(String(Number(pointed)))} or ${digits.replace(/[.,]/, "")}`,
    );
  }
  const value = Number(pointed);
  if (!Number.isFinite(value)) refuse("text", "a number too long to hold", "check the designation");
  return value;
}

/** A number so written that its point cannot part thousands: a zero behind the third decimal changes nothing else. */
export function unmistakable(digits: string): string {
  return MAY_PART_THOUSANDS.test(digits) ? `${digits}0` : digits;
}

/** Refuses a designation at the word that does not belong there; at its end without one. */
export function unreadable(text: string, at: Token | undefined, advice?: string): never {
  const where = at === undefined ? "which stops too early" : `not read at "${shortened(at.text, 10)}"`;
  refuse("text", `"${shortened(text)}", ${where}`, advice || "write it like 2/30 Nm or 34 tex S 600 x 2 Z 400");
}
