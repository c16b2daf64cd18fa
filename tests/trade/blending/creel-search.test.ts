import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { searchCreels, type Creel } from "../../../src/trade/blending/creel-search";

/** Every creel of up to so many slivers, with at least so many of each. */
function everyCreel({ least, most }: Creel): number[][] {
  const grow = ([fewest, ...rest]: readonly number[], left: number): number[][] => {
    if (fewest === undefined) return [[]];
    const creels: number[][] = [];
    for (let count = fewest; count <= left; count++)
      for (const others of grow(rest, left - count)) creels.push([count, ...others]);
    return creels;
  };
  return grow(least, most);
}

/** How far the worst share is off, in units of its latitude. */
function offOf({ wanted, counts, latitude }: Creel, slivers: readonly number[]): number {
  const masses = slivers.map((count, solid) => count * counts[solid]!);
  const all = masses.reduce((sum, mass) => sum + mass, 0);
  return Math.max(...masses.map((mass, solid) => Math.abs(mass / all - wanted[solid]!) / latitude[solid]!));
}

const creel = fc
  .array(
    fc.record({
      part: fc.integer({ min: 1, max: 20 }),
      count: fc.integer({ min: 4, max: 12 }),
      latitude: fc.integer({ min: 1, max: 3 }),
      least: fc.nat(1),
    }),
    { minLength: 2, maxLength: 4 },
  )
  .chain((solids) => fc.record({ solids: fc.constant(solids), most: fc.integer({ min: solids.length, max: 9 }) }))
  .map(({ solids, most }): Creel => {
    const all = solids.reduce((sum, { part }) => sum + part, 0);
    return {
      wanted: solids.map(({ part }) => part / all),
      counts: solids.map(({ count }) => 2.5 * count),
      latitude: solids.map(({ latitude }) => latitude / 2),
      least: solids.map(({ least }) => least),
      most,
    };
  });

describe("the search over creels", () => {
  test("visits every creel within the limits, and none with too many slivers", () => {
    fc.assert(
      fc.property(
        creel,
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 2, max: 12 }),
        (given, percent, tooMany) => {
          const off = percent / 100;
          const visited: string[] = [];
          searchCreels(given, { off: () => off, tooMany: () => tooMany }, (slivers) => visited.push(slivers.join()));
          const inAll = (slivers: readonly number[]) => slivers.reduce((sum, count) => sum + count, 0);
          const within = everyCreel(given).filter(
            (slivers) => inAll(slivers) > 0 && inAll(slivers) < tooMany && offOf(given, slivers) <= off - 1e-9,
          );
          for (const slivers of within) expect(visited).toContain(slivers.join());
          for (const text of visited) {
            const slivers = text.split(",").map(Number);
            expect(inAll(slivers)).toBeLessThan(tooMany);
            slivers.forEach((count, solid) => expect(count).toBeGreaterThanOrEqual(given.least[solid]!));
          }
        },
      ),
    );
  });

  test("visits hardly any other, and cuts few boxes for those it visits", () => {
    for (const [percent, others, cuts] of [
      [2, 1.3, 1.5],
      [5, 1.3, 2],
      [15, 1.2, 5],
    ] as const) {
      let [boxes, visits, within] = [0, 0, 0];
      const given = fc.sample(creel, { numRuns: 60, seed: 3 });
      for (const one of given) {
        const off = (): number => {
          boxes++;
          return percent / 100;
        };
        searchCreels(one, { off, tooMany: () => 100 }, () => visits++);
        within += everyCreel(one).filter((slivers) => slivers.some((count) => count > 0) && offOf(one, slivers) <= percent / 100).length; // prettier-ignore
      }
      expect(within).toBeGreaterThan(5);
      expect(visits).toBeLessThanOrEqual(others * within + 3);
      expect(boxes).toBeLessThanOrEqual(cuts * (within + given.length));
    }
  });

  test("a limit that falls while better ones are found leaves out the worse", () => {
    const given: Creel = { wanted: [0.5, 0.5], counts: [20, 20], latitude: [1, 1], least: [0, 0], most: 40 };
    let best = Infinity;
    let visits = 0;
    searchCreels(given, { off: () => Math.min(best, 0.3), tooMany: () => 41 }, (slivers) => {
      visits++;
      best = Math.min(best, offOf(given, slivers));
    });
    expect(best).toBe(0);
    expect(visits).toBeLessThan(everyCreel(given).length / 4);
  });
});
