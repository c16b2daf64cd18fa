import { CellError, type Implementation } from "./values";

/** The functions of the bundle, by id, as soon as its script has run. */
export const functions = new Map<string, Implementation>();

// The page stands in for Excel's runtime: the same bundle, associated here.
(globalThis as { CustomFunctions?: object }).CustomFunctions = {
  Error: CellError,
  associate: (id: string, implementation: Implementation) => void functions.set(id, implementation),
};
