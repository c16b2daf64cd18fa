import { copyWith } from "./copying";

/** Makes a copy for someone without the add-in. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return copyWith("makePlain", "plain", "formulas replaced by their values", typed, startedIn);
}
