import { describe, expect, test, vi } from "vitest";
import { MeasuredBlend, ShadeObjective } from "../../../src/trade/shade/shade-objective";
import {
  bestPair,
  furthestFall,
  mixed,
  polished,
  Refinement,
  TANGENT_SAFETY,
} from "../../../src/trade/shade/shade-refinement";
import { DAYLIGHT } from "../../../src/tables/lights";
import { additiveValues, blended } from "../../../src/trade/shade/blend-models";
import { errorIn, EVEN, exchanges, MODEL, PROBLEMS, sum } from "../../support/four-solids";
import { TEXTILES } from "../../support/measured-textiles";

describe.each(PROBLEMS.map((problem, place) => ({ ...problem, place })))("problem $place", (problem) => {
  const { objective, columns, shares } = problem;
  const error = errorIn(problem);
  const refinement = new Refinement(objective, columns.length);

  test("refining never worsens, keeps the sum and the least share, and meets a blend of the solids", () => {
    for (const least of [0, 0.05, 0.2]) {
      const guess = refinement.from(EVEN, columns, least);
      expect(guess.error).toBeLessThanOrEqual(error(EVEN));
      expect(guess.error).toBeCloseTo(error(guess.shares), 12);
      expect(Math.abs(sum(guess.shares) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...guess.shares)).toBeGreaterThanOrEqual(least - 1e-12);
    }
    if (shares) {
      const guess = refinement.from(EVEN, columns, 0);
      expect(guess.error).toBeLessThan(1e-15);
      guess.shares.forEach((share, index) => expect(share).toBeCloseTo(shares[index]!, 6));
    }
  });

  test("pulls are half the slopes of the error towards each solid, by differences of it", () => {
    const { shares: at } = refinement.from(EVEN, columns, 0.2);
    const pulls = refinement.pulls(columns);
    const size = Math.max(...pulls.map(Math.abs), 1e-6);
    const towards = (place: number, part: number) =>
      error(Array.from(at, (share, index) => (1 - part) * share + (index === place ? part : 0)));
    pulls.forEach((pull, place) => {
      const slope = (towards(place, 1e-5) - towards(place, -1e-5)) / 2e-5;
      expect(Math.abs(slope + 2 * pull), `solid ${place}`).toBeLessThan(1e-4 * size + 1e-6);
    });
    // Along the tangent the best corner of the shares is one of four.
    for (const least of [0, 0.05, 0.2]) {
      const corners = [0, 1, 2, 3].map((full) =>
        sum(Array.from(pulls, (pull, index) => pull * (least + (index === full ? 1 - 4 * least : 0)))),
      );
      expect(furthestFall(pulls, 4, least)).toBeCloseTo(2 * Math.max(...corners), 9);
    }
  });

  test("with what the shares cost added, no exchange brings error and cost together further down", () => {
    const costs = [3, 1, 6, 2];
    const costOf = (of: ArrayLike<number>) => sum(Array.from(of).map((share, index) => share * costs[index]!));
    for (const least of [0, 0.05]) {
      const guess = refinement.from(EVEN, columns, least, Infinity, costs);
      const together = error(guess.shares) + costOf(guess.shares);
      expect(guess.error).toBeCloseTo(together, 9);
      for (const step of [1e-2, 1e-3]) {
        for (const other of exchanges(guess.shares, step, least)) {
          expect(error(other) + costOf(other)).toBeGreaterThanOrEqual(together * (1 - 1e-7));
        }
      }
    }
  });

  test("given up only where no blend of them is as near as that is", () => {
    let given = 0;
    for (const least of [0, 0.05]) {
      const best = refinement.from(EVEN, columns, least);
      expect(best.settled).toBe(true);
      for (const enough of [0, best.error * 0.5, best.error * 0.99, best.error + 1e-9, best.error * 2 + 1]) {
        const guess = refinement.from(EVEN, columns, least, enough);
        if (guess.settled) expect(guess.error).toBeCloseTo(best.error, 6);
        else expect(best.error).toBeGreaterThan(enough);
        if (!guess.settled) given++;
        expect(guess.error).toBeCloseTo(error(guess.shares), 9);
      }
    }
    // Out of reach it shows before the end that these solids come no nearer.
    if (!shares) expect(given).toBeGreaterThan(0);
  });

  test("nothing outlives a search: one with room for more, used for others, answers as a new one does", () => {
    const used = new Refinement(objective, 9);
    used.from(EVEN, columns, 0, Infinity, [3, 1, 6, 2]);
    for (const places of [[0, 1, 2, 3], [2, 0], [1], [3, 1, 0]]) {
      const own = places.map((place) => columns[place]!);
      const start = Float64Array.from(places, () => 1 / places.length);
      const fresh = new Refinement(objective, places.length);
      expect(used.from(start, own, 0.01)).toEqual(fresh.from(start, own, 0.01));
      expect(used.pulls(columns)).toEqual(fresh.pulls(columns));
    }
  });

  test("a blend mixed into used room is that of the shares alone", () => {
    const room = new Float64Array(31).fill(7);
    expect(mixed(columns, Float64Array.of(0.5, 0, 0.25, 0.25), room)).toBe(room);
    room.forEach((value, band) =>
      expect(value).toBeCloseTo(0.5 * columns[0]![band]! + 0.25 * columns[2]![band]! + 0.25 * columns[3]![band]!, 12),
    );
  });

  test("one solid is left as it is", () => {
    const alone = refinement.from(Float64Array.of(1), [columns[0]!], 0);
    expect(Array.from(alone.shares)).toEqual([1]);
    expect(alone.error).toBe(error([1, 0, 0, 0]));
  });

  test("the best pair is the best of all pairs at the five parts tried", () => {
    for (const least of [0, 0.1]) {
      const pair = bestPair(objective, columns, least);
      let lowest = Infinity;
      for (let first = 0; first < 4; first++) {
        for (let second = first + 1; second < 4; second++) {
          for (const part of [0.05, 0.25, 0.5, 0.75, 0.95]) {
            const room = 1 - 4 * least;
            const tried = [0, 1, 2, 3].map(
              (index) => least + room * (index === first ? 1 - part : index === second ? part : 0),
            );
            lowest = Math.min(lowest, error(tried));
          }
        }
      }
      expect(pair.error).toBeCloseTo(lowest, 12);
      expect(pair.error).toBeCloseTo(error(pair.shares), 12);
      expect(Math.abs(sum(pair.shares) - 1)).toBeLessThan(1e-12);
    }
  });

  test("after polishing no exchange of a step helps, and the least share stands", () => {
    for (const least of [0, 0.05]) {
      const near = refinement.from(EVEN, columns, least).shares;
      for (const [start, steps] of [
        [EVEN, [0.05]],
        [near, [0.01, 0.001, 0.0001]],
      ] as const) {
        const guess = polished(objective, columns, start, least, steps);
        expect(guess.error).toBeLessThanOrEqual(error(start));
        expect(guess.error).toBeCloseTo(error(guess.shares), 10);
        expect(Math.abs(sum(guess.shares) - 1)).toBeLessThan(1e-12);
        expect(Math.min(...guess.shares)).toBeGreaterThanOrEqual(least - 1e-15);
        for (const other of exchanges(guess.shares, steps[steps.length - 1]!, least)) {
          expect(error(other)).toBeGreaterThanOrEqual(guess.error * (1 - 2e-7));
        }
      }
    }
    expect(polished(objective, columns, EVEN, 0, [])).toEqual({ shares: EVEN, error: error(EVEN) });
  });
});

describe("no more is looked at than helps", () => {
  const { objective, columns } = PROBLEMS[1]!;
  const [one, other] = [columns[0]!, columns[1]!];

  /** How often blends are measured on the way, and how often their curvature is asked for. */
  function effort(search: () => unknown): { readonly measured: number; readonly curved: number } {
    const become = vi.spyOn(MeasuredBlend.prototype, "become");
    const curvature = vi.spyOn(MeasuredBlend.prototype, "curvature");
    search();
    const counts = { measured: become.mock.calls.length, curved: curvature.mock.calls.length };
    become.mockRestore();
    curvature.mockRestore();
    return counts;
  }

  test("one solid, and a blend that is the target, are only measured", () => {
    const alone = new Refinement(objective, 4);
    expect(effort(() => alone.from(Float64Array.of(1), [one], 0))).toEqual({ measured: 1, curved: 0 });
    const matching = new ShadeObjective(Array.from(blended([1], [[...TEXTILES.values()][0]!], MODEL)), MODEL, [
      DAYLIGHT,
    ]);
    const perfect = new Refinement(matching, 4);
    const solid = additiveValues([...TEXTILES.values()][0]!, MODEL);
    expect(effort(() => perfect.from(Float64Array.of(1, 0), [solid, other], 0))).toEqual({ measured: 1, curved: 0 });
  });

  test("from where nothing more is to be gained it is seen by the slope, without a step", () => {
    // Where the difference has a corner, or digits end, the slope may promise what no step brings.
    let seen = 0;
    for (const { objective: own, columns: solids } of PROBLEMS) {
      const refinement = new Refinement(own, 4);
      const { shares } = refinement.from(EVEN, solids, 0);
      const again = refinement.from(shares, solids, 0).shares;
      const { measured, curved } = effort(() => refinement.from(again, solids, 0));
      expect(curved).toBeLessThanOrEqual(2);
      if (measured === 1) seen++;
    }
    expect(seen).toBeGreaterThan(PROBLEMS.length / 2);
  });

  test("of solids that are the same every exchange is tried once a step, between those that have something to give", () => {
    const same = [one, one, one, one];
    const polish = (start: readonly number[], least = 0) =>
      effort(() => polished(objective, same, Float64Array.from(start), least)).measured;
    // Three steps, and twelve pairs; with all in one solid three.
    expect(polish([0.25, 0.25, 0.25, 0.25])).toBe(1 + 3 * 12);
    expect(polish([1, 0, 0, 0])).toBe(1 + 3 * 3);
    expect(polish([0.85, 0.05, 0.05, 0.05], 0.05)).toBe(1 + 3 * 3);
    expect(bestPair(objective, [one, one], 0).shares[1]).toBe(0.05);
    // Where nothing is left to be gained at all, too.
    const [shade] = TEXTILES.values();
    const matching = new ShadeObjective(Array.from(blended([1], [shade!], MODEL)), MODEL, [DAYLIGHT]);
    const solid = additiveValues(shade!, MODEL);
    const halves = Float64Array.of(0.5, 0.5);
    expect(polished(matching, [solid, solid], halves, 0, [0.25]).error).toBe(0);
    expect(effort(() => polished(matching, [solid, solid], halves, 0, [0.25])).measured).toBe(1 + 2);
  });

  test("a tangent that comes just as near as is enough is followed further", () => {
    const refinement = new Refinement(objective, 4);
    const start = refinement.from(EVEN, columns, 0, -Infinity);
    expect([start.settled, Array.from(start.shares)]).toEqual([false, Array.from(EVEN)]);
    const enough = start.error - TANGENT_SAFETY * furthestFall(refinement.pulls(columns), 4, 0);
    expect(refinement.from(EVEN, columns, 0, enough).error).toBeLessThan(start.error);
    expect(refinement.from(EVEN, columns, 0, enough - 1e-9).error).toBe(start.error);
  });

  test("what gives all it has above its least is at it to the last digit, and nothing passes its most", () => {
    const least = 0.003;
    // Taken off again what it is above, it would be off by its last digit.
    const start = Array.from({ length: 5000 }, (_, index) => 0.0065 + index * 1e-6).find(
      (share) => share - (share - least) !== least,
    )!;
    const towards = new ShadeObjective(Array.from(blended([1], [[...TEXTILES.values()][20]!], MODEL)), MODEL, [
      DAYLIGHT,
    ]);
    const solids = [one, additiveValues([...TEXTILES.values()][20]!, MODEL)];
    const { shares } = polished(towards, solids, Float64Array.of(start, 1 - start), least);
    expect(shares[0]).toBe(least);
    const limited = polished(towards, solids, Float64Array.of(0.5, 0.5), least, undefined, [1, 0.5036]);
    expect(limited.shares[1]).toBeCloseTo(0.5036, 12);
    expect(limited.shares[0]).toBeCloseTo(0.4964, 12);
    const whole = polished(towards, solids, Float64Array.of(0.5, 0.5), 0.25, [0.25]);
    expect(Array.from(whole.shares)).toEqual([0.25, 0.75]);
  });
});
