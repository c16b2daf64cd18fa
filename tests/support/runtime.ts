import { customFunctionsRuntime, type Implementation } from "../../src/recalculate/bundle";

/** What the source modules associate when a test loads them. */
export const associated = new Map<string, Implementation>();

(globalThis as { CustomFunctions?: object }).CustomFunctions = customFunctionsRuntime(associated);
