import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";

/** One function of the library, called with rows of cells. */
export type Implementation = (...cells: unknown[]) => unknown;
/** By id. */
export type Implementations = ReadonlyMap<string, Implementation>;

/** Excel's runtime as far as the library uses it, collecting what is associated. */
export function customFunctionsRuntime(into: Map<string, Implementation>): object {
  class CustomFunctionError {
    constructor(
      readonly code: string,
      readonly message?: string,
    ) {}
  }
  return {
    Error: CustomFunctionError,
    associate: (id: string, implementation: Implementation) => void into.set(id, implementation),
  };
}

/** Loads the built bundle as Excel's script-only runtime does: nothing in sight but CustomFunctions. */
export function loadBundle(file = "dist/functions.js"): Implementations {
  const functions = new Map<string, Implementation>();
  runInContext(readFileSync(file, "utf8"), createContext({ CustomFunctions: customFunctionsRuntime(functions) }), {
    filename: file,
  });
  return functions;
}
