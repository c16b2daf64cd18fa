import { readFileSync } from "node:fs";
import { runInContext } from "node:vm";
import { parse } from "acorn";
import { describe, expect, test } from "vitest";
import { languageOf2016 } from "../../src/build/examples";
import { customFunctionsRuntime, type Implementation } from "../../src/recalculate/bundle";

const text = readFileSync("dist/functions.js", "utf8");
const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: { id: string }[] };

describe("the bundle", () => {
  test("is ECMAScript 2016", () => {
    expect(() => parse("a ?? b", { ecmaVersion: 2016 })).toThrow();
    expect(parse(text, { ecmaVersion: 2016, sourceType: "script" }).body.length).toBeGreaterThan(0);
  });

  test("loads where there is nothing but the language of 2016 and CustomFunctions", () => {
    const associated = new Map<string, Implementation>();
    const context = languageOf2016({ CustomFunctions: customFunctionsRuntime(associated) });
    expect(runInContext("typeof Object.entries + typeof [].flat", context)).toBe("undefinedundefined");
    runInContext(text, context);
    expect([...associated.keys()].sort()).toEqual(functions.map(({ id }) => id).sort());
  });
});
