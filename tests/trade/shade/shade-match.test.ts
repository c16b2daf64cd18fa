import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import { additiveValues, blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { bestRecipes, cheapestRecipes, type MatchWish, type Recipe } from "../../../src/trade/shade/shade-match";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { Refinement } from "../../../src/trade/shade/shade-refinement";
import { eachSubset } from "../../../src/trade/shade/subsets";
import { SimplexLeastSquares } from "../../../src/trade/solvers/simplex-least-squares";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { TEXTILES } from "../../support/measured-textiles";
import { cases } from "../../support/random-cases";

const MODEL = fibreModel(0.15);
const ALL = [...TEXTILES.values()];
/** Beyond this CIEDE2000 itself jumps where a grey's hue is opposite the target's, and neighbours cannot be compared. */
const OUT_OF_REACH = 8;
/** Over so many units off, a nearest recipe is no match. */
const REFUSED = 15;

function wish(
  target: readonly number[],
  solids: readonly (readonly number[])[],
  more: Partial<MatchWish> = {},
): MatchWish {
  return { target, solids, parts: 4, leastShare: 0, model: MODEL, lights: [DAYLIGHT], step: 0, choices: 1, ...more };
}

function best(
  target: readonly number[],
  solids: readonly (readonly number[])[],
  more: Partial<MatchWish> = {},
): Recipe {
  return bestRecipes(wish(target, solids, more)).recipes[0]!;
}

function differenceOf(target: readonly number[], { reflectance }: Recipe): number {
  return difference2000(labOf(target, DAYLIGHT), labOf(reflectance, DAYLIGHT));
}

function sumOf(shares: readonly number[]): number {
  return shares.reduce((sum, share) => sum + share, 0);
}

/** Some of the measured textiles, in random order. */
function textiles(count: number): fc.Arbitrary<(readonly number[])[]> {
  return fc.shuffledSubarray(ALL, { minLength: count, maxLength: count });
}

/** Shares that sum to 1, each at least 0.02. */
function sharesOf(count: number): fc.Arbitrary<number[]> {
  return fc
    .array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: count, maxLength: count })
    .map((parts) => parts.map((part) => part / sumOf(parts)));
}

describe("known blends are found again", () => {
  test("all of eight solids used", () => {
    fc.assert(
      fc.property(textiles(8), sharesOf(8), (solids, shares) => {
        const found = best(Array.from(blended(shares, solids, MODEL)), solids, { parts: 8 });
        shares.forEach((share, index) => expect(Math.abs(found.shares[index]! - share)).toBeLessThan(1e-7));
      }),
      { numRuns: 60 },
    );
  });
  test("four of ten", () => {
    fc.assert(
      fc.property(textiles(10), sharesOf(4), (solids, shares) => {
        const found = best(Array.from(blended([...shares, 0, 0, 0, 0, 0, 0], solids, MODEL)), solids);
        solids.forEach((_, index) => expect(Math.abs(found.shares[index]! - (shares[index] ?? 0))).toBeLessThan(1e-7));
      }),
      { numRuns: 15 },
    );
  });
  test("three of 34, out of 46,376 sets of four", () => {
    const shares = ALL.map((_, index) => ({ 3: 0.5, 12: 0.3, 27: 0.2 })[index] ?? 0);
    const target = Array.from(blended(shares, ALL, MODEL));
    const { recipes, search } = bestRecipes(wish(target, ALL));
    expect(search).toBe("near-best");
    shares.forEach((share, index) => expect(Math.abs(recipes[0]!.shares[index]! - share)).toBeLessThan(1e-7));
  });
  test("three of 34, one at a time, out of 1,344,904 sets of six", () => {
    const shares = ALL.map((_, index) => ({ 3: 0.5, 12: 0.3, 27: 0.2 })[index] ?? 0);
    const target = Array.from(blended(shares, ALL, MODEL));
    const solved = vi.spyOn(SimplexLeastSquares.prototype, "solve");
    const refined = vi.spyOn(Refinement.prototype, "from");
    const { recipes, search } = bestRecipes(wish(target, ALL, { parts: 6 }));
    const [solutions, refinements] = [solved.mock.calls.length, refined.mock.calls.length];
    vi.restoreAllMocks();
    expect(search).toBe("heuristic");
    expect(differenceOf(target, recipes[0]!)).toBeLessThan(0.01);
    // Each blend that is looked at once: a shade within reach has one valley.
    expect(solutions).toBeLessThan(10_000);
    expect(refinements).toBeLessThan(500);
  });
  test("one at a time: every recipe of the list has another set of solids", () => {
    const shares = ALL.map((_, index) => ({ 1: 0.3, 8: 0.25, 15: 0.2, 22: 0.15, 30: 0.1 })[index] ?? 0);
    const target = Array.from(blended(shares, ALL, MODEL));
    const { recipes, search } = bestRecipes(wish(target, ALL, { parts: 5, choices: 60 }));
    expect([search, recipes.length]).toEqual(["heuristic", 60]);
    const sets = recipes.map((recipe) => recipe.shares.map((share) => (share > 0 ? "x" : "-")).join(""));
    expect(new Set(sets).size).toBe(sets.length);
  });
  test("one at a time: no exchange of a single solid brings the blend nearer, in colour and curve", () => {
    const shares = ALL.map((_, index) => ({ 1: 0.3, 8: 0.25, 15: 0.2, 22: 0.15, 30: 0.1 })[index] ?? 0);
    const target = Array.from(blended(shares, ALL, MODEL));
    const objective = new ShadeObjective(target, MODEL, [DAYLIGHT]);
    const errorIn = ({ reflectance }: Recipe) => objective.measure(additiveValues(reflectance, MODEL));
    const { recipes, search } = bestRecipes(wish(target, ALL, { parts: 5 }));
    expect(search).toBe("heuristic");
    const used = recipes[0]!.shares.flatMap((share, place) => (share > 0 ? [place] : []));
    expect(used).toHaveLength(5);
    let tried = 0;
    for (const out of used) {
      for (let place = 0; place < ALL.length; place++) {
        if (used.includes(place)) continue;
        const exchanged = [...used.filter((kept) => kept !== out), place].map((kept) => ALL[kept]!);
        const other = best(target, exchanged, { parts: 5 });
        expect(errorIn(other)).toBeGreaterThan(errorIn(recipes[0]!) * 0.999 - 1e-12);
        tried++;
      }
    }
    expect(tried).toBe(used.length * (ALL.length - used.length));
  });
  test("whole percents of a recipe in whole percents", () => {
    const whole = fc.constantFrom([0.62, 0.25, 0.1, 0.03], [0.4, 0.3, 0.2, 0.1], [0.01, 0.01, 0.01, 0.97]);
    fc.assert(
      fc.property(textiles(6), whole, (solids, shares) => {
        const found = best(Array.from(blended([...shares, 0, 0], solids, MODEL)), solids, { step: 0.01 });
        expect(found.shares).toEqual([...shares, 0, 0]);
      }),
      { numRuns: 20 },
    );
  });
});

describe("every recipe", () => {
  test("sums to 1, uses no more solids than asked and each for at least the least share", () => {
    const terms = fc.record({
      parts: fc.integer({ min: 1, max: 5 }),
      leastShare: fc.constantFrom(0, 0.03, 0.05, 0.25, 0.6, 1),
      step: fc.constantFrom(0, 0.01, 0.05),
    });
    fc.assert(
      fc.property(textiles(7), terms, ([target, ...solids], more) => {
        const { recipes } = bestRecipes(wish(target!, solids, { ...more, choices: 4 }));
        expect(recipes.length).toBeGreaterThan(0);
        for (const { shares } of recipes) {
          expect(Math.abs(sumOf(shares) - 1)).toBeLessThan(1e-12);
          const used = shares.filter((share) => share > 0);
          expect(used.length).toBeLessThanOrEqual(more.parts);
          expect(Math.min(...used)).toBeGreaterThanOrEqual(more.leastShare - 1e-12);
          for (const share of more.step > 0 ? used : []) {
            expect(Math.abs(share / more.step - Math.round(share / more.step))).toBeLessThan(1e-9);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
  test("has another set of solids, and the nearest comes first", () => {
    fc.assert(
      fc.property(textiles(9), ([target, ...solids]) => {
        const { recipes, search } = bestRecipes(wish(target!, solids, { parts: 3, choices: 6 }));
        expect(search).toBe("all");
        expect(recipes.length).toBeGreaterThan(3);
        expect(recipes.length).toBeLessThanOrEqual(6);
        const sets = recipes.map(({ shares }) => shares.map((share) => (share > 1e-9 ? 1 : 0)).join(""));
        expect(new Set(sets).size).toBe(recipes.length);
        const differences = recipes.map((recipe) => differenceOf(target!, recipe));
        // Differences within some thousandths rank by the nearer curve.
        differences.slice(1).forEach((value, index) => expect(value).toBeGreaterThan(differences[index]! - 0.02));
      }),
      { numRuns: 25 },
    );
  });
  test("a target that is one of the solids is that solid alone", () => {
    fc.assert(
      fc.property(textiles(6), fc.integer({ min: 0, max: 5 }), (solids, chosen) => {
        const { shares } = best(solids[chosen]!, solids);
        expect(Math.abs(shares[chosen]! - 1)).toBeLessThan(1e-9);
      }),
      { numRuns: 40 },
    );
  });
  test("one solid returns itself, whatever the target", () => {
    fc.assert(
      fc.property(textiles(2), ([target, solid]) => {
        expect(best(target!, [solid!]).shares).toEqual([1]);
      }),
    );
  });
});

describe("properties of the search", () => {
  test("another solid to choose from never worsens the match", () => {
    fc.assert(
      fc.property(textiles(8), fc.integer({ min: 1, max: 3 }), ([target, ...solids], parts) => {
        let before = Infinity;
        for (let count = parts; count <= solids.length; count++) {
          const difference = differenceOf(target!, best(target!, solids.slice(0, count), { parts }));
          expect(difference).toBeLessThanOrEqual(before + 0.01);
          before = Math.min(before, difference);
        }
      }),
      { numRuns: 40 },
    );
  });
  test("nor does one more that the recipe may use", () => {
    fc.assert(
      fc.property(textiles(7), ([target, ...solids]) => {
        let before = Infinity;
        for (let count = 1; count <= solids.length; count++) {
          const difference = differenceOf(target!, best(target!, solids.slice(0, count), { parts: count }));
          expect(difference).toBeLessThanOrEqual(before + 0.01);
          before = Math.min(before, difference);
        }
      }),
      { numRuns: 60 },
    );
  });
  test("permuting the solids permutes the answer", () => {
    fc.assert(
      fc.property(textiles(6), fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 }), ([target, ...solids], order) => {
        const plain = best(target!, solids, { parts: 3 });
        const permuted = best(
          target!,
          order.map((place) => solids[place]!),
          { parts: 3 },
        );
        order.forEach((place, index) => expect(permuted.shares[index]).toBe(plain.shares[place]));
      }),
      { numRuns: 40 },
    );
  });
  test("no recipe on a fine grid of two or three solids is nearer, for shades within reach", () => {
    fc.assert(
      fc.property(textiles(4), ([target, ...solids]) => {
        const found = differenceOf(target!, best(target!, solids, { parts: 3 }));
        fc.pre(found < OUT_OF_REACH);
        for (let first = 0; first <= 40; first++) {
          for (let second = 0; first + second <= 40; second++) {
            const shares = [first / 40, second / 40, (40 - first - second) / 40];
            const reflectance = blended(shares, solids, MODEL);
            expect(found).toBeLessThanOrEqual(differenceOf(target!, { shares, reflectance }) + 0.01);
          }
        }
      }),
      { numRuns: 15 },
    );
  });
  // Shades that no blend of the solids comes near; found among random ones, where a single descent ends too high.
  test.each([
    [4, [29, 17, 16, 8, 2]],
    [31, [15, 20, 33, 25, 28]],
    [31, [15, 5, 26, 27, 22]],
    [24, [21, 1, 26, 17, 32]],
    [4, [33, 29, 7, 3, 16]],
  ] as const)("nor, for shade %d out of reach of %j, is one in twentieths nearer by a tenth", (shade, places) => {
    const target = ALL[shade]!;
    const solids = places.map((place) => ALL[place]!);
    const found = differenceOf(target, best(target, solids));
    const recipes: number[][] = [];
    const extend = (counts: readonly number[], left: number): void => {
      if (counts.length === 4) recipes.push([...counts, left]);
      else for (let count = 0; count <= left; count++) extend([...counts, count], left - count);
    };
    extend([], 20);
    expect(recipes).toHaveLength(10_626);
    let nearest = Infinity;
    for (const counts of recipes) {
      if (counts.every((count) => count > 0)) continue;
      const shares = counts.map((count) => count / 20);
      const reflectance = blended(shares, solids, MODEL);
      nearest = Math.min(nearest, differenceOf(target, { shares, reflectance }));
    }
    expect(found).toBeGreaterThan(15);
    expect(found).toBeLessThan(nearest + 0.1);
  });
  test("with two lights the mean square over both is no worse than that of the match in one", () => {
    const second = LIGHTS.find(({ word }) => word === "A/10")!;
    const both = (target: readonly number[], { reflectance }: Recipe): number =>
      [DAYLIGHT, second]
        .map((light) => difference2000(labOf(target, light), labOf(reflectance, light)) ** 2)
        .reduce((sum, square) => sum + square / 2, 0);
    fc.assert(
      fc.property(textiles(7), ([target, ...solids]) => {
        const inOne = best(target!, solids, { parts: 3 });
        fc.pre(both(target!, inOne) < 16);
        const inBoth = best(target!, solids, { parts: 3, lights: [DAYLIGHT, second] });
        expect(both(target!, inBoth)).toBeLessThanOrEqual(both(target!, inOne) + 0.001);
      }),
      { numRuns: 25 },
    );
  });
});

describe("what is left out of the search could not have won", () => {
  const objectiveOf = (
    target: readonly number[],
    { shares }: Recipe,
    solids: readonly (readonly number[])[],
  ): number => {
    const values = new Float64Array(31);
    solids.forEach((solid, index) =>
      additiveValues(solid, MODEL).forEach((value, band) => (values[band]! += shares[index]! * value)),
    );
    return new ShadeObjective(target, MODEL, [DAYLIGHT]).measure(values);
  };

  /** Each set of solids alone, with nothing to compare it with, so that the search cannot give it up early. */
  function bestAlone(target: readonly number[], solids: readonly (readonly number[])[], parts: number): number {
    let least = Infinity;
    eachSubset(solids.length, parts, (used) => {
      const own = used.map((place) => solids[place]!);
      least = Math.min(least, objectiveOf(target, best(target, own, { parts }), own));
    });
    return least;
  }

  test("no set of solids alone comes nearer", () => {
    fc.assert(
      fc.property(textiles(8), fc.integer({ min: 1, max: 4 }), ([target, ...solids], parts) => {
        const recipe = best(target!, solids, { parts });
        if (differenceOf(target!, recipe) > OUT_OF_REACH) return;
        const found = objectiveOf(target!, recipe, solids);
        expect(found).toBeLessThanOrEqual(bestAlone(target!, solids, parts) * (1 + 1e-6) + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test("in coarse steps, more solids to choose from never make a worse recipe", () => {
    fc.assert(
      fc.property(textiles(8), fc.constantFrom(0.05, 0.1, 0.2), ([target, ...solids], step) => {
        let before = Infinity;
        for (let parts = 1; parts <= 5; parts++) {
          const now = objectiveOf(target!, best(target!, solids, { parts, step }), solids);
          expect(now).toBeLessThanOrEqual(before * (1 + 1e-9));
          before = now;
        }
      }),
      { numRuns: 40 },
    );
  });

  test("shares are written out to nine decimals and sum to 1", () => {
    fc.assert(
      fc.property(textiles(6), ([target, ...solids]) => {
        const { shares } = best(target!, solids);
        const parts = shares.map((share) => Math.round(share * 1e9));
        expect(parts.map((part) => part / 1e9)).toEqual(shares);
        expect(sumOf(parts)).toBe(1e9);
      }),
      { numRuns: 60 },
    );
  });
});

describe("what is written out", () => {
  test("of sevenths each is rounded, and the greatest takes what is left of the whole", () => {
    fc.assert(
      fc.property(textiles(4), fc.shuffledSubarray([3, 2, 1, 1], { minLength: 4 }), (solids, sevenths) => {
        const target = Array.from(
          blended(
            sevenths.map((part) => part / 7),
            solids,
            MODEL,
          ),
        );
        const { shares, reflectance } = best(target, solids);
        // 3/7, 2/7 and 1/7 are all rounded up, by more than a thousand-millionth together.
        const written = new Map([[1, 0.142857143], [2, 0.285714286], [3, 0.428571428]]); // prettier-ignore
        expect(shares).toEqual(sevenths.map((part) => written.get(part)));
        expect(reflectance).toEqual(blended(shares, solids, MODEL));
      }),
      { numRuns: 20 },
    );
  });
});

test("of sets that come equally near the first comes first, where a solid is there twice", () => {
  const [target, one, other] = ALL.slice(0, 3) as [number[], number[], number[]];
  for (const step of [0, 0.01]) {
    const setsOf = (solids: readonly (readonly number[])[], parts: number): string[] =>
      bestRecipes(wish(target, solids, { parts, step, leastShare: 0.1, choices: 9 })).recipes.map(({ shares }) =>
        shares.map((share) => (share > 0 ? "x" : "-")).join(""),
      );
    expect(setsOf([one, one], 2)).toEqual(["x-", "xx", "-x"]);
    const all = setsOf([one, other, one], 2);
    expect(all).toHaveLength(6);
    for (const [before, after] of [
      ["xx-", "-xx"],
      ["x--", "--x"],
      ["x--", "x-x"],
      ["x-x", "--x"],
    ] as const) {
      expect(all.indexOf(before)).toBeLessThan(all.indexOf(after));
    }
  }
});

describe("in whole steps", () => {
  test("shares are the steps themselves and not written out", () => {
    const [target, ...solids] = ALL.slice(0, 5) as [number[], ...number[][]];
    const { shares } = best(target, solids, { step: 1 / 7 });
    for (const share of shares) expect(share).toBe(Math.round(share * 7) / 7);
  });

  test("in fine steps a shade that is no recipe in them gets one that is", () => {
    const [target, ...solids] = ALL.slice(4, 10) as [number[], ...number[][]];
    const { recipes, search } = bestRecipes(wish(target, solids, { step: 0.005, choices: 3 }));
    expect([search, recipes.length]).toEqual(["all", 3]);
    for (const { shares } of recipes) expect(shares).toEqual(shares.map((share) => Math.round(share * 200) / 200));
    const most = solids.map(() => 0.15);
    expect(bestRecipes(wish(target, solids, { step: 0.005, mostShares: most })).recipes).toEqual([]);
  });

  test("so few recipes are all tried, however many sets of solids there are", () => {
    const target = Array.from(blended([0.5, 0.5], [ALL[13]!, ALL[30]!], MODEL));
    const { recipes, search } = bestRecipes(wish(target, ALL, { step: 0.5 }));
    // 34 solids alone and 561 pairs.
    expect(search).toBe("all");
    expect(recipes[0]!.shares).toEqual(ALL.map((_, place) => (place === 13 || place === 30 ? 0.5 : 0)));
  });
});

describe("the nearest of each set of solids", () => {
  /**
   * Each set of solids by itself, and of those the nearest, each of other solids: with a least share sets of every size,
   * where each must be used for that much; without, the largest, of which some may come to 0.
   */
  function oneByOne(asked: MatchWish): Recipe[] {
    const { solids, target, model, lights, parts, leastShare } = asked;
    const sizes = leastShare > 0 ? Array.from({ length: parts }, (_, index) => index + 1) : [parts];
    const errorOf = ({ reflectance }: Recipe): number =>
      new ShadeObjective(target, model, lights).measure(additiveValues(reflectance, model));
    const all: Recipe[] = [];
    for (const size of sizes) {
      eachSubset(solids.length, size, (places) => {
        const own = places.map((place) => solids[place]!);
        if (size * leastShare > 1) return;
        const terms = { solids: own, leastShares: own.map(() => leastShare), leastShare: 0, choices: 1 };
        const [found] = bestRecipes({ ...asked, ...terms }).recipes;
        const shares = solids.map((_, place) => found?.shares[places.indexOf(place)] ?? 0);
        if (found) all.push({ shares, reflectance: found.reflectance });
      });
    }
    const sets = new Map<string, Recipe>();
    for (const recipe of all) {
      const set = recipe.shares.map((share) => (share > 1e-9 ? 1 : 0)).join("");
      const known = sets.get(set);
      if (!known || errorOf(recipe) < errorOf(known)) sets.set(set, recipe);
    }
    return [...sets.values()].sort((a, b) => errorOf(a) - errorOf(b)).slice(0, asked.choices);
  }

  test("stand in the list, too, where the shade is far out of reach and no blend tells of another", () => {
    // Found among random ones: without each set looked at alone the second is missing.
    const solids = [23, 2, 21, 12, 15, 14, 32].map((place) => ALL[place]!);
    const asked = wish(ALL[31]!, solids, { leastShare: 0.2, choices: 3 });
    const { recipes } = bestRecipes(asked);
    expect(recipes.map(({ shares }) => shares.map((share) => share.toFixed(6)))).toEqual(oneByOne(asked).map(({ shares }) => shares.map((share) => share.toFixed(6)))); // prettier-ignore
  });

  test("stand in the list, and none that is nearer is missing, for shades within reach", () => {
    const terms = fc.record({
      parts: fc.integer({ min: 1, max: 3 }),
      leastShare: fc.constantFrom(0, 0, 0.1, 0.3),
      choices: fc.integer({ min: 1, max: 5 }),
    });
    fc.assert(
      fc.property(textiles(6), sharesOf(5), terms, ([stranger, ...solids], shares, more) => {
        const own = shares.map((share) => 0.9 * share);
        const target = Array.from(blended([0.1, ...own], [stranger!, ...solids], MODEL));
        const asked = wish(target, solids, more);
        const expected = oneByOne(asked);
        fc.pre(differenceOf(target, expected[0]!) < OUT_OF_REACH);
        const { recipes } = bestRecipes(asked);
        expect(recipes.map((one) => one.shares.map((share) => share.toFixed(8)))).toEqual(
          expected.map((one) => one.shares.map((share) => share.toFixed(8))),
        );
      }),
      { numRuns: 240 },
    );
  });
});

describe("against full enumeration", () => {
  const EVENING = LIGHTS.find(({ word }) => word === "A/10")!;
  const terms = fc.record({
    parts: fc.integer({ min: 1, max: 4 }),
    step: fc.constantFrom(0, 0, 0.1, 0.05),
    lights: fc.constantFrom([DAYLIGHT], [DAYLIGHT], [DAYLIGHT, EVENING]),
    limits: fc.constantFrom("none", "none", "least", "most"),
    within: fc.boolean(),
  });
  type Terms = typeof terms extends fc.Arbitrary<infer T> ? T : never;

  /** The mean square difference over the lights, with the little that the curves count. */
  function errorOf(target: readonly number[], { reflectance }: Recipe, { lights }: Terms): number {
    return new ShadeObjective(target, MODEL, lights).measure(additiveValues(reflectance, MODEL));
  }

  function limitsOf({ limits }: Terms, count: number): Partial<MatchWish> {
    if (limits === "least")
      return { leastShares: Array.from({ length: count }, (_, place) => (place === 0 ? 0.2 : 0)) };
    if (limits === "most") return { mostShares: Array.from({ length: count }, (_, place) => (place % 2 ? 0.4 : 0.7)) };
    return {};
  }

  /** The nearest of every recipe in steps, or of every set of solids by itself. */
  function enumerated(target: readonly number[], solids: readonly (readonly number[])[], all: Terms): number {
    const { leastShares, mostShares } = limitsOf(all, solids.length);
    let nearest = Infinity;
    const consider = (shares: readonly number[]): void => {
      const recipe = { shares, reflectance: blended(shares, solids, MODEL) };
      nearest = Math.min(nearest, errorOf(target, recipe, all));
    };
    if (all.step === 0) {
      for (let parts = 1; parts <= all.parts; parts++) {
        eachSubset(solids.length, parts, (places) => {
          const only = <T>(values: readonly T[]): T[] => places.map((place) => values[place]!);
          if (leastShares?.some((least, place) => least > 0 && !places.includes(place))) return;
          if (mostShares && sumOf(only(mostShares)) < 1) return;
          const own = { leastShares: leastShares && only(leastShares), mostShares: mostShares && only(mostShares) };
          const { shares } = best(target, only(solids), { ...own, parts, lights: all.lights });
          const whole = solids.map((_, place) => (places.includes(place) ? shares[places.indexOf(place)]! : 0));
          consider(whole);
        });
      }
      return nearest;
    }
    const units = Math.round(1 / all.step);
    const [least, most] = [leastShares ?? solids.map(() => 0), mostShares ?? solids.map(() => 1)];
    const extend = (counts: readonly number[], left: number, used: number): void => {
      const place = counts.length;
      if (place === solids.length) {
        if (left === 0) consider(counts.map((count) => count / units));
        return;
      }
      for (let count = 0; count <= left; count++) {
        const share = count / units;
        if (share < least[place]! - 1e-9 || share > most[place]! + 1e-9) continue;
        if (used + (count > 0 ? 1 : 0) <= all.parts)
          extend([...counts, count], left - count, used + (count > 0 ? 1 : 0));
      }
    };
    extend([], units, 0);
    return nearest;
  }

  test("no recipe, reachable or not, in steps, under two lights or within limits, is worse", () => {
    const worse: string[] = [];
    let [compared, refused] = [0, 0];
    fc.assert(
      fc.property(textiles(6), sharesOf(5), terms, ([shade, ...solids], shares, all) => {
        const target = all.within ? Array.from(blended(shares, solids, MODEL)) : shade!;
        const most = limitsOf(all, solids.length).mostShares;
        fc.pre(most === undefined || all.parts >= 3);
        const { parts, step, lights } = all;
        const asked = { parts, step, lights, ...limitsOf(all, solids.length) };
        const least = enumerated(target, solids, all);
        // What is further off is refused as a match, and shown among several choices.
        const choices = least > REFUSED ** 2 ? 2 : 1;
        if (choices > 1) refused++;
        const found = errorOf(target, best(target, solids, { ...asked, choices }), all);
        compared++;
        if (found > least + 1e-9)
          worse.push(`${found - least} of ${least}: ${JSON.stringify({ ...all, lights: lights.length })}`);
      }),
      { numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(cases(60) / 2);
    expect(refused).toBeGreaterThan(0);
    expect(worse).toEqual([]);
  }, 3_600_000);
});

describe("what a search has learnt spares it most of the sets", () => {
  const [ten, eight] = [ALL.slice(0, 10), ALL.slice(20, 28)];
  const near = Array.from(
    blended(
      [0.4, 0.3, 0.2, 0.1],
      [1, 4, 6, 9].map((place) => ten[place]!),
      MODEL,
    ),
  );
  const even = (value: number) => new Array<number>(31).fill(value);

  /** How many blends are refined of the sets that there are. */
  function refined(asked: MatchWish, search = bestRecipes): number {
    const from = vi.spyOn(Refinement.prototype, "from");
    expect(search(asked).search).toBe("all");
    const count = from.mock.calls.length;
    from.mockRestore();
    expect(count).toBeGreaterThan(0);
    return count;
  }

  test("within reach: no more than one in 25 of 210 sets of four, for five of them one in 15", () => {
    expect(refined(wish(near, ten))).toBeLessThan(210 / 25);
    expect(refined(wish(near, ten, { choices: 5 }))).toBeLessThan(210 / 15);
  });

  test("with a least share: a tenth of the 385 sets of one to four, for five of them a sixth", () => {
    expect(refined(wish(near, ten, { leastShare: 0.05 }))).toBeLessThan(385 / 10);
    expect(refined(wish(near, ten, { leastShare: 0.05, choices: 5 }))).toBeLessThan(385 / 6);
    for (const place of [11, 30, 33]) expect(refined(wish(ALL[place]!, ten, { leastShare: 0.05 }))).toBeLessThan(38.5);
  });

  test("out of reach, where it is looked for twice: a tenth of 210 sets, in fine steps of 385", () => {
    for (const place of [11, 30, 33]) {
      expect(refined(wish(ALL[place]!, ten))).toBeLessThan(21);
      expect(refined(wish(ALL[place]!, ten, { step: 0.005 }))).toBeLessThan(38.5);
    }
  });

  test("what all sets have in common is worked out once, and few blends are worked out to all digits", () => {
    for (const target of [near, ALL[11]!]) {
      const measured = vi.spyOn(ShadeObjective.prototype, "at");
      bestRecipes(wish(target, ten));
      // The target, three times, and where the search ended: the one asked for and five to spare.
      expect(measured.mock.calls.length).toBeLessThanOrEqual(3 + 6);
      measured.mockRestore();
    }
  });

  test("the cheapest within a difference: sets that come no nearer than it are given up", () => {
    const prices = ten.map((_, place) => 10 + ((place * 7) % 10));
    const count = refined(wish(near, ten, { leastShare: 0.05 }), (asked) => cheapestRecipes(asked, prices, 0.5));
    // Fewer looks than there are sets, and making a blend cheaper takes some thirty.
    expect(count).toBeLessThan(385);
  });

  test("far out of reach, where the smaller sets are looked over too: less than each once", () => {
    // 10 solids alone, 45 pairs, 120 threes and 210 fours, from two starts each.
    for (const shade of [even(0.004), even(0.97), ALL[17]!]) expect(refined(wish(shade, ten))).toBeLessThan(385);
    for (const place of [11, 30]) expect(refined(wish(ALL[place]!, eight, { parts: 3 }))).toBeLessThan(92);
  });
});
