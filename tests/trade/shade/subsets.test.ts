import { describe, expect, test } from "vitest";
import { eachSubset, subsetCount } from "../../../src/trade/shade/subsets";

describe("choices of some of many", () => {
  test("are as many as Pascal's triangle says", () => {
    for (let count = 1; count <= 30; count++) {
      expect([subsetCount(count, 0), subsetCount(count, count)]).toEqual([1, 1]);
      for (let size = 1; size < count; size++) {
        expect(subsetCount(count, size)).toBe(subsetCount(count - 1, size - 1) + subsetCount(count - 1, size));
      }
    }
    // 34 · 33 · 32 · 31 / 24
    expect(subsetCount(34, 4)).toBe(46_376);
  });

  test("are each visited once, in rising order", () => {
    for (let count = 1; count <= 8; count++) {
      for (let size = 1; size <= count; size++) {
        const visited: string[] = [];
        eachSubset(count, size, (places) => {
          expect([...places]).toEqual([...places].sort((a, b) => a - b));
          expect(Math.max(...places)).toBeLessThan(count);
          visited.push(places.join());
        });
        expect(visited).toHaveLength(subsetCount(count, size));
        expect(new Set(visited).size).toBe(visited.length);
      }
    }
  });
});
