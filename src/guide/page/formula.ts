import { shown, Tokens, Unreadable } from "./formula-tokens";
import type { Value } from "./values";

export { Unreadable };

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

/** Operators from the loosest to the tightest; a minus in front of a number binds tighter than all of them. */
const LEVELS: readonly (readonly string[])[] = [
  ["=", "<>", "<", ">", "<=", ">="],
  ["&"],
  ["+", "-"],
  ["*", "/"],
  ["^"],
];

const TRUTH = /^(true|false)$/i;

/** Reads a formula of numbers, texts, TRUE and FALSE, references, array constants, operators and calls. */
export function readFormula(typed: string): Formula {
  const tokens = new Tokens(typed.trim().replace(/^=/, ""));
  const whole = operation(tokens);
  tokens.expectEnd();
  return whole;
}

/** Operators of one level with what binds tighter between them, from left to right. */
function operation(tokens: Tokens, level = 0): Formula {
  const signs = LEVELS[level];
  if (signs === undefined) return signed(tokens);
  let left = operation(tokens, level + 1);
  for (let sign = tokens.sign(); signs.includes(sign); sign = tokens.sign()) {
    tokens.take();
    left = { kind: "operation", sign, left, right: operation(tokens, level + 1) };
  }
  return left;
}

/** An item with the signs before it and the percents behind it. */
function signed(tokens: Tokens): Formula {
  if (tokens.takes("+")) return signed(tokens);
  if (tokens.takes("@")) return { kind: "single", of: signed(tokens) };
  if (tokens.takes("-")) return { kind: "operation", sign: "-", left: oneValue(0), right: signed(tokens) };
  let read = item(tokens);
  while (tokens.takes("%")) read = { kind: "operation", sign: "/", left: read, right: oneValue(100) };
  return read;
}

function item(tokens: Tokens): Formula {
  const token = tokens.take();
  if (token?.kind === "number") return oneValue(Number(token.text));
  if (token?.kind === "text") return oneValue(token.text);
  if (token?.kind === "word") return word(token.text, tokens);
  if (token?.text === "{") return { kind: "rows", rows: arrayRows(tokens) };
  if (token?.text !== "(") throw new Unreadable(`a value is needed where ${shown(token)} stands`);
  const inner = operation(tokens);
  tokens.expect(")");
  return inner;
}

function word(text: string, tokens: Tokens): Formula {
  if (tokens.takes("(")) return call(text.toUpperCase(), tokens);
  return TRUTH.test(text) ? oneValue(isTrue(text)) : { kind: "reference", text };
}

/** The arguments of a call, behind its opening bracket. */
function call(name: string, tokens: Tokens): Call {
  const given: (Formula | undefined)[] = [];
  const written: string[] = [];
  if (!tokens.takes(")")) {
    do {
      const leftOut = [",", ")"].includes(tokens.sign());
      const { read, typed } = leftOut ? LEFT_OUT : tokens.typed(() => operation(tokens));
      given.push(read);
      written.push(typed);
    } while (tokens.takes(","));
    tokens.expect(")");
  }
  return { kind: "call", name, given, written };
}

const LEFT_OUT = { read: undefined, typed: "" };

/** The rows of an array constant, behind its opening brace. */
function arrayRows(tokens: Tokens): Value[][] {
  const rows: Value[][] = [];
  do {
    const row: Value[] = [];
    do row.push(constant(tokens));
    while (tokens.takes(","));
    rows.push(row);
  } while (tokens.takes(";"));
  tokens.expect("}");
  if (rows.some(({ length }) => length !== rows[0]?.length))
    throw new Unreadable("the rows of an array in braces must have equally many values");
  return rows;
}

/** One value between braces: a number with its sign and one percent, a text, or TRUE or FALSE. */
function constant(tokens: Tokens): Value {
  const minus = tokens.takes("-");
  if (!minus) tokens.takes("+");
  const token = tokens.take();
  if (token?.kind === "number") {
    const number = minus ? -Number(token.text) : Number(token.text);
    return tokens.takes("%") ? number / 100 : number;
  }
  if (!minus && token?.kind === "text") return token.text;
  if (!minus && token?.kind === "word" && TRUTH.test(token.text)) return isTrue(token.text);
  throw new Unreadable(`an array in braces holds plain values only, not ${shown(token)}`);
}

function oneValue(value: Value): Formula {
  return { kind: "rows", rows: [[value]] };
}

function isTrue(text: string): boolean {
  return text.toLowerCase() === "true";
}
