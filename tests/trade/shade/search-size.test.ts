import { describe, expect, test } from "vitest";
import {
  ALL_REFINED,
  EFFORT,
  isLookedOver,
  MOST_ALONE,
  MOST_SUBSETS,
  MOST_TRIED,
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

  test("a least share in steps is whole steps, as few as it takes, and leaves room for as many solids as they go into 1", () => {
    for (const [step, fewest] of [
      [0.01, 7],
      [0.01, 14],
      [0.005, 7],
      [0.05, 3],
      [1 / 93, 1],
      [1 / 105, 1],
    ] as const) {
      const units = Math.round(1 / step);
      const own = { ...terms, solids: 200, parts: 200, step };
      // As a cell has it, and a little less than so many steps.
      for (const leastShare of [Number((fewest * step).toFixed(12)), (fewest - 0.4) * step]) {
        expect(searchSize({ ...own, leastShare })).toMatchObject({
          units,
          leastUnits: fewest,
          least: fewest / units,
          largest: Math.floor(units / fewest),
        });
      }
    }
    expect(searchSize({ ...terms, solids: 200, parts: 200, leastShare: 1 / 93 })).toMatchObject({
      units: 0,
      least: 1 / 93,
      largest: 93,
    });
  });

  test("smaller sets are looked over up to as many as are all refined", () => {
    const pairs = { sizes: [2] };
    expect(isLookedOver(1, ALL_REFINED, pairs)).toBe(true);
    expect(isLookedOver(1, ALL_REFINED + 1, pairs)).toBe(false);
  });
});

/** Every set of solids with those that must be used in it, one by one. */
function setsOneByOne({ solids, kept }: SearchTerms, sizes: readonly number[]): number[] {
  const found: number[] = [];
  for (let set = 0; set < 2 ** solids; set++) {
    const has = Array.from({ length: solids }, (_, place) => (set >> place) & 1);
    const size = has.reduce((all, one) => all + one, 0);
    if (sizes.includes(size) && has.slice(0, kept).every((one) => one === 1)) found.push(size);
  }
  return found;
}

test("each set is looked at alone where those of all sizes, one by one, are few, and shares are in no steps", () => {
  const told = { true: 0, false: 0 };
  for (const solids of [1, 6, 9, 12]) {
    for (const kept of [0, 1, 3]) {
      for (const parts of [1, 2, 3, 5, 12]) {
        if (kept > Math.min(parts, solids)) continue;
        const own = { ...terms, solids, kept, parts };
        const upTo = Array.from({ length: Math.min(parts, solids) + 1 }, (_, size) => size);
        const few = setsOneByOne(own, upTo).length <= MOST_ALONE;
        expect(searchSize(own).eachAlone).toBe(few);
        expect(searchSize({ ...own, step: 0.1 }).eachAlone).toBe(false);
        told[few ? "true" : "false"]++;
      }
    }
  }
  expect(Math.min(told.true, told.false)).toBeGreaterThan(5);
  // Of one solid each, and none of them.
  const ofOne = (solids: number) => searchSize({ ...terms, parts: 1, solids }).eachAlone;
  expect([ofOne(MOST_ALONE - 1), ofOne(MOST_ALONE)]).toEqual([true, false]);
});

describe("the effort of a search", () => {
  const sum = (numbers: readonly number[]) => numbers.reduce((all, one) => all + one, 0);

  test("is that of its sets of solids, one by one, and of smaller ones that are looked over", () => {
    let [all, some] = [0, 0];
    for (const solids of [1, 4, 9, 12]) {
      for (const kept of [0, 1, 3]) {
        for (const parts of [1, 3, 5, 12]) {
          for (const leastShare of [0, 0.01]) {
            if (kept > Math.min(parts, solids)) continue;
            const own = { ...terms, solids, kept, parts, leastShare };
            const { sizes, largest } = searchSize(own);
            const sets = setsOneByOne(own, sizes);
            const others = Array.from({ length: largest }, (_, size) => size).filter(
              (size) => size >= kept && !sizes.includes(size),
            );
            const lookedOver = setsOneByOne({ ...own, kept: 0 }, others);
            const areAllRefined = sets.length <= ALL_REFINED;
            if (areAllRefined) all++;
            else some++;
            const work =
              EFFORT.start +
              sum(sets.map(() => EFFORT.leastSquares * largest ** 2)) +
              sum(sets.slice(0, ALL_REFINED).map(() => EFFORT.refined * largest)) +
              (areAllRefined
                ? EFFORT.first * sets.slice(0, EFFORT.mostFirst).length +
                  EFFORT.lookedOver * sum(lookedOver.map((size) => size ** 2))
                : 0);
            expect(searchEffort(own, 1)).toBeCloseTo(work, 6);
            expect(searchEffort(own, 4)).toBeCloseTo(2 * work, 6);
          }
        }
      }
    }
    expect(all).toBeGreaterThan(20);
    expect(some).toBeGreaterThan(1);
  });

  test("in few whole steps is that of every recipe, one by one", () => {
    const { start, solid, recipe } = EFFORT.recipesTried;
    for (const solids of [2, 5]) {
      for (const kept of [0, 1]) {
        const own = { ...terms, solids, kept, step: 0.1 };
        const work = start + solid * solids + recipe * recipesOneByOne(own, 10, 1);
        expect(searchEffort(own, 1)).toBeCloseTo(work, 9);
        expect(searchEffort(own, 4)).toBeCloseTo(2 * work, 9);
      }
    }
  });

  test("of one solid each rises by the same from solid to solid up to the limits of each way of searching", () => {
    const rise = (solids: number, step: number): number => {
      const effort = (more: number) => searchEffort({ ...terms, parts: 1, solids: solids + more, step }, 1);
      return effort(1) - effort(0);
    };
    for (const [limit, step] of [
      [MOST_TRIED, 0.01],
      [ALL_REFINED, 0],
      [MOST_SUBSETS, 0],
    ] as const) {
      expect(rise(limit - 1, step)).toBeCloseTo(rise(limit - 2, step), 6);
      expect(Math.abs(rise(limit, step) - rise(limit - 1, step))).toBeGreaterThan(100);
      expect(rise(limit + 1, step)).not.toBeCloseTo(rise(limit, step), 6);
    }
  });

  test("of too many sets is one exchange of each part for each solid, and a little more in steps", () => {
    const far = (solids: number, parts: number, step = 0) => searchEffort({ ...terms, solids, parts, step }, 1);
    expect(far(400, 4)).toBe(EFFORT.exchange * 400 * 4 ** 2 * 7);
    expect(far(800, 4) / far(400, 4)).toBeCloseTo(2, 12);
    expect(far(400, 6) / far(400, 3)).toBeCloseTo(4, 12);
    expect(far(400, 16) / far(400, 8)).toBeCloseTo(8, 12);
    expect(far(400, 8, 0.01) / far(400, 8)).toBeCloseTo(EFFORT.rounding, 12);
    expect(searchEffort({ ...terms, solids: 400, parts: 8 }, 4) / far(400, 8)).toBeCloseTo(2, 12);
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
