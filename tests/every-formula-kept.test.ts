import { afterEach, describe, expect, test } from "vitest";
import { evaluate } from "../src/recalculate/engine";
import { CellError } from "../src/recalculate/values";

/** More formulas than the engine's cache holds. */
const FORMULAS = Array.from({ length: 10_050 }, (_, index) => `=${index}+1`);

describe("more than ten thousand formulas", () => {
  const own = Object.getOwnPropertyDescriptor(WeakMap.prototype, "set") as PropertyDescriptor;
  afterEach(() => Object.defineProperty(WeakMap.prototype, "set", own));

  test("are all worked out, and nothing is left changed", () => {
    const outcomes = evaluate(FORMULAS, new Map());
    expect(outcomes.filter((outcome, index) => outcome !== index + 1)).toEqual([]);
    expect(Object.getOwnPropertyDescriptor(WeakMap.prototype, "set")).toEqual(own);
  });

  test("are more than the engine keeps by itself: once it keeps them, lifting its limit can go", () => {
    // Nothing can be put in the place of this one, so the limit stays.
    Object.defineProperty(WeakMap.prototype, "set", {
      configurable: true,
      get: () => own.value as unknown,
      set: () => {},
    });
    expect(evaluate(FORMULAS, new Map()).filter((outcome) => outcome instanceof CellError).length).toBeGreaterThan(0);
  });
});
