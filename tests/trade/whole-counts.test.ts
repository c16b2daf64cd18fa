import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { handedOut } from "../../src/trade/whole-counts";

describe("counts brought to a sum one by one", () => {
  const limited = fc.array(fc.record({ share: fc.integer({ min: 0, max: 60 }), fewest: fc.nat(4), room: fc.nat(9) }), {
    minLength: 1,
    maxLength: 5,
  });

  /** Least squares over all whole counts within the limits. Source: the definition, by enumeration. */
  function nearestCounts(wanted: readonly number[], units: number, lists: readonly (readonly number[])[]): number {
    const [list, ...rest] = lists;
    if (list === undefined) return units === 0 ? 0 : Infinity;
    const [first = 0, ...others] = wanted;
    return Math.min(...list.map((count) => (count - first) ** 2 + nearestCounts(others, units - count, rest)));
  }

  test("are as near to the exact shares as whole counts within the limits can be, or there are none", () => {
    fc.assert(
      fc.property(limited, fc.nat(30), (items, units) => {
        const total = items.reduce((sum, { share }) => sum + share, 0) || 1;
        const wanted = items.map(({ share }) => (share * units) / total);
        const counts = wanted.map((share, index) => {
          const { fewest, room } = items[index]!;
          return Math.min(fewest + room, Math.max(fewest, Math.floor(share)));
        });
        const found = handedOut(units, counts, {
          mayGain: (index) => counts[index]! < items[index]!.fewest + items[index]!.room,
          mayLose: (index) => counts[index]! > items[index]!.fewest,
          lacksMore: (one, other) => wanted[one]! - counts[one]! > wanted[other]! - counts[other]! + 1e-9,
        });
        const lists = items.map(({ fewest, room }) => Array.from({ length: room + 1 }, (_, more) => fewest + more));
        const nearest = nearestCounts(wanted, units, lists);
        if (found === undefined) {
          expect(nearest).toBe(Infinity);
          return;
        }
        expect(found.reduce((sum, count) => sum + count, 0)).toBe(units);
        const squares = found.reduce((sum, count, index) => sum + (count - wanted[index]!) ** 2, 0);
        expect(squares).toBeLessThan(nearest + 1e-9);
      }),
    );
  });

  test("what is missing goes to the one that lacks most, what is too much comes from the one that lacks least", () => {
    const brought = (units: number, counts: number[], wanted: number[], may: (index: number) => boolean = () => true) =>
      handedOut(units, counts, {
        mayGain: (index) => units > 7.5 && may(index),
        mayLose: (index) => units < 7.5 && may(index),
        lacksMore: (one, other) => wanted[one]! - counts[one]! > wanted[other]! - counts[other]!,
      });
    expect(brought(8, [5, 2], [5.2, 2.9])).toEqual([5, 3]);
    expect(brought(7, [5, 3], [4.9, 2.1])).toEqual([5, 2]);
    expect(brought(8, [5, 2], [5.2, 2.9], (index) => index === 0)).toEqual([6, 2]);
    expect(brought(7, [5, 3], [4.9, 2.1], (index) => index === 0)).toEqual([4, 3]);
    expect(brought(8, [5, 2], [5.2, 2.9], () => false)).toBeUndefined();
    expect(brought(7, [5, 3], [4.9, 2.1], () => false)).toBeUndefined();
  });

  test("the first of equals gains first and loses last", () => {
    const anyhow = { mayGain: () => true, mayLose: () => true, lacksMore: () => false };
    expect(handedOut(4, [1, 1, 1], anyhow)).toEqual([2, 1, 1]);
    expect(handedOut(2, [1, 1, 1], anyhow)).toEqual([0, 1, 1]);
  });
});
