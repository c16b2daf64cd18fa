import { describe, expect, test } from "vitest";
import { binding, expectShareBounds } from "../../../src/trade/blending/share-bounds";
import { refusalOf } from "../../support/refusals";

describe("bounds on shares", () => {
  test("bind from above 0 on, and below 1", () => {
    expect(binding(0, 1)).toEqual({});
    expect(binding(Number.MIN_VALUE, 1)).toEqual({ least: Number.MIN_VALUE });
    expect(binding(0, 1 - Number.EPSILON)).toEqual({ most: 1 - Number.EPSILON });
    expect(binding(0.25, 0.75)).toEqual({ least: 0.25, most: 0.75 });
  });

  test("may leave no choice, and may miss 1 by the rounding of their sum", () => {
    const tenths = new Array<number>(10).fill(0.1);
    expect(() => expectShareBounds([0.25, 0.75], [0.25, 0.75])).not.toThrow();
    // Ten times 0.1 is a little below 1, three and seven tenths in thirds a little above.
    expect(() => expectShareBounds(tenths, tenths)).not.toThrow();
    expect(() => expectShareBounds([1 + 9e-10, 0], [2, 1])).not.toThrow();
    expect(() => expectShareBounds([0, 0], [1 - 9e-10, 0])).not.toThrow();
  });

  test("that cross, or leave no room for 1, are refused", () => {
    expect(refusalOf(() => expectShareBounds([0, 0.6], [1, 0.5]))).toBe(
      "#VALUE! min_share item 2 is 0.6; must not be above its max_share, 0.5",
    );
    expect(refusalOf(() => expectShareBounds([0.6, 0.5], [1, 1]))).toBe(
      "#N/A min_share is 1.1 in all; shares of 1 in all cannot be met",
    );
    expect(refusalOf(() => expectShareBounds([0, 0], [0.6, 0.3]))).toBe(
      "#N/A max_share is 0.9 in all; shares of 1 in all cannot be met",
    );
  });
});
