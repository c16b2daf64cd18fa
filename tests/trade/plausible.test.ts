import { describe, expect, test } from "vitest";
import { expectWithin, figure } from "../../src/trade/plausible";
import { refusalOf } from "../support/refusals";

describe("a figure within limits", () => {
  test("is given back, the limits among them, and so is what is no finite number", () => {
    for (const value of [2, 2.5, 3, NaN, Infinity, -Infinity])
      expect(expectWithin(value, 2, 3, "width", value, "must be 2 to 3")).toBe(value);
  });

  test("is refused beyond them, with what came and what is allowed", () => {
    expect(refusalOf(() => expectWithin(1.99, 2, 3, "width", "199 cm", "must be 2 to 3 m"))).toBe(
      "#VALUE! width is 199 cm; must be 2 to 3 m",
    );
    expect(refusalOf(() => expectWithin(4.00004, 2, 3, "width", 4.00004, (shown) => `comes to ${shown} m`))).toBe(
      "#VALUE! width is 4.00004; comes to 4 m",
    );
  });

  test("messages show four digits, or as many as are asked for", () => {
    expect([figure(1234.567), figure(0.000123456), figure(1234.567, 6)]).toEqual([1235, 0.0001235, 1234.57]);
    expect(figure(Number.MAX_VALUE)).toBe(Number.MAX_VALUE);
  });
});
