import * as everything from "../../node_modules/fast-check/lib/fast-check.js";

/**
 * How many random cases a property gets, of those that its test names: a tenth, so that none takes much over a second,
 * and twelve at least. CASES=full, as on CI, gives it all; CASES=1000 or any other number gives every property as many.
 */
export function cases(named: number): number {
  const asked = process.env["CASES"] || "tenth";
  if (asked === "full") return named;
  if (asked === "tenth") return Math.min(named, Math.max(12, Math.ceil(named / 10)));
  if (!/^[1-9]\d*$/.test(asked)) throw new Error(`CASES is "${asked}"; must be "full" or a number`);
  return Number(asked);
}

/** Is everything looked at, as on CI? */
export const WHOLE = process.env["CASES"] === "full";

/**
 * Of things that are made alike, the first of every kind and a tenth of the others, drawn anew with SEED=…; all of them
 * with CASES=full. A test says in its name how many it looks at.
 */
export function lookedAt<Item>(all: readonly Item[], kindOf: (one: Item) => string): Item[] {
  if (WHOLE) return [...all];
  const kinds = new Map<string, Item>();
  for (const one of all) if (!kinds.has(kindOf(one))) kinds.set(kindOf(one), one);
  const others = all.filter((one) => !new Set(kinds.values()).has(one));
  const tenth = Math.ceil(others.length / 10);
  const [drawn = []] = everything.sample(
    everything.shuffledSubarray(others, { minLength: tenth, maxLength: tenth }),
    1,
  );
  return [...kinds.values(), ...drawn];
}

const CASES_UNNAMED = 100;

/** What the tests get as fast-check. */
export const assert = ((property: never, parameters?: { numRuns?: number }) =>
  everything.assert(property, {
    ...parameters,
    numRuns: cases(parameters?.numRuns ?? CASES_UNNAMED),
  })) as typeof everything.assert;

export default { ...everything, assert };
