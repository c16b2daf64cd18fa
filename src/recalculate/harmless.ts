/** Characters that steer a terminal, turn the direction of a line or cannot be seen. */
const STEERING = /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g;

/** Text out of a file as it may be shown: such characters are written out, and a line stays one line. */
export function harmless(text: string): string {
  return text.replace(/[\t\r\n]+/g, " ").replace(STEERING, writtenOut);
}

/** The same inside the text of JSON, which writes out the first of them only. */
export function harmlessJson(value: unknown): string {
  return JSON.stringify(value).replace(STEERING, writtenOut);
}

function writtenOut(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;
}
