import { describe, expect, test } from "vitest";
import { levelled } from "../../../src/trade/shade/level-ground";
import { Refinement, type Guess } from "../../../src/trade/shade/shade-refinement";
import { errorIn, EVEN, PROBLEMS, sum } from "../../support/four-solids";

/** As near to the end of a search as another search ends: a little of one share is another's. */
function beside({ shares }: Guess, from: number, to: number, by: number): Float64Array {
  const moved = shares.slice();
  const part = Math.min(by, moved[from]!);
  moved[from]! -= part;
  moved[to]! += part;
  return moved;
}

describe.each(PROBLEMS.map((problem, place) => ({ ...problem, place })))("problem $place", (problem) => {
  const { objective, columns, shares } = problem;
  const error = errorIn(problem);
  const refinement = new Refinement(objective, columns.length);
  const levelledFrom = (start: Float64Array, least = 0, most?: number[], costs?: number[]): Guess =>
    levelled(objective, columns, { shares: start, error: error(start) }, least, most, costs);

  test("is one place, to twelve digits, wherever a search ended beside it, and never higher", () => {
    const end = levelledFrom(refinement.from(EVEN, columns, 0).shares);
    const used = [0, 1, 2, 3].filter((place) => end.shares[place]! > 1e-6);
    for (const from of used) {
      for (const to of used) {
        if (from === to) continue;
        const start = beside(end, from, to, 1e-5);
        const again = levelledFrom(start);
        expect(again.error).toBeLessThanOrEqual(error(start));
        again.shares.forEach((share, place) => expect(Math.abs(share - end.shares[place]!)).toBeLessThan(1e-11));
      }
    }
    if (shares) end.shares.forEach((share, place) => expect(share).toBeCloseTo(shares[place]!, 11));
  });

  test("keeps the sum and the limits, and what is at a limit stays there", () => {
    const most = [0.3, 1, 1, 1];
    for (const least of [0.05, 0.2]) {
      const { shares: found } = refinement.from(EVEN, columns, least);
      const start = found[0]! > 0.3 ? beside({ shares: found, error: 0 }, 0, 1, found[0]! - 0.3) : found;
      const { shares: end } = levelledFrom(start, least, most);
      expect(Math.abs(sum(end) - 1)).toBeLessThan(1e-12);
      expect(Math.min(...end)).toBeGreaterThanOrEqual(least - 1e-12);
      expect(end[0]).toBeLessThanOrEqual(0.3 + 1e-12);
      start.forEach((share, place) => {
        if (share <= least + 1e-12) expect(end[place]).toBe(share);
      });
    }
  });

  test("with costs it is level for the error and the costs together", () => {
    const costs = [0.01, 0.02, 0.015, 0.005];
    const start = refinement.from(EVEN, columns, 0, Infinity, costs).shares;
    const { shares: end } = levelledFrom(start, 0, undefined, costs);
    const worth = (of: Float64Array): number =>
      error(of) + of.reduce((all, share, place) => all + share * costs[place]!, 0);
    const used = [0, 1, 2, 3].filter((place) => end[place]! > 2e-4);
    for (const from of used) {
      for (const to of used) {
        if (from === to) continue;
        const there = worth(beside({ shares: end, error: 0 }, from, to, 1e-4));
        expect(there).toBeGreaterThanOrEqual(worth(end) * (1 - 1e-12));
      }
    }
  });
});
