import type { Value } from "./values";

/** A formula as it was read. */
export type Formula =
  | { readonly kind: "rows"; readonly rows: Value[][] }
  | { readonly kind: "reference"; readonly text: string }
  | { readonly kind: "single"; readonly of: Formula }
  | Call
  | { readonly kind: "operation"; readonly sign: string; readonly left: Formula; readonly right: Formula };

export interface Call {
  readonly kind: "call";
  readonly name: string;
  readonly given: readonly (Formula | undefined)[];
  /** The arguments as they were typed. */
  readonly written: readonly string[];
}

/** The formula cannot be read; the message is for the person who typed it. */
export class Unreadable extends Error {}

interface Token {
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

/** Operators from the loosest to the tightest; a minus in front of a number binds tighter than all of them. */
const LEVELS: readonly (readonly string[])[] = [
  ["=", "<>", "<", ">", "<=", ">="],
  ["&"],
  ["+", "-"],
  ["*", "/"],
  ["^"],
];

/** Reads a formula of numbers, texts, TRUE and FALSE, references, array constants, operators and calls. */
export function readFormula(typed: string): Formula {
  const source = typed.trim().replace(/^=/, "");
  const tokens = tokensOf(source);
  let next = 0;

  const peek = (): string => {
    const token = tokens[next];
    return token?.kind === "sign" ? token.text : "";
  };
  const take = (sign: string): boolean => {
    if (peek() !== sign) return false;
    next++;
    return true;
  };
  const expect = (sign: string): void => {
    if (!take(sign)) throw new Unreadable(`${shown(tokens[next])} stands where ${sign} is needed`);
  };

  function operation(level: number): Formula {
    const signs = LEVELS[level];
    if (signs === undefined) return signed();
    let left = operation(level + 1);
    while (signs.includes(peek())) {
      const sign = (tokens[next++] as Token).text;
      left = { kind: "operation", sign, left, right: operation(level + 1) };
    }
    return left;
  }

  function signed(): Formula {
    if (take("+")) return signed();
    if (take("@")) return { kind: "single", of: signed() };
    if (take("-")) return { kind: "operation", sign: "-", left: single(0), right: signed() };
    let read = item();
    while (take("%")) read = { kind: "operation", sign: "/", left: read, right: single(100) };
    return read;
  }

  function item(): Formula {
    const token = tokens[next++];
    if (token?.kind === "number") return single(Number(token.text));
    if (token?.kind === "text") return single(token.text);
    if (token?.kind === "word") return word(token.text);
    if (token?.text === "{") return { kind: "rows", rows: arrayRows() };
    if (token?.text === "(") {
      const inner = operation(0);
      expect(")");
      return inner;
    }
    throw new Unreadable(`a value is needed where ${shown(token)} stands`);
  }

  function word(text: string): Formula {
    if (take("(")) return call(text.toUpperCase());
    if (/^(true|false)$/i.test(text)) return single(/^t/i.test(text));
    return { kind: "reference", text };
  }

  function call(name: string): Call {
    const given: (Formula | undefined)[] = [];
    const written: string[] = [];
    if (take(")")) return { kind: "call", name, given, written };
    do {
      const from = tokens[next]?.from ?? 0;
      const leftOut = peek() === "," || peek() === ")";
      given.push(leftOut ? undefined : operation(0));
      written.push(leftOut ? "" : source.slice(from, (tokens[next - 1] as Token).to));
    } while (take(","));
    expect(")");
    return { kind: "call", name, given, written };
  }

  function arrayRows(): Value[][] {
    const rows: Value[][] = [];
    do {
      const row: Value[] = [];
      do row.push(constant());
      while (take(","));
      rows.push(row);
    } while (take(";"));
    expect("}");
    if (rows.some(({ length }) => length !== (rows[0] as Value[]).length)) {
      throw new Unreadable("the rows of an array in braces must have equally many values");
    }
    return rows;
  }

  function constant(): Value {
    const minus = take("-");
    if (!minus) take("+");
    const token = tokens[next++];
    if (token?.kind === "number") {
      const number = minus ? -Number(token.text) : Number(token.text);
      return take("%") ? number / 100 : number;
    }
    if (!minus && token?.kind === "text") return token.text;
    if (!minus && token?.kind === "word" && /^(true|false)$/i.test(token.text)) return /^t/i.test(token.text);
    throw new Unreadable(`an array in braces holds plain values only, not ${shown(token)}`);
  }

  const whole = operation(0);
  if (next < tokens.length) throw new Unreadable(`${shown(tokens[next])} is too much`);
  return whole;
}

function single(value: Value): Formula {
  return { kind: "rows", rows: [[value]] };
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

function shown(token: Token | undefined): string {
  if (token === undefined) return "the end";
  return token.kind === "text" ? `"${token.text}"` : token.text;
}
