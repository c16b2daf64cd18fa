import { describe, expect, test } from "vitest";
import { bundledFunctions } from "../support/functions";
import { called } from "../support/calls";

function refusal(id: string, ...cells: unknown[]): string {
  const outcome = called(bundledFunctions().get(id) as (...cells: unknown[]) => unknown[][], cells);
  return "error" in outcome ? `${outcome.error.code} ${outcome.error.message ?? ""}` : "no error";
}

const column = (rows: number, cell: unknown) => Array.from({ length: rows }, () => [cell]);

describe("work that would freeze the sheet is refused before it begins, with its size and the size allowed", () => {
  test("too many cells of a result", () => {
    const matrix = Array.from({ length: 2100 }, () => new Array<number>(1000).fill(24));
    expect(refusal("COUNT", matrix, [["Nm"]], [["tex"]])).toBe(
      "#NUM! value is 2100×1000, 2100000 cells; at most 2097152 in one call",
    );
  });

  test("a list or a table too long, however many blank rows follow a short one", () => {
    expect(refusal("APPORTION", [[100]], column(500_001, 1))).toBe(
      "#NUM! weights is 500001 items long; at most 500000 in one call",
    );
    expect(refusal("APPORTION", [[100]], [[1], ...column(600_000, null)])).toContain("no error");
    const events = Array.from({ length: 250_001 }, () => [1, 2]);
    expect(refusal("STOCKLEDGER", events, [["fifo"]])).toBe(
      "#NUM! events is 250001 rows long; at most 250000 in one call",
    );
  });

  test("lines against charges", () => {
    const lines = Array.from({ length: 5001 }, () => [1, 1, 1, 1]);
    expect(refusal("LANDED", lines, new Array<unknown[]>(100).fill([1, "value"]))).toBe(
      "#NUM! charges is 100 for 5001 lines, 500100 cells; at most 500000 in one call",
    );
  });
});
