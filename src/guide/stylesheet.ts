import { readFileSync } from "node:fs";

/** A style sheet with the palette that all have in common before it: one file for a page to load. */
export function stylesheet(file: string): string {
  return `${readFileSync("src/guide/palette.css", "utf8")}\n${readFileSync(file, "utf8")}`;
}
