import { describe, expect, test } from "vitest";
import { bestPair, furthestFall, mixed, polished, Refinement } from "../../../src/trade/shade/shade-refinement";
import { errorIn, EVEN, exchanges, PROBLEMS, sum } from "../../support/four-solids";

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
