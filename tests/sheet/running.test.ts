import { describe, expect, test } from "vitest";
import type { TableTraits } from "../../src/sheet/arguments";
import type { Cells } from "../../src/sheet/cells";
import { forgetErrors } from "../../src/sheet/errors";
import { anyNumber, blankIs } from "../../src/sheet/kinds";
import { runningRows } from "../../src/sheet/running";
import { impossible } from "../../src/trade/refusal";
import "../support/runtime";

interface Movement {
  in: number;
  out: number;
}

/** The stock after each movement and the number of the movement; stock below 0 is refused. */
function stock(cells: Cells, traits?: TableTraits) {
  forgetErrors();
  let held = 0;
  return runningRows<Movement>(
    { events: cells },
    { in: anyNumber, out: blankIs(anyNumber, 0) },
    2,
    (row, index) => {
      if (held + row.in - row.out < 0) impossible("stock", String(held + row.in - row.out), "look");
      return [(held += row.in - row.out), index];
    },
    traits,
  );
}

describe("a table in which every row rests on those above it", () => {
  test("is answered row by row, with the row's place", () => {
    const { rows, names } = stock([[5, 0], [3, 2], [1, null]]); // prettier-ignore
    expect(rows).toEqual([[5, 0], [6, 1], [7, 2]]); // prettier-ignore
    expect(names).toBeUndefined();
  });

  test("a blank row stays blank across and changes nothing", () => {
    expect(stock([[5, 0], [null, ""], [3, 2]]).rows).toEqual([[5, 0], ["", ""], [6, 2]]); // prettier-ignore
  });

  test("a bad row is an error across in its own row and in all after it, blank ones too; the rows before stand", () => {
    const told = { code: "#NUM!", message: "stock is -1; look" };
    const { rows } = stock([[5, 0], [1, 7], [null, null], [9, 0]]); // prettier-ignore
    expect(rows).toMatchObject([[5, 0], [told, told], [told, told], [told, told]]); // prettier-ignore
    expect(rows).toHaveLength(4);
    const missing = { code: "#VALUE!", message: "events row 2, in, is blank; fill it in; a blank is not 0" };
    expect(stock([[5, 0], [null, 2]]).rows).toMatchObject([[5, 0], [missing, missing]]); // prettier-ignore
  });

  test("no figure leaves as infinity", () => {
    expect(stock([[1e308, -1e308]]).rows).toMatchObject([[{ code: "#NUM!" }, { code: "#NUM!" }]]);
  });

  test("names come back in their places, a row without one unnamed", () => {
    const named = { named: true };
    const cells = [["", "in", "out"], ["opening", 5, 0], [null, 3, 2]]; // prettier-ignore
    expect(stock([["name", "in", "out"], ["opening", 5, 0], [null, 3, 2]], named)).toEqual({ rows: [[5, 0], [6, 1]], names: ["opening", ""] }); // prettier-ignore
    expect(stock(cells.slice(1), named).names).toEqual(["opening", ""]);
    expect(stock([[5, 0], [3, 2]], named).names).toBeUndefined(); // prettier-ignore
  });
});
