import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { inOrder } from "../../src/trade/in-order";

describe("the value at a place of the order", () => {
  const sorted = (values: readonly number[]) => Float64Array.from(values).sort();

  /** How often they are sorted after all. */
  function sorts(values: readonly number[], place: number): number {
    const row = Float64Array.from(values);
    const sort = vi.spyOn(Float64Array.prototype, "sort");
    inOrder(row, place);
    const count = sort.mock.calls.length;
    sort.mockRestore();
    return count;
  }

  test("is that of the sorted values, of few that repeat and of many, wherever they stand", () => {
    const values = fc.oneof(
      fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1 }),
      fc.array(fc.double({ noNaN: true, min: -9, max: 9 }), { minLength: 1 }),
    );
    for (const given of fc.sample(values, { numRuns: 300, seed: 5 })) {
      const inRow = sorted(given);
      given.forEach((_, place) => expect(inOrder(Float64Array.from(given), place)).toBe(inRow[place]));
    }
  });

  test("rows in order, against it, all equal, and of two halves", () => {
    for (const count of [1, 2, 3, 100, 101]) {
      for (const value of [
        (index: number) => index,
        (index: number) => -index,
        () => 7,
        (index: number) => (index < count / 2 ? index : count - index),
        (index: number) => index % 2,
      ]) {
        const row = Array.from({ length: count }, (_, index) => value(index));
        row.forEach((_, place) => expect(inOrder(Float64Array.from(row), place)).toBe(sorted(row)[place]));
        for (const place of [0, count >> 1, count - 1]) expect(sorts(row, place)).toBe(0);
      }
    }
  });

  test("a row in which each parting takes off only the least is sorted after some rounds", () => {
    // The least stands in the middle of what is left, and parting changes places with what stood first there.
    const count = 300;
    const places = Array.from({ length: count }, (_, place) => place);
    const row = new Array<number>(count).fill(0);
    for (let from = 0; from < count; from++) {
      const middle = (from + count - 1) >> 1;
      row[places[middle]!] = from;
      [places[from], places[middle]] = [places[middle]!, places[from]!];
    }
    expect([...row].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, place) => place));
    for (const place of [50, 200, 299]) expect(inOrder(Float64Array.from(row), place)).toBe(place);
    expect(sorts(row, 50)).toBe(0);
    expect(sorts(row, 299)).toBe(1);
  });
});
