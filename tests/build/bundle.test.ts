import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";
import { parse } from "acorn";
import { describe, expect, test } from "vitest";
import { customFunctionsRuntime, type Implementation } from "../../src/recalculate/bundle";

const text = readFileSync("dist/functions.js", "utf8");
const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: { id: string }[] };

/** Globals and methods younger than ECMAScript 2016, which its parser cannot see. */
const YOUNGER: readonly (readonly [owner: string, ...names: string[]])[] = [
  ["globalThis", "BigInt", "WeakRef", "queueMicrotask", "structuredClone", "AggregateError"],
  ["Object", "entries", "values", "fromEntries", "hasOwn", "getOwnPropertyDescriptors", "groupBy"],
  ["Array.prototype", "flat", "flatMap", "at", "findLast", "findLastIndex", "toSorted", "toReversed", "with"],
  ["String.prototype", "padStart", "padEnd", "trimStart", "trimEnd", "matchAll", "replaceAll", "at"],
  ["Promise.prototype", "finally"],
];

describe("the bundle", () => {
  test("is ECMAScript 2016", () => {
    expect(() => parse("a ?? b", { ecmaVersion: 2016 })).toThrow();
    expect(parse(text, { ecmaVersion: 2016, sourceType: "script" }).body.length).toBeGreaterThan(0);
  });

  test("loads where there is nothing but the language of 2016 and CustomFunctions", () => {
    const associated = new Map<string, Implementation>();
    const context = createContext({ CustomFunctions: customFunctionsRuntime(associated) });
    const removals = YOUNGER.flatMap(([owner, ...names]) => names.map((name) => `delete ${owner}.${name};`));
    runInContext(removals.join("\n"), context);
    expect(runInContext("typeof Object.entries + typeof [].flat", context)).toBe("undefinedundefined");
    runInContext(text, context);
    expect([...associated.keys()].sort()).toEqual(functions.map(({ id }) => id).sort());
  });
});
