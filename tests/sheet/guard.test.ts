import { describe, expect, test } from "vitest";
import type { Cells, Results } from "../../src/sheet/cells";
import { guarded } from "../../src/sheet/guard";
import { worksheetError } from "../../src/sheet/errors";
import { Refusal } from "../../src/trade/refusal";
import { called } from "../support/calls";
import "../support/runtime";

/** What an implementation is given when the host calls with these arguments. */
function given(...arguments_: unknown[]): unknown[] {
  let seen: unknown[] = [];
  const call = guarded((...cells: unknown[]): Results => {
    seen = cells;
    return [];
  });
  call(...arguments_);
  return seen;
}

const refused = (...arguments_: unknown[]) =>
  called(
    guarded<unknown[]>(() => [[1]]),
    arguments_,
  );

describe("a function as the host calls it", () => {
  test("an object after the last argument is the host's own; a range, a blank and a plain value are arguments", () => {
    expect(given([[1]], { address: "Sheet1!A1" })).toEqual([[[1]]]);
    expect(given({ address: "Sheet1!A1" })).toEqual([]);
    for (const cells of [[[[1]], [[2]]], [[[1]], null], [[[1]], 5], [[[1]], undefined], []]) {
      expect(given(...cells)).toEqual(cells);
    }
  });

  test("plain cells are handed on as they are, without a copy", () => {
    const cells: Cells = [[1, "two", true, null, undefined, ""]];
    expect(given(cells, null)[0]).toBe(cells);
  });

  test("a rich value stands for its basic value, and one of an error for that error", () => {
    const rich = (basicValue: unknown, basicType = "Double") => ({ type: "FormattedNumber", basicType, basicValue });
    const cells: Cells = [
      [1, rich(12.5)],
      [rich("moss", "String"), rich(false, "Boolean")],
      [rich(0), rich("#N/A", "Error")],
    ];
    expect(given(cells, null)[0]).toEqual([
      [1, 12.5],
      ["moss", false],
      [0, { type: "Error", basicValue: "#N/A" }],
    ]);
    // The range of the host stays as it was.
    expect(cells[0]?.[1]).toEqual(rich(12.5));
  });

  test("an error value, an entity without a basic value and an object of no known form stay as they came", () => {
    const cells: Cells = [
      [{ type: "Error", basicType: "Error", basicValue: "#N/A", message: "kept" }],
      [{ type: "Entity", basicValue: { text: "wool" } }],
      [{ code: "#REF!" }],
      [{ basicType: "Error", basicValue: 5 }],
    ];
    expect(given(cells, null)[0]).toEqual(cells);
  });

  test("a ragged range is refused with its place among the arguments, and what came", () => {
    const ragged = (came: string) => ({
      error: { code: "#VALUE!", message: `argument 2 is ragged; its first row has ${came}` },
    });
    expect(refused([[1]], [[1, 2], [3]])).toMatchObject(ragged("2 cells, another 1 cell"));
    expect(refused([[1]], [[1], [2, 3]])).toMatchObject(ragged("1 cell, another 2 cells"));
    expect(refused([[1]], [[1], 5])).toMatchObject(ragged("1 cell, another no row"));
    // No range of rows at all: the reader of the argument says what it wants.
    for (const bare of [5, "five", [5, 6], []]) expect(given(bare, [[1]])).toEqual([bare, [[1]]]);
  });

  test("the host's copy of a header row is its own, and no rows are no fault", () => {
    const header = ["name", "mass"];
    const call = guarded((): Results => [header, ["moss", 5]]);
    const rows = call();
    expect(rows).toEqual([header, ["moss", 5]]);
    expect(rows[0]).not.toBe(header);
    (rows[0] as string[])[0] = "spoilt";
    expect(call()[0]).toEqual(["name", "mass"]);
    expect(guarded((): Results => [])()).toEqual([]);
  });

  test("what is thrown inside leaves as a cell error, and what one call told is not counted in the next", () => {
    const failing = guarded((): Results => {
      throw new Refusal("impossible", "mass", "5", "look");
    });
    expect(called(failing, [])).toEqual({ error: { code: "#NUM!", message: "mass is 5; look" } });
    const many = guarded((cells: Cells): Results => {
      return cells.map(() => [worksheetError(new Refusal("argument", "mass", "5", "look"))]);
    });
    const column: Cells = Array.from({ length: 50_002 }, () => [1]);
    for (let call = 0; call < 2; call++) {
      const told = many(column).map(([error]) => (error as { message: string }).message);
      expect(told[49_999]).toBe("mass is 5; look");
      expect(told.slice(50_000)).toEqual(new Array(2).fill("50000 cells before this one say what is wrong"));
    }
  });
});
