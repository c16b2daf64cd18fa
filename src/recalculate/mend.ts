import { copyWith } from "./copying";

/** Makes a copy in which dead or damaged calls work again. */
export function main(typed: string[], startedIn: string): Promise<number> {
  return copyWith("makeMended", "mend", "formulas mended", typed, startedIn);
}
