import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solveInPlace } from "../../../src/trade/solvers/linear-equations";

/** The answer, or undefined for a singular matrix. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | undefined {
  const answer = Float64Array.from(right);
  return solveInPlace(
    matrix.map((row) => Float64Array.from(row)),
    answer,
  )
    ? Array.from(answer)
    : undefined;
}

describe("linear equations", () => {
  test("give back the whole numbers that random systems of up to eight were made from", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 8 }).chain((size) =>
          fc.tuple(
            fc.array(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: size, maxLength: size }), {
              minLength: size,
              maxLength: size,
            }),
            fc.array(fc.integer({ min: -9, max: 9 }), { minLength: size, maxLength: size }),
          ),
        ),
        ([matrix, wanted]) => {
          // A heavy diagonal, shuffled by reversing the rows, is never singular and needs every exchange of rows.
          const heavy = matrix.map((row, place) => row.map((value, column) => value + (place === column ? 99 : 0)));
          const rows = [...heavy].reverse();
          // Sums of whole numbers are exact.
          const sides = rows.map((row) =>
            row.reduce((sum, value, place) => sum + value * (wanted[place] as number), 0),
          );
          const got = solved(rows, sides) as number[];
          got.forEach((value, place) => expect(value).toBeCloseTo(wanted[place] as number, 10));
        },
      ),
    );
  });

  test("exchange rows where a pivot is nothing, and only where it helps", () => {
    expect(
      solved(
        [
          [0, 1],
          [2, 0],
        ],
        [3, 8],
      ),
    ).toEqual([4, 3]);
    expect(
      solved(
        [
          [1, 1, 0],
          [2, 1, 1],
          [0, 0, 1],
        ],
        [3, 7, 3],
      ),
    ).toEqual([1, 2, 3]);
  });

  test("the largest pivot keeps the digits that a tiny one loses", () => {
    const [x, y] = solved(
      [
        [1e-20, 1],
        [1, 1],
      ],
      [1, 2],
    ) as [number, number];
    expect([x, y]).toEqual([1, 1]);
  });

  test("a singular matrix has no answer", () => {
    expect(
      solved(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
      ),
    ).toBeUndefined();
    expect(solved([[0]], [0])).toBeUndefined();
    expect(solved([[NaN]], [0])).toBeUndefined();
  });
});
