import { createContext, runInContext, type Context } from "node:vm";
import { evaluate } from "../guide/page/evaluate";
import { CellError, type Implementation, type Value } from "../guide/page/values";
import type { DocumentedFunction } from "../documentation/docblocks.mjs";

/** Globals and methods younger than ECMAScript 2016. */
const YOUNGER: readonly (readonly [owner: string, ...names: string[]])[] = [
  ["globalThis", "BigInt", "WeakRef", "queueMicrotask", "structuredClone", "AggregateError"],
  ["Object", "entries", "values", "fromEntries", "hasOwn", "getOwnPropertyDescriptors", "groupBy"],
  ["Array.prototype", "flat", "flatMap", "at", "findLast", "findLastIndex", "toSorted", "toReversed", "with"],
  ["String.prototype", "padStart", "padEnd", "trimStart", "trimEnd", "matchAll", "replaceAll", "at"],
  ["Promise.prototype", "finally"],
];

/** A place to run scripts in that has nothing but the language of 2016 and what it is given. */
export function languageOf2016(given: object): Context {
  const context = createContext(given);
  runInContext(
    YOUNGER.flatMap(([owner, ...names]) => names.map((name) => `delete ${owner}.${name};`)).join(""),
    context,
  );
  return context;
}

/** The functions of a bundle, loaded where there is nothing but that language and Excel's CustomFunctions. */
export function functionsOf(bundle: string): ReadonlyMap<string, Implementation> {
  const functions = new Map<string, Implementation>();
  const associate = (id: string, implementation: Implementation) => void functions.set(id, implementation);
  runInContext(bundle, languageOf2016({ CustomFunctions: { Error: CellError, associate } }));
  return functions;
}

/**
 * What is wrong with a bundle, as sentences: it is loaded where there is nothing but that language and Excel's
 * CustomFunctions, and every documented example must give the result written beside it, to the digits written.
 */
export function exampleFaults(bundle: string, documented: readonly DocumentedFunction[]): string[] {
  let functions: ReadonlyMap<string, Implementation>;
  try {
    functions = functionsOf(bundle);
  } catch (fault) {
    return [`the bundle does not load: ${String(fault)}`];
  }
  return documented.flatMap(({ id, examples }) => {
    if (!functions.has(id)) return [`${id} is not in the bundle`];
    return examples.flatMap(({ formula, result, begins }) => {
      const wanted = result.startsWith("#") ? [[new CellError(result)]] : evaluate(result, functions);
      const came = evaluate(formula, functions).slice(0, begins ? wanted.length : undefined);
      if (!came.some((row) => row.some(isInternal)) && agree(came, wanted, decimalsIn(result))) return [];
      return [`${formula} gives ${shown(came)}, not ${result}`];
    });
  });
}

function isInternal(value: Value): boolean {
  return value instanceof CellError && value.message.includes("internal fault");
}

function decimalsIn(result: string): number {
  return Math.max(0, ...[...result.matchAll(/\.(\d+)/g)].map(([, digits]) => (digits as string).length));
}

function agree(came: Value[][], wanted: Value[][], decimals: number): boolean {
  return (
    came.length === wanted.length &&
    came.every(
      (row, r) =>
        row.length === wanted[r]?.length && row.every((value, c) => same(value, wanted[r]?.[c] as Value, decimals)),
    )
  );
}

function same(came: Value, wanted: Value, decimals: number): boolean {
  if (came instanceof CellError) return wanted instanceof CellError && came.code === wanted.code;
  if (typeof came !== "number" || typeof wanted !== "number") return came === wanted;
  // The figure beside an example is rounded for reading.
  return decimals === 0 ? came === wanted : Math.abs(came - wanted) <= 0.50001 * 10 ** -decimals;
}

const MOST_SHOWN = 120;

function shown(rows: Value[][]): string {
  const text = rows
    .map((row) =>
      row
        .map((value) =>
          value instanceof CellError ? `${value.code} ${value.message}`.trimEnd() : JSON.stringify(value),
        )
        .join(","),
    )
    .join(";");
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text;
}
