import { describe, expect, test } from "vitest";
import {
  isLookedOver,
  MOST_SUBSETS,
  searchEffort,
  searchSize,
  type SearchTerms,
} from "../../../src/trade/shade/search-size";

const terms: SearchTerms = { solids: 5, kept: 0, parts: 3, leastShare: 0, step: 0 };

/** Every way to share out so many steps over so many solids, counted one by one. */
function recipesOneByOne({ solids, kept, parts }: SearchTerms, units: number, fewest: number): number {
  const count = (place: number, left: number, used: number): number => {
    if (place === solids) return left === 0 && used <= parts ? 1 : 0;
    let all = place < kept ? 0 : count(place + 1, left, used);
    for (let steps = fewest; steps <= left; steps++) all += count(place + 1, left - steps, used + 1);
    return all;
  };
  return count(0, units, 0);
}

describe("the size of a search", () => {
  test("recipes in whole steps are as many as there are one by one, with solids that must be used or without", () => {
    for (const kept of [0, 1, 2]) {
      for (const parts of [2, 3, 5]) {
        const own = { ...terms, kept, parts, step: 0.1 };
        expect(searchSize(own).recipes).toBe(recipesOneByOne(own, 10, 1));
      }
    }
  });

  test("without a least share only the largest sets are tried; with one, every size that it leaves room for", () => {
    expect(searchSize(terms)).toMatchObject({ sizes: [3], sets: 10, recipes: 0 });
    expect(searchSize({ ...terms, leastShare: 0.4 })).toMatchObject({ sizes: [1, 2], largest: 2, sets: 15 });
    expect(searchSize({ ...terms, leastShare: 0.1, kept: 2 })).toMatchObject({ sizes: [2, 3], sets: 1 + 3 });
    expect(searchSize({ ...terms, parts: 9 }).sizes).toEqual([5]);
  });

  test("smaller sets are looked over where they are few and not tried already", () => {
    expect(isLookedOver(2, 5, searchSize(terms))).toBe(true);
    expect(isLookedOver(3, 5, searchSize(terms))).toBe(false);
    expect(isLookedOver(4, 100, searchSize({ ...terms, solids: 100, parts: 5 }))).toBe(false);
  });

  test("more solids or lights are never less work within one way of searching, and nothing takes none", () => {
    for (const parts of [1, 2, 4, 8]) {
      let before = 0;
      for (let solids = parts; solids < 60; solids++) {
        const own = { ...terms, solids, parts };
        const effort = searchEffort(own, 1);
        expect(searchEffort(own, 2)).toBeGreaterThan(effort);
        const { sets } = searchSize(own);
        // Where a coarser search takes over, or smaller sets are no longer looked over, work falls.
        if (sets > 2000 && sets <= MOST_SUBSETS && before > 0) expect(effort).toBeGreaterThan(before);
        before = sets > 2000 ? effort : 0;
        expect(effort).toBeGreaterThan(0);
      }
    }
  });
});
