import { describe, expect, test } from "vitest";
import * as work from "../../src/sheet/work";
import { sourceFunctions } from "../support/functions";
import { called } from "../support/calls";
import { refusalOf } from "../support/refusals";

function refusal(id: string, ...cells: unknown[]): string {
  const outcome = called(sourceFunctions.get(id) as (...cells: unknown[]) => unknown[][], cells);
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

  test("too many cells of several arguments; a whole column of the sheet of two is answered", () => {
    const [column524289, column1048576] = [column(524_289, 1), column(2 ** 20, 1)];
    const word = column(2 ** 20, "Nm");
    expect(
      refusal("YARNLENGTH", column524289, [["g"]], column524289, word.slice(0, 524_289), column(524_289, "m")),
    ).toBe("#NUM! mass is 524289×1, 524289 cells, each the work of 4; at most 524288 in one call");
    expect(refusal("COUNT", column1048576, word, [["tex"]])).toBe("no error");
    expect(
      refusal(
        "COUNT",
        [[24]],
        [["Nm"]],
        Array.from({ length: 2 ** 20 }, () => ["tex", "tex"]),
      ),
    ).toBe("#NUM! to is 1048576×2, 2097152 cells, each the work of 2; at most 1048576 in one call");
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

  test("shades, solids, materials, and dyes for masses", () => {
    const labs = (count: number) => Array.from({ length: count }, (_, row) => [50, row % 50, 10]);
    expect(refusal("MIXMATCH", [[50, 1, 2]], labs(1001))).toBe("#NUM! solids is 1001 solids; at most 1000 in one call");
    expect(refusal("SHADESORT", labs(150_001), [[50, 0, 0]], [[1]])).toContain(
      "150001 shades; at most 150000 in one call",
    );
    const ones = column(50_001, 1);
    expect(refusal("VARIANCE", ones, ones, ones, ones)).toContain("50001 items long; at most 50000 in one call");
    expect(refusal("DYEBATH", column(2000, 5), [[10]], column(2000, 0.0001))).toBe(
      "#NUM! fibre_mass is 2000 rows for 2001 columns of results, 4002000 cells; at most 2097152 in one call",
    );
  });

  test("targets for solids, and solids for parts", () => {
    const labs = (count: number) => Array.from({ length: count }, (_, row) => [50, (row * 7) % 50, (row * 3) % 40]);
    expect(refusal("MIXMATCH", labs(27_000), labs(3))).toMatch(
      /^#NUM! target is 27000 shades for 3 solids, 4 at a time; at most \d{3} in one call$/,
    );
    expect(refusal("MIXMATCH", labs(40), labs(16))).toMatch(/^#NUM! target is 40 shades for 16 solids.* at most 3\d /);
    // Blank rows below are no targets.
    expect(refusal("MIXMATCH", [...labs(2), ...column(27_000, null).map(() => [null, null, null])], labs(3))).toBe(
      "no error",
    );
    expect(refusal("MIXCHOICES", [[50, 1, 2]], labs(100), [[12]])).toMatch(
      /^#NUM! parts is 12 for 100 solids; at most \d in one call$/,
    );
    // Fine steps are tried one by one.
    expect(refusal("MIXMATCH", labs(1000), labs(3), null, null, null, null, [[0.01]])).toMatch(/at most 1\d\d in/);
  });

  test("lines against charges", () => {
    const lines = Array.from({ length: 5001 }, () => [1, 1, 1, 1]);
    expect(refusal("LANDED", lines, new Array<unknown[]>(100).fill([1, "value"]))).toBe(
      "#NUM! charges is 100 for 5001 lines, 500100 cells; at most 500000 in one call",
    );
  });
});

describe("each kind of work is allowed up to its limit and refused one beyond", () => {
  const limit = (most: number, expectNoMore: (count: number) => void, came: string) => {
    expect(() => expectNoMore(most)).not.toThrow();
    expect(refusalOf(() => expectNoMore(most + 1))).toBe(`#NUM! ${came}; at most ${most} in one call`);
  };

  test("cells, items, rows, shades and solids", () => {
    limit(2_097_152, (count) => work.expectCells("value", count, () => "here"), "value is here, 2097153 cells");
    limit(2_097_152, (count) => work.expectLifted("value", count, 1, () => "here"), "value is here, 2097153 cells");
    limit(
      699_050,
      (count) => work.expectLifted("value", count, 3, () => "here"),
      "value is here, 699051 cells, each the work of 3",
    );
    limit(500_000, (count) => work.expectItems("weights", count), "weights is 500001 items long");
    limit(20, (count) => work.expectItems("weights", count, 20), "weights is 21 items long");
    limit(250_000, (count) => work.expectRows("events", count), "events is 250001 rows long");
    limit(150_000, (count) => work.expectShadeColumn("lab", count), "lab is 150001 shades");
    limit(50_000, (count) => work.expectShades("target", count, false), "target is 50001 shades");
    limit(10_000, (count) => work.expectShades("solids", count, true), "solids is 10001 shades");
    limit(1000, (count) => work.expectSolids(count, 3, () => 1), "solids is 1001 solids");
    expect(() => work.expectFooted("charges", 100_000, "lines", 5)).not.toThrow();
    expect(refusalOf(() => work.expectFooted("charges", 100_001, "lines", 5))).toBe(
      "#NUM! charges is 100001 for 5 lines, 500005 cells; at most 500000 in one call",
    );
  });

  test("parts, where one more of them takes ten times as long; one is always allowed", () => {
    const effort = (parts: number) => 118 * 10 ** parts;
    for (const parts of [1, 4]) expect(() => work.expectSolids(9, parts, effort)).not.toThrow();
    expect(refusalOf(() => work.expectSolids(9, 5, effort))).toBe(
      "#NUM! parts is 5 for 9 solids; at most 4 in one call",
    );
    // More parts than there are solids are as many as there are.
    expect(() => work.expectSolids(4, 9, effort)).not.toThrow();
    expect(() => work.expectSolids(9, 1, () => 1e9)).not.toThrow();
    expect(refusalOf(() => work.expectSolids(9, 3, () => 1e9))).toContain("at most 1 in one call");
  });

  test("targets, by what each takes; one is always allowed", () => {
    limit(10, (count) => work.expectTargets(count, 9, 4, 118_000), "target is 11 shades for 9 solids, 4 at a time");
    limit(9, (count) => work.expectTargets(count, 9, 4, 118_001), "target is 10 shades for 9 solids, 4 at a time");
    limit(1, (count) => work.expectTargets(count, 9, 4, 1e9), "target is 2 shades for 9 solids, 4 at a time");
  });
});

describe("a column of wrong cells", () => {
  const answers = (id: string, ...cells: unknown[]): unknown[] => {
    const outcome = called(sourceFunctions.get(id) as (...cells: unknown[]) => unknown[][], cells);
    return "rows" in outcome ? outcome.rows.flat() : [];
  };
  const errors = (id: string, ...cells: unknown[]) => answers(id, ...cells) as { code: string; message: string }[];

  test("of a million is told in words as far as anybody reads, and all of it is an error, the next call again in words", () => {
    const wrong = Array.from({ length: 60_000 }, (_, row) => [`lot ${row}`]);
    for (let call = 0; call < 2; call++) {
      const told = errors("COUNT", [[24]], wrong, [["tex"]]);
      expect(told).toHaveLength(60_000);
      expect(new Set(told.map(({ code }) => code))).toEqual(new Set(["#VALUE!"]));
      expect(told[49_999]?.message).toContain('from is "lot 49999"');
      expect(told[50_000]?.message).toBe("50000 cells before this one say what is wrong");
    }
  });

  test.each<[id: string, at: number, after: unknown[], further: unknown[][]]>([
    ["COUNT", 1, ["Nm", " TEX ", "worsted", "cotton", "not one", 24, true, "", null, { code: "#N/A" }], [["tex"]]],
    ["COUNT", 0, [24, 0, -1, "24", "many", false, null, NaN, { code: "#DIV/0!" }, "", 1e-300], [["Nm"], ["tex"]]],
    [
      "REGAIN",
      0,
      ["wool", "scoured", "not one", "wool ", "top", 7, false, null, { code: "#REF!" }, "acrylic"],
      [["combed"], ["EU label"]],
    ],
    ["DRYMASS", 1, [0.17, 17, "wool", "17%", -0.1, true, { type: "Error", basicValue: "#NUM!" }, "not one"], []], // prettier-ignore
  ])("%s answers what comes after as it would alone, or with the same error", (id, at, after, further) => {
    const cellsWith = (column: unknown[][]) =>
      at === 0 ? [column, ...further.map((cell) => [cell])] : [[[24]], column, ...further.map((cell) => [cell])];
    const wrong = Array.from({ length: 50_000 }, (_, row) => [`lot ${row}`]);
    const cells = after.map((cell) => [cell]);
    const bare = (cell: unknown) =>
      typeof cell === "object" && cell !== null ? (cell as { code: string }).code : cell;
    const alone = answers(id, ...cellsWith([["lot"], ...cells])).map(bare);
    expect(new Set(alone.map((cell) => typeof cell)).size).toBe(2);
    expect(answers(id, ...cellsWith([...wrong, ...cells])).slice(50_000).map(bare)).toEqual(alone.slice(1)); // prettier-ignore
  });

  test("has a hint for the same misspelling however often it stands there", () => {
    const told = errors("REGAIN", [
      ...Array.from({ length: 150 }, (_, row) => [`lot ${row}`]),
      ...column(900, "mohairr"),
    ]);
    expect(new Set(told.slice(150).map(({ message }) => message)).size).toBe(1);
    expect(told[1000]?.message).toContain("mohair");
  });
});
