import { describe, expect, test, vi } from "vitest";
import { levelled } from "../../../src/trade/shade/level-ground";
import { DAYLIGHT } from "../../../src/tables/lights";
import { additiveValues } from "../../../src/trade/shade/blend-models";
import { MeasuredBlend, ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { errorOf, Refinement, type Guess } from "../../../src/trade/shade/shade-refinement";
import { errorIn, EVEN, MODEL, PROBLEMS, sum } from "../../support/four-solids";
import { TEXTILES } from "../../support/measured-textiles";

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

  test("is one place, too, where costs count beside the error, and for one solid that is held at its most", () => {
    const costs = [0.01, 0.02, 0.015, 0.005];
    const costing = levelledFrom(refinement.from(EVEN, columns, 0, Infinity, costs).shares, 0, undefined, costs);
    const free = levelledFrom(refinement.from(EVEN, columns, 0).shares);
    const most = Array.from(free.shares, (share, place) => (place === 0 ? share - 0.02 : 1));
    const held = levelledFrom(beside(free, 0, 1, 0.02), 0, most);
    for (const [end, ofMost, ofCosts] of [
      [costing, undefined, costs],
      [held, most, undefined],
    ] as const) {
      // prettier-ignore
      const moving = [0, 1, 2, 3].filter((place) => end.shares[place]! > 0.011 && end.shares[place]! !== ofMost?.[place]);
      for (const from of moving) {
        for (const to of moving) {
          if (from === to) continue;
          const { shares: again } = levelledFrom(beside(end, from, to, 0.001), 0, ofMost?.slice(), ofCosts);
          again.forEach((share, place) => expect(Math.abs(share - end.shares[place]!)).toBeLessThan(1e-11));
        }
      }
    }
  });

  test("from anywhere it ends no further off, costs counted, and leaves the start as it was", () => {
    for (const eighths of [
      [1, 1, 1, 5],
      [1, 1, 5, 1],
      [1, 5, 1, 1],
      [5, 1, 1, 1],
      [3, 1, 1, 3],
      [4, 1, 1, 2],
      [2, 4, 1, 1],
    ]) {
      // prettier-ignore
      for (const costs of [undefined, [100, 200, 150, 50], [400, 0, 0, 0]]) {
        const start = Float64Array.from(eighths, (part) => part / 8);
        const worth = (of: Float64Array): number =>
          error(of) + of.reduce((all, share, place) => all + share * (costs?.[place] ?? 0), 0);
        const { shares: end } = levelledFrom(start, 0, undefined, costs);
        expect(worth(end)).toBeLessThanOrEqual(worth(start) * (1 + 1e-9));
        expect(Array.from(start)).toEqual(eighths.map((part) => part / 8));
      }
    }
  });

  test("near it the slope is asked for to see how it bends once, and a few times more", () => {
    const end = levelledFrom(refinement.from(EVEN, columns, 0).shares);
    const [from, to] = [0, 1, 2, 3].filter((place) => end.shares[place]! > 1e-4) as [number, number];
    const start = to === undefined ? end.shares : beside(end, from, to, 1e-5);
    const asked = vi.spyOn(MeasuredBlend.prototype, "slopes");
    levelledFrom(start);
    const count = asked.mock.calls.length;
    asked.mockRestore();
    const takers = Array.from(end.shares).filter((share) => share > 0).length - 1;
    expect(count).toBeGreaterThan(0);
    expect(count).toBeLessThan(2 * takers + 7);
  });

  test("a limit that comes in the way of a small step holds, and the others are level", () => {
    const free = levelledFrom(refinement.from(EVEN, columns, 0).shares);
    const moving = [0, 1, 2, 3].filter((place) => free.shares[place]! > 0.01);
    for (const taker of moving) {
      for (const giver of moving) {
        if (taker === giver) continue;
        // Just short of the ground, and of where it may go.
        const start = beside(free, taker, giver, 2e-5);
        const most = Array.from(free.shares, (share, place) => (place === taker ? share - 5e-6 : 1));
        const { shares: end } = levelledFrom(start, 0, most);
        expect(Math.abs(end[taker]! - most[taker]!)).toBeLessThan(1e-12);
        const other = moving.find((place) => place !== taker && place !== giver);
        const { shares: again } = levelledFrom(beside({ shares: end, error: 0 }, giver, other ?? giver, 1e-5), 0, most);
        again.forEach((share, place) => expect(Math.abs(share - end[place]!)).toBeLessThan(1e-8));
      }
    }
  });

  test("a share that is a million-millionth from a limit is at it, and stays", () => {
    for (const place of [0, 1, 2, 3]) {
      const rest = [0.5, 0.3, 0.2 - 1e-12];
      const low = Float64Array.from([...rest.slice(0, place), 1e-12, ...rest.slice(place)]);
      expect(levelledFrom(low).shares[place]).toBe(1e-12);
      const others = [0.3, 0.1, 0.1 + 1e-12];
      const high = Float64Array.from([...others.slice(0, place), 0.5 - 1e-12, ...others.slice(place)]);
      const most = Array.from(high, (_, one) => (one === place ? 0.5 : 1));
      expect(levelledFrom(high, 0, most).shares[place]).toBe(0.5 - 1e-12);
    }
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

test("where the ground bends the other way it goes down all the same", () => {
  for (const [place, eighths] of [
    [1, [1, 1, 2, 4]],
    [1, [1, 1, 4, 2]],
    [1, [1, 2, 1, 4]],
  ] as const) {
    // prettier-ignore
    const problem = PROBLEMS[place]!;
    const { objective, columns } = problem;
    const start = Float64Array.from(eighths, (part) => part / 8);
    const error = errorIn(problem);
    const nearest = new Refinement(objective, 4).from(EVEN, columns, 0).error;
    const end = levelled(objective, columns, { shares: start, error: error(start) }, 0);
    expect(error(start)).toBeGreaterThan(20 * nearest);
    expect(end.error).toBeLessThan(nearest * 1.001);
  }
});

test("from afar it comes to the blend itself, to eleven digits, where the ground bends as it should", () => {
  for (const [place, eighths] of [
    [0, [2, 2, 2, 2]],
    [0, [3, 1, 1, 3]],
    [4, [1, 1, 1, 5]],
    [8, [1, 1, 2, 4]],
    [10, [2, 4, 1, 1]],
  ] as const) {
    // prettier-ignore
    const problem = PROBLEMS[place]!;
    const start = Float64Array.from(eighths, (part) => part / 8);
    const { shares: end } = levelled(problem.objective, problem.columns, { shares: start, error: errorIn(problem)(start) }, 0); // prettier-ignore
    end.forEach((share, index) => expect(Math.abs(share - problem.shares![index]!)).toBeLessThan(1e-11));
  }
});

test("where steps would go to and fro for ever it ends after sixteen, no further off than it started", () => {
  const [target, ...solids] = [24, 0, 22].map((place) => [...TEXTILES.values()][place]!);
  const objective = new ShadeObjective(target!, MODEL, [DAYLIGHT]);
  const columns = solids.map((solid) => additiveValues(solid, MODEL));
  const shares = Float64Array.of(0.3, 0.7);
  const start = { shares, error: errorOf(objective, columns, shares) };
  const asked = vi.spyOn(MeasuredBlend.prototype, "slopes");
  const end = levelled(objective, columns, start, 0);
  // At each for the slope, and on both sides to see how it bends.
  expect(asked.mock.calls.length).toBe(16 * 3);
  asked.mockRestore();
  expect(end.error).toBeLessThanOrEqual(start.error * (1 + 1e-9));
});
