import * as everything from "../../node_modules/fast-check/lib/fast-check.js";

/** fast-check with few random cases a property: the mutation tests run in its place, thousands of times. RUNS=… asks for more. */
const MOST_RUNS = Number(process.env["RUNS"] ?? 12);

export const assert = ((property: never, parameters?: { numRuns?: number }) =>
  everything.assert(property, {
    ...parameters,
    numRuns: Math.min(parameters?.numRuns ?? MOST_RUNS, MOST_RUNS),
  })) as typeof everything.assert;

export default { ...everything, assert };
