import fc from "fast-check";
import { customFunctionsRuntime, type Implementation } from "../../src/recalculate/bundle";

/** What the source modules associate when a test loads them. */
export const associated = new Map<string, Implementation>();

(globalThis as { CustomFunctions?: object }).CustomFunctions = customFunctionsRuntime(associated);

// The same random cases on every run, so that a failure is somebody's change; SEED=… explores others.
fc.configureGlobal({ seed: Number(process.env.SEED ?? 20261102) });
