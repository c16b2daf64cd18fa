import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { DAYLIGHT } from "../../../src/tables/lights";
import { bestAdditions, type AdditionWish } from "../../../src/trade/shade/additions";
import { additiveValues, blended, fibreModel } from "../../../src/trade/shade/blend-models";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { Refinement } from "../../../src/trade/shade/shade-refinement";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { TEXTILES } from "../../support/measured-textiles";

const MODEL = fibreModel(0.15);
const ALL = [...TEXTILES.values()];
const MASS = 200;
const textiles = (count: number) => fc.shuffledSubarray(ALL, { minLength: count, maxLength: count });
const sumOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

function wish(
  target: readonly number[],
  batch: readonly number[],
  solids: readonly (readonly number[])[],
  more: Partial<AdditionWish> = {},
): AdditionWish {
  const most = solids.map(() => MASS);
  return { target, batch, batchMass: MASS, solids, most, model: MODEL, lights: [DAYLIGHT], step: 0, ...more };
}

/** The error of a batch with additions: the blend of all that is in it, by mass. */
function errorAfter({ target, batch, solids }: AdditionWish): (added: readonly number[]) => number {
  const objective = new ShadeObjective(target, MODEL, [DAYLIGHT]);
  return (added) => {
    const mass = MASS + sumOf(added);
    const shares = [MASS, ...added].map((part) => part / mass);
    return objective.measure(additiveValues(blended(shares, [batch, ...solids], MODEL), MODEL));
  };
}

describe("additions to a batch", () => {
  test("that were left out are found: the batch with them is the target", () => {
    const masses = fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 60 }));
    fc.assert(
      fc.property(textiles(3), masses, ([batch, ...solids], added) => {
        const mass = MASS + sumOf(added);
        const shares = [MASS, ...added].map((part) => part / mass);
        const target = Array.from(blended(shares, [batch!, ...solids], MODEL));
        const far = difference2000(labOf(target, DAYLIGHT), labOf(batch!, DAYLIGHT));
        fc.pre(far > 0.2 && far < 12);
        const found = bestAdditions(wish(target, batch!, solids));
        found.forEach((addition, place) => expect(addition).toBeCloseTo(added[place]!, 3));
      }),
      { numRuns: 60 },
    );
  });

  test("are never negative, never over the most, and never make the shade worse", () => {
    const most = fc.array(fc.constantFrom(0, 5, 20, 200), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(textiles(7), most, fc.constantFrom(0, 0.5, 10), ([target, batch, ...solids], limits, step) => {
        const terms = wish(target!, batch!, solids, { most: limits, step });
        const added = bestAdditions(terms);
        const errorOf = errorAfter(terms);
        added.forEach((addition, place) => {
          expect(addition).toBeGreaterThanOrEqual(0);
          expect(addition).toBeLessThanOrEqual(limits[place]! + 1e-6);
          if (step > 0) expect(Math.abs(addition / step - Math.round(addition / step))).toBeLessThan(1e-9);
          // Written out to a thousandth of a millionth of the batch, and the limit itself where that is what it comes to.
          else if (addition !== limits[place]) {
            const parts = (addition / MASS) * 1e9;
            expect(Math.abs(parts - Math.round(parts))).toBeLessThan(1e-6);
            expect(Math.abs(addition - limits[place]!)).toBeGreaterThan(1e-8 * MASS);
          }
        });
        expect(added.filter((addition) => addition > 0).length).toBeLessThanOrEqual(3);
        expect(errorOf(added)).toBeLessThanOrEqual(errorOf(solids.map(() => 0)));
      }),
      { numRuns: 80 },
    );
  });

  test("in steps: none of all additions within the most brings the batch nearer", () => {
    fc.assert(
      fc.property(textiles(4), fc.constantFrom(30, 60), ([stranger, batch, ...solids], limit) => {
        // Within reach: a blend of all with a little of a stranger.
        const target = Array.from(blended([0.05, 0.75, 0.15, 0.05], [stranger!, batch!, ...solids], MODEL));
        const terms = wish(target, batch!, solids, { most: [limit, limit], step: 10 });
        const errorOf = errorAfter(terms);
        let nearest = errorOf([0, 0]);
        for (let first = 0; first <= limit; first += 10) {
          for (let second = 0; second <= limit; second += 10) nearest = Math.min(nearest, errorOf([first, second]));
        }
        expect(errorOf(bestAdditions(terms))).toBeLessThanOrEqual(nearest + 2e-4);
      }),
      { numRuns: 80 },
    );
  });

  test("any masses: no additions of a fine grid within the most bring the batch nearer", () => {
    fc.assert(
      fc.property(textiles(5), ([stranger, batch, ...solids]) => {
        const target = Array.from(blended([0.05, 0.65, 0.15, 0.1, 0.05], [stranger!, batch!, ...solids], MODEL));
        const most = [20, 200, 50];
        const terms = wish(target, batch!, solids, { most });
        const errorOf = errorAfter(terms);
        const found = errorOf(bestAdditions(terms));
        for (let first = 0; first <= 20; first += 5) {
          for (let second = 0; second <= 200; second += 10) {
            for (let third = 0; third <= 50; third += 5) {
              expect(found).toBeLessThanOrEqual(errorOf([first, second, third]) + 2e-4);
            }
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  test("are none where the batch is the target already, or nothing may be added", () => {
    const [batch, ...solids] = ALL.slice(0, 5) as [number[], ...number[][]];
    expect(bestAdditions(wish(batch, batch, solids))).toEqual([0, 0, 0, 0]);
    expect(bestAdditions(wish(ALL[7]!, batch, solids, { most: [0, 0, 0, 0] }))).toEqual([0, 0, 0, 0]);
  });

  test("reach the limit itself, to the last digit, and stay below one that is a little more than is wanted", () => {
    const [batch, one] = ALL.slice(2, 4) as [number[], number[]];
    // Of a blend of 3 : 1 a third of the batch is missing.
    const target = Array.from(blended([0.75, 0.25], [batch, one], MODEL));
    for (const most of [20, 66.6, 1 / 3])
      expect(bestAdditions(wish(target, batch, [one], { most: [most] }))).toEqual([most]);
    expect(bestAdditions(wish(target, batch, [one], { most: [200] }))[0]).toBeCloseTo(200 / 3, 6);
    expect(bestAdditions(wish(target, batch, [one], { most: [200], step: 10 }))[0]).toBeCloseTo(70, 9);
    expect(bestAdditions(wish(target, batch, [one], { most: [66], step: 10 }))[0]).toBeCloseTo(60, 9);
    // What is missing cannot be seen, and is not worth weighing for.
    expect(bestAdditions(wish(Array.from(blended([0.99999, 0.00001], [batch, one], MODEL)), batch, [one]))).toEqual([
      0,
    ]);
  });

  test("scale with the batch", () => {
    fc.assert(
      fc.property(textiles(5), fc.constantFrom(0.1, 3, 1000), ([target, batch, ...solids], times) => {
        const small = bestAdditions(wish(target!, batch!, solids));
        const large = bestAdditions(
          wish(target!, batch!, solids, { batchMass: MASS * times, most: solids.map(() => MASS * times) }),
        );
        large.forEach((addition, place) => expect(addition / times).toBeCloseTo(small[place]!, 4));
      }),
      { numRuns: 25 },
    );
  });

  // Found among random ones: from least squares alone, or from the batch alone, the way ends in a worse valley.
  test.each([
    [1, 16, [6, 26, 31, 30], [200, 50, 2000, 200]],
    [30, 27, [24, 28, 17], [5, 20, 20]],
    [24, 23, [15], [2000]],
    [3, 24, [31, 4, 20, 8], [2000, 50, 200, 200]],
  ] as const)(
    "for shade %d far out of reach of %d and %j no additions of a grid bring it nearer",
    (shade, batch, places, most) => {
      const solids = places.map((place) => ALL[place]!);
      const terms = wish(ALL[shade]!, ALL[batch]!, solids, { most });
      const errorOf = errorAfter(terms);
      const grid = most.reduce<number[][]>((all, limit) => ([] as number[][]).concat(...all.map((one) => [0, 1, 4, 9, 16].map((part) => [...one, (limit * part) / 16]))), [[]]); // prettier-ignore
      expect(errorOf(bestAdditions(terms))).toBeLessThanOrEqual(Math.min(...grid.map(errorOf)) + 1e-6);
    },
  );

  // Found among random ones: from nothing added, or from as much as may be, steps up and down end in a worse valley.
  test("in steps none of all additions within the most brings the batch nearer, also where two ways lead down", () => {
    const [stranger, batch, ...solids] = [18, 4, 0, 30, 24].map((place) => ALL[place]!);
    const masses = [25, MASS, 25, 45, 30];
    const whole = sumOf(masses);
    const target = Array.from(blended(masses.map((mass) => mass / whole), [stranger!, batch!, ...solids], MODEL)); // prettier-ignore
    const terms = wish(target, batch!, solids, { most: [100, 100, 200], step: 10 });
    const errorOf = errorAfter(terms);
    let nearest = Infinity;
    for (let first = 0; first <= 100; first += 10) {
      for (let second = 0; second <= 100; second += 10) {
        for (let third = 0; third <= 200; third += 10) nearest = Math.min(nearest, errorOf([first, second, third]));
      }
    }
    expect(errorOf(bestAdditions(terms))).toBeLessThan(nearest + 1e-6);
  });

  test("in steps are multiples of the step, not written out", () => {
    const [batch, one] = ALL.slice(2, 4) as [number[], number[]];
    const target = Array.from(blended([0.75, 0.25], [batch, one], MODEL));
    const [added] = bestAdditions(wish(target, batch, [one], { batchMass: 7, most: [3], step: 0.1 }));
    expect(added! / 0.1).toBeCloseTo(23, 12);
  });

  test("of many solids the three that are missing are found, after a thousand sets of them at the most", () => {
    const [batch, ...solids] = ALL.slice(0, 25) as [number[], ...number[][]];
    const missing = (count: number, masses: readonly number[]) =>
      solids.slice(0, count).map((_, place) => masses[place - count + masses.length] ?? 0);
    const blend = (count: number, masses: readonly number[]) =>
      Array.from(blended([MASS, ...missing(count, masses)].map((mass) => mass / (MASS + sumOf(masses))), [batch, ...solids.slice(0, count)], MODEL)); // prettier-ignore
    const refined = vi.spyOn(Refinement.prototype, "from");
    const most = solids.map(() => 1000);
    const found = bestAdditions(wish(blend(24, [30, 20, 40]), batch, solids, { most }));
    const count = refined.mock.calls.length;
    found.forEach((mass, place) => expect(mass).toBeCloseTo(missing(24, [30, 20, 40])[place]!, 3));
    // Of 2024 sets, some of them twice because they pass the most.
    expect(count).toBeLessThan(1500);
    refined.mockClear();
    // Of six, three are not to be had.
    const three = [0, 0, 0, 1000, 1000, 1000];
    bestAdditions(wish(blend(6, [30, 20, 40]), batch, solids.slice(0, 6), { most: three }));
    expect(refined.mock.calls.length).toBe(1);
    refined.mockRestore();
    const steps = bestAdditions(wish(blend(10, [30, 20, 40]), batch, solids.slice(0, 10), { most: most.slice(0, 10), step: 5 })); // prettier-ignore
    steps.forEach((mass, place) => expect(mass).toBeCloseTo(missing(10, [30, 20, 40])[place]!, 9));
  });

  test("of many solids are looked for among all", () => {
    const [target, batch, ...solids] = ALL.slice(0, 14) as [number[], number[], ...number[][]];
    const terms = wish(target, batch, solids);
    const errorOf = errorAfter(terms);
    const all = errorOf(bestAdditions(terms));
    for (let from = 0; from + 6 <= solids.length; from += 6) {
      const some = bestAdditions(wish(target, batch, solids.slice(from, from + 6)));
      const padded = solids.map((_, place) => some[place - from] ?? 0);
      expect(all).toBeLessThanOrEqual(errorOf(padded) + 1e-3);
    }
  });
});
