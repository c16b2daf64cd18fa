import { describe, expect, test } from "vitest";
import { topForecast } from "../../../src/trade/wool/top-forecast";
import { refusalOf } from "../../support/refusals";

describe("TEAM-2 forecast", () => {
  // Worked by hand from the published equations for 85 mm, 38 N/ktex, 21 micron, 1.5 % VM, 50 % middle breaks.
  test("hauteur 44.2 + 17.86 + 19.95 - 0.675 - 9.5 - 3.5 = 68.335 mm", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "hauteur")).toBeCloseTo(68.335, 10);
  });
  test("cv 10.2 - 15.58 - 7.35 + 10 + 49.9 = 47.17 %", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "cv hauteur")).toBeCloseTo(0.4717, 12);
  });
  test("romaine -9.35 - 5.32 - 7.35 + 1.41 + 27.7 = 7.09 %, falling as the staple lengthens", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "romaine")).toBeCloseTo(0.0709, 12);
    expect(topForecast(95, 38, 21, 0.015, 0.5, "romaine")).toBeCloseTo(0.0709 - 0.011, 12);
  });
  test("no noil at all, or less, is no forecast: 27.7 - 0.33 - 13.72 - 13.65 = 0", () => {
    const outside = "#NUM! the romaine is forecast at or below 0; these wools lie outside the equations";
    expect(refusalOf(() => topForecast(3, 98, 39, 0, 0.5, "romaine"))).toBe(outside);
    expect(refusalOf(() => topForecast(4, 98, 39, 0, 0.5, "romaine"))).toBe(outside);
    expect(topForecast(2, 98, 39, 0, 0.5, "romaine")).toBeCloseTo(0.0011, 12);
  });
  test("middle breaks below 45 % count as 45 %", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.1, "hauteur")).toBe(topForecast(85, 38, 21, 0.015, 0.45, "hauteur"));
    expect(topForecast(85, 38, 21, 0.015, 0.45, "hauteur")).toBeCloseTo(68.335 + 0.19 * 5, 10);
  });
});
