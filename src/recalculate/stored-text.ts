import { CellError, type Value } from "./values";

/** A value in the text of a cell: the t attribute (none for a number) and what stands in <v>. */
export interface StoredValue {
  readonly type: string | undefined;
  readonly text: string;
}

/** Errors that files know by name; the younger ones are stored as #VALUE! beside a mark that only Excel writes. */
const ERRORS_IN_FILES = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"];

export function errorInFile(code: string): string {
  return ERRORS_IN_FILES.includes(code) ? code : "#VALUE!";
}

export function storedValue(value: Value): StoredValue {
  if (value === null) return { type: undefined, text: "0" };
  if (typeof value === "number") return { type: undefined, text: String(value) };
  if (typeof value === "boolean") return { type: "b", text: value ? "1" : "0" };
  if (typeof value === "string") return { type: "str", text: escaped(value) };
  return { type: "e", text: errorInFile(value.code) };
}

/** A saved value; shared strings are looked up by the reader of the book. */
export function valueIn({ type, text }: StoredValue, shared: readonly string[]): Value {
  switch (type) {
    case "s":
      return shared[Number(text)] ?? "";
    case "str":
    case "inlineStr":
      return unescaped(text);
    case "b":
      return text.trim() !== "0";
    case "e":
      return new CellError(text.trim());
    case "d":
      return Date.parse(`${text.trim()}${/Z|[+-]\d\d:?\d\d$/.test(text.trim()) ? "" : "Z"}`) / 86_400_000 + 25_569;
    default:
      return text.trim() === "" ? null : Number(text);
  }
}

/** Characters that XML cannot hold are written _x000B_, and so is a text that looks like one of these. */
function escaped(text: string): string {
  return text
    .replace(/_(?=x[0-9a-f]{4}_)/gi, "_x005F_")
    .replace(
      /[\u0000-\u0008\u000b-\u001f\ufffe\uffff]/g,
      (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`,
    );
}

export function unescaped(text: string): string {
  return text.includes("_x")
    ? text.replace(/_x([0-9a-f]{4})_/gi, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)))
    : text;
}
