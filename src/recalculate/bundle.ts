import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compileFunction } from "node:vm";

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

/** From the sources as from the compiled command, which lies as deep. */
const FUNCTIONS = fileURLToPath(new URL("../../dist/functions.js", import.meta.url));

/** Tells one built bundle from another. */
export function bundleDigest(file = FUNCTIONS): string {
  return createHash("sha256").update(readFileSync(file)).digest("hex");
}

/**
 * Loads the built bundle with nothing but CustomFunctions handed to it. It runs in this context, because a context of
 * its own makes every use of a global several times slower; that it needs no other is proved in tests/build.
 */
export function loadBundle(file = FUNCTIONS): Implementations {
  const functions = new Map<string, Implementation>();
  const code = compileFunction(readFileSync(file, "utf8"), ["CustomFunctions"], { filename: file });
  const run = code as (given: ReturnType<typeof customFunctionsRuntime>) => void;
  run(customFunctionsRuntime(functions));
  return functions;
}

let loaded: Implementations | undefined;

/** The built bundle, loaded once a process: a list of workbooks asks for it with each. */
export function builtFunctions(): Implementations {
  return (loaded ??= loadBundle());
}
