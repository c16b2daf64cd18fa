import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { EndCode } from "./children";
import type { Job, Recalculated } from "./recalculation";

/** The version of this library. */
export const VERSION = (
  JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { readonly version: string }
).version;

/** What is told of a workbook that has no result; a command needs no calculation to say so. */
export function failed({ file, called }: Job, error: string, code: EndCode): Recalculated {
  return {
    workbook: called,
    digest: digestOfFile(file),
    version: VERSION,
    formulas: 0,
    cells: 0,
    differences: [],
    unreproduced: [],
    recalculated: [],
    notRecalculated: [],
    faults: [],
    taken: [],
    passedOver: 0,
    engines: 1,
    neverCalculated: 0,
    seconds: 0,
    error,
    code,
  };
}

export function digestOf(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

export function digestOfFile(file: string): string {
  try {
    return digestOf(readFileSync(file));
  } catch {
    return "";
  }
}
