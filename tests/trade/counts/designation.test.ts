import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { texOf } from "../../../src/trade/counts/counts";
import { readDesignation, type Twist } from "../../../src/trade/counts/designation";
import { statedTwist, writeDesignation } from "../../../src/trade/counts/designation-writing";
import type { FoldOrder } from "../../../src/trade/counts/fold-notation";
import { LONGEST_MESSAGE, refuse, Refusal } from "../../../src/trade/refusal";

function systemOf(word: string): CountSystem {
  const found = COUNT_SYSTEMS.find((system) => system.word.toLowerCase() === word.toLowerCase());
  return found ?? refuse("text", `"${word.slice(0, 24)}"`, "no such system");
}

const read = (text: string, order?: FoldOrder) => readDesignation(text, systemOf, order);
/** Resultant, single, plies. */
const figures = (text: string, order?: FoldOrder) => {
  const { resultant, single, plies } = read(text, order);
  return [resultant, single, plies];
};

const anyTex = fc.double({ min: 1e-3, max: 1e5, noNaN: true });
/** Resultant over plies × single, within what twisting does to a length. */
const takenUp = fc.double({ min: 0.91, max: 1.24, noNaN: true });
const anyTurns = fc.option(fc.double({ min: 0.1, max: 5000, noNaN: true }), { nil: undefined });
const anyTwist: fc.Arbitrary<Twist | undefined> = fc.option(
  fc.oneof(
    fc.record({ direction: fc.constantFrom("S" as const, "Z" as const), turns: anyTurns }),
    fc.constant({ direction: "t0" as const, turns: undefined }),
  ),
  { nil: undefined },
);

/** What reading gives for a twist: t0 is a statement of 0 turns. */
function asRead(twist: Twist | undefined): Twist | undefined {
  return twist?.direction === "t0" ? { direction: "t0", turns: 0 } : twist;
}

describe("what is written is read", () => {
  test("single-to-fold, with every number to its last bit", () => {
    fc.assert(
      fc.property(
        anyTex,
        fc.integer({ min: 1, max: 12 }),
        anyTwist,
        anyTwist,
        fc.option(takenUp, { nil: undefined }),
        (single, plies, singleTwist, plyTwist, ratio) => {
          const resultant = ratio === undefined ? undefined : single * plies * ratio;
          const outer = plies === 1 ? undefined : plyTwist;
          const got = read(writeDesignation(single, plies, singleTwist, outer, resultant));
          expect(got).toEqual({
            resultant: resultant ?? single * plies,
            single,
            plies,
            twists: plies === 1 ? [asRead(singleTwist)] : [asRead(singleTwist), asRead(outer)],
          });
        },
      ),
      { numRuns: 1000 },
    );
  });

  test("with numbers that a program would write with an exponent", () => {
    for (const tex of [1e-9, 1.5e-7, 3e21, 1e22]) {
      expect(writeDesignation(tex, 1, undefined, undefined, undefined)).not.toMatch(/\de/);
      expect(read(writeDesignation(tex, 2, undefined, undefined, undefined)).single).toBe(tex);
    }
  });

  test("turned round to fold-to-single, the same yarn", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1e5, noNaN: true }),
        takenUp,
        fc.integer({ min: 2, max: 9 }),
        fc.integer({ min: 2, max: 9 }),
        (s, ratio, ply, cable) => {
          const r = s * ply * cable * ratio;
          const inward = `R ${r.toFixed(9)} tex Z 200 / ${cable} S 400 / ${ply} Z 700; ${s.toFixed(9)} tex`;
          const outward = `${s.toFixed(9)} tex Z 700 x ${ply} S 400 x ${cable} Z 200; R ${r.toFixed(9)} tex`;
          expect(read(inward)).toEqual(read(outward));
          expect(read(inward).plies).toBe(ply * cable);
        },
      ),
    );
  });

  test("the trade's way, in every indirect system, ply first or count first", () => {
    const indirect = COUNT_SYSTEMS.filter(({ direct }) => !direct);
    fc.assert(
      fc.property(
        fc.constantFrom(...indirect),
        fc.integer({ min: 13, max: 400 }),
        fc.integer({ min: 1, max: 12 }),
        (system, count, plies) => {
          const tex = texOf(count, system);
          for (const text of [
            `${plies}/${count} ${system.word}`,
            `${count}/${plies} ${system.word}`,
            `${system.word} ${count}/${plies}`,
            `${system.word} ${plies} / ${count}`,
            `${count}.0/${plies}${system.word}`,
          ]) {
            expect(figures(text)).toEqual([tex * plies, tex, plies]);
          }
        },
      ),
    );
  });
});

describe("spellings of one yarn", () => {
  const same = [
    "34 tex S 600 x 2 Z 400; R 69,3 tex",
    "34 tex S 600 x 2 Z 400; R 69.3 tex",
    "34tex S600x2Z400;R69,3tex",
    "34 TEX s 600 X 2 z 400 ; r 69,3 TEX",
    "34 tex S 600 × 2 Z 400; R 69,3 tex",
    "34\u00a0tex S\u202f600 ×\u20092 Z 400; R 69,3 tex",
    "  tex 34 S 600 * 2 Z 400; R tex 69,3  ",
    "34 tex S 600 х 2 Z 400; R 69,3 tex",
    "R 69,3 tex Z 400 / 2 S 600; 34 tex",
    "R69,3tex Z400/2 S600;34tex",
    "R 69,3 tex Z 400 / 2; 34 tex S 600",
  ];
  test.each(same)("%s", (text) => {
    expect(read(text)).toEqual({
      resultant: 69.3,
      single: 34,
      plies: 2,
      twists: [
        { direction: "S", turns: 600 },
        { direction: "Z", turns: 400 },
      ],
    });
  });

  test.each(["2/30s NeW", "2/30's NeW", "2/30’s NeW", "30s/2 NeW", "NeW 2/30", "2x30 NeW", "NeW 30 × 2", "30 NeW x 2"])(
    "%s",
    (text) => {
      const single = texOf(30, systemOf("NeW"));
      expect(figures(text)).toEqual([single * 2, single, 2]);
    },
  );

  test.each(["17 tex f 48 S 800", "17 tex f48 S800"])("%s, filaments read over", (text) => {
    expect(read(text)).toEqual({ resultant: 17, single: 17, plies: 1, twists: [{ direction: "S", turns: 800 }] });
  });

  test("a comma is a decimal comma wherever it cannot part thousands", () => {
    expect(figures("0,125 tex")).toEqual([0.125, 0.125, 1]);
    expect(figures("1234,567 tex")).toEqual([1234.567, 1234.567, 1]);
    expect(figures("69,30 tex")).toEqual([69.3, 69.3, 1]);
    expect(figures("1,2345 tex")).toEqual([1.2345, 1.2345, 1]);
  });

  test("a single yarn is its own resultant, of one ply", () => {
    expect(figures("30 tex")).toEqual([30, 30, 1]);
    expect(figures("Nm 50")).toEqual([20, 20, 1]);
  });

  test("folded once or three times over, the numbers multiplied", () => {
    expect(figures("34 tex x 1")).toEqual([34, 34, 1]);
    const single = texOf(60, systemOf("NeW"));
    for (const text of ["NeW 60 x 2 x 3", "60 x 2 x 3 NeW", "60/2/3 NeW"]) {
      expect(figures(text)).toEqual([single * 6, single, 6]);
    }
  });

  test("R before the strokes, a stroke behind the system", () => {
    expect(figures("R 72/2 tex")).toEqual([72, 36, 2]);
    expect(read("R 72/2 tex")).toEqual(read("R 72 tex/2"));
    expect(read("R 72/2 tex S 350; 34 tex Z 600")).toEqual(read("R 72 tex S 350 / 2 Z 600; 34 tex"));
    expect(figures("R 120/2/3 tex")).toEqual([120, 20, 6]);
    // Without R the density is that of the single, as in 72 tex x 2.
    expect(read("72 tex/2")).toEqual(read("72 tex x 2"));
    expect(figures("28 Nm/2")).toEqual(figures("28/2 Nm"));
  });

  test("a twist behind a trade designation is that of the finished yarn", () => {
    for (const text of ["28/2 Nm S 350", "Nm 28/2 S350", "2/28 Nm S 350"]) {
      expect(figures(text)).toEqual(figures("28/2 Nm"));
      expect(read(text).twists).toEqual([undefined, { direction: "S", turns: 350 }]);
    }
    expect(read("60/2/3 NeW Z 200").twists).toEqual([undefined, undefined, { direction: "Z", turns: 200 }]);
  });

  test("three digits behind a point are refused, and a fourth makes them plain", () => {
    expect(() => read("1.200 den")).toThrow('text is "1.200 den", where 1.200 can be two numbers; write 1.2 or 1200');
    expect(() => read("34,125 tex")).toThrow("where 34,125 can be two numbers; write 34.1250 or 34125");
    expect(figures("34.1250 tex")).toEqual([34.125, 34.125, 1]);
    expect(writeDesignation(34.125, 2, undefined, undefined, undefined)).toBe("34.1250 tex x 2");
    expect(figures("0.125 tex")).toEqual([0.125, 0.125, 1]);
  });

  test("turns of 0 are turns not stated, with t0 too", () => {
    expect(statedTwist(0, "t0", "single")).toEqual({ direction: "t0", turns: undefined });
    expect(statedTwist(0, "Z", "ply")).toEqual({ direction: "Z", turns: undefined });
    expect(() => statedTwist(100, "t0", "ply")).toThrow("direction_ply is t0 beside a twist of 100; write S or Z");
  });

  test("without R or without the single, plies times single, no take-up", () => {
    expect(figures("34 tex x 2")).toEqual([68, 34, 2]);
    expect(figures("R 69 tex / 3")).toEqual([69, 23, 3]);
  });
});

describe("a resultant that contradicts plies times single", () => {
  test("beyond -10 % and +25 % is refused, read and written", () => {
    for (const text of [
      "30 tex x 2; R 600 tex",
      "30 tex x 2; R 30 tex",
      "R 600 tex / 2; 30 tex",
      "R 600/2 tex; 30 tex",
    ]) {
      expect(() => read(text)).toThrow(/R (600|30) tex for 2 × 30 tex; R is 0.9 to 1.25 × plies × single/);
    }
    expect(figures("40 tex x 2; R 72 tex")).toEqual([72, 40, 2]);
    expect(figures("40 tex x 2; R 100 tex")).toEqual([100, 40, 2]);
    expect(() => read("40 tex x 2; R 71.9 tex")).toThrow(Refusal);
    expect(() => read("40 tex x 2; R 100.1 tex")).toThrow(Refusal);
    expect(() => writeDesignation(30, 2, undefined, undefined, 600)).toThrow(
      "resultant_tex is 600 beside 2 × 30; R is 0.9 to 1.25 × plies × single in any yarn",
    );
    expect(() => writeDesignation(30, 13, undefined, undefined, undefined)).toThrow("plies is 13; plies must be");
  });
});

describe("which number is the ply", () => {
  test.each(["8/8 Nm", "10/12 Nm", "2/8 Nm", "1/1 Nm", "12/12 NeC", "8 x 2 tex", "2/3/4 Nm"])(
    "%s can be read in two ways",
    (text) => expect(() => read(text)).toThrow(/each number can be the ply/),
  );

  test.each(["30/40 Nm", "12.5/30 Nm", "2/30/3 Nm", "13/13 Nm"])("%s in none", (text) =>
    expect(() => read(text)).toThrow(/no number can be the ply/),
  );

  test("an order settles it", () => {
    expect(figures("8/5 Nm", "ply/count")).toEqual([1600, 200, 8]);
    expect(figures("8/5 Nm", "count/ply")).toEqual([625, 125, 5]);
  });

  test("more than twelve plies are no plies, whatever the order", () => {
    for (const order of ["ply/count", "count/ply", "silk", undefined] as const) {
      expect(() => read("24/40 Nm", order)).toThrow(/no number can be the ply; plies must be a whole number from 1 to/);
      expect(() => read("30 tex x 13", order)).toThrow("text is a yarn of 13 plies; plies must be");
      expect(() => read("R 390 tex / 13", order)).toThrow("text is a yarn of 13 plies; plies must be");
    }
    expect(figures("30 tex x 12")).toEqual([360, 30, 12]);
  });

  test("an order does nothing to a text that is plain without it", () => {
    const plain = ["2/30 Nm", "30/2 Nm", "5/12.5 Nm", "30/2.0 Nm", "60/2/3 NeW", "2 x 30 tex"];
    for (const text of plain) {
      for (const order of ["ply/count", "count/ply", "silk"] as const) expect(read(text, order)).toEqual(read(text));
    }
  });

  test("spun silk is written count first, and silk settles nothing in other systems", () => {
    expect(() => read("2/60 NeC", "silk")).toThrow(/not written as spun silk; order "silk" reads the count first/);
    expect(() => read("8/8 Nm", "silk")).toThrow(/each number can be the ply/);
    expect(() => read("30/2 tex", "silk")).toThrow(/ply or filaments/);
  });

  test("an order is no matter to a text that needs none", () => {
    for (const order of ["ply/count", "count/ply", "silk"] as const) {
      expect(figures("34 tex S 600 x 2 Z 400", order)).toEqual([68, 34, 2]);
    }
  });

  test.each<[string, FoldOrder | undefined, string]>([
    ["0/30 Nm", undefined, '"0/30 Nm", with a 0 in it; count and ply must be above 0'],
    [
      "167/48 dtex",
      "count/ply",
      '"167/48 dtex", 48 plies by the order given; check the order; plies must be a whole number from 1 to 12',
    ],
    [
      "30/2.5/2 Nm",
      "count/ply",
      '"30/2.5/2 Nm", where no number can be the ply; plies must be a whole number from 1 to 12',
    ],
    [
      "167/48 dtex",
      undefined,
      '"167/48 dtex", a ply or filaments; write 30 dtex x 2, or give order "ply/count" or "count/ply"',
    ],
  ])("%s with order %s is refused with what to do", (text, order, message) =>
    expect(() => read(text, order)).toThrow(`text is ${message}`),
  );

  test("behind a stroke in a direct system it may be filaments", () => {
    expect(() => read("167/48 dtex")).toThrow(/ply or filaments/);
    expect(() => read("30/2 tex")).toThrow(/ply or filaments/);
    expect(figures("30/2 tex", "count/ply")).toEqual([60, 30, 2]);
    expect(figures("2/30 tex", "ply/count")).toEqual([60, 30, 2]);
  });

  test("spun silk writes the resultant, in cotton count only", () => {
    const [resultant, single, plies] = figures("60/2 NeC", "silk") as [number, number, number];
    expect(resultant).toBe(texOf(60, systemOf("NeC")));
    expect(Math.abs(single / texOf(120, systemOf("NeC")) - 1)).toBeLessThan(1e-15);
    expect(plies).toBe(2);
    expect(figures("60/2 Nm", "silk")).toEqual(figures("60/2 Nm"));
  });

  test("a system before the numbers leaves a multiplied ply with twist open", () => {
    expect(() => read("Nm 2 x 28 Z 400")).toThrow(/behind the count/);
  });
});

describe("what cannot be read", () => {
  const unreadable = [
    "",
    " ",
    "wool",
    "30",
    "2/30",
    "tex",
    "30 30 tex",
    "30 tex tex",
    "30 tex x",
    "30 tex x 2.5",
    "30 tex x 0",
    "0 tex",
    "0/30 Nm",
    "-30 tex",
    "1,200 tex",
    "1.200 den",
    "30 tex Z 1.200",
    "72 tex S 600/2",
    "72 tex/2 S 350",
    "R 2/72 tex",
    "120,000 tex",
    "1.200,5 tex",
    "30. tex",
    "30 tex S 600 Z 400",
    "30 tex x 2 x 3 x 4",
    "30 tex x 2; 60 tex",
    "R 60 tex x 2",
    "R 60 tex Z 1 / 2 S 600; 34 tex S 600",
    "34 tex S 600 x 2 Z 400; R 69 tex; R 70 tex",
    "2/30/2/2 Nm",
    "2//30 Nm",
    "2/30 Nm, blue",
    "30 tex ⟂ 2",
    "1e3 tex",
    "constructor",
    "__proto__",
    `${"9".repeat(400)} tex`,
    "x".repeat(5000),
  ];
  test.each(unreadable)("%s", (text) => {
    let thrown: unknown;
    try {
      read(text);
    } catch (fault) {
      thrown = fault;
    }
    expect(thrown).toBeInstanceOf(Refusal);
    expect((thrown as Refusal).kind).toBe("argument");
    expect((thrown as Refusal).message).toMatch(/^text is .+; .+/);
    expect((thrown as Refusal).message.length).toBeLessThanOrEqual(LONGEST_MESSAGE);
  });

  const TWO_WAYS = "write it like 2/30 Nm or 34 tex S 600 x 2 Z 400";
  test.each([
    ["30 tex ⟂ 2", '"30 tex ⟂ 2", not read at "⟂"', TWO_WAYS],
    ["30. tex", '"30. tex", not read at "30."', TWO_WAYS],
    ["1.200,5 tex", '"1.200,5 tex", not read at "1.200,5"', TWO_WAYS],
    ["34 tex 2 x 3", '"34 tex 2 x 3", not read at "2"', TWO_WAYS],
    ["2/30/2/2 Nm", '"2/30/2/2 Nm", not read at "/"', TWO_WAYS],
    ["30 ; tex", '"30 ; tex", not read at ";"', TWO_WAYS],
    ["30 t0", '"30 t0", not read at "t0"', TWO_WAYS],
    ["Nm / 2", '"Nm / 2", not read at "/"', TWO_WAYS],
    ["30 tex x", '"30 tex x", which stops too early', TWO_WAYS],
    ["2/30", '"2/30", which stops too early', "add the count system, as in 2/30 Nm"],
    ["34 tex x 2; 68 tex", '"34 tex x 2; 68 tex", not read at "68"', "write the resultant as R 69.3 tex"],
    [
      "R 60 tex S 1 / 2 Z 1; 34 tex Z 1",
      '"R 60 tex S 1 / 2 Z 1; 3…", which stops too early',
      "the twist of the single stands there twice",
    ],
    ["constructor", '"constructor"', "no such system"],
    ["30 tex x 0", "a yarn of 0 plies", "plies must be a whole number from 1 to 12"],
    ["17 tex f 0", "a yarn of 0 filaments", "filaments must be a whole number, 1 or more"],
  ])("%s: what it is and what is wanted", (text, came, allowed) => {
    expect(() => read(text)).toThrow(new Refusal("argument", "text", came, allowed));
  });

  test("a text is quoted whole up to 24 signs, a word of it up to 10", () => {
    expect(() => read("2/30/2/2/2/2/2/2/2/2/2/2")).toThrow('text is "2/30/2/2/2/2/2/2/2/2/2/2", not read at "/"');
    expect(() => read("2/30/2/2/2/2/2/2/2/2/2/22")).toThrow('text is "2/30/2/2/2/2/2/2/2/2/2/…", not read at "/"');
    expect(() => read("30 1234567890")).toThrow('not read at "1234567890"');
    expect(() => read("30 12345678901")).toThrow('not read at "123456789…"');
  });

  test("whatever the text, it is read into numbers of a yarn or refused", () => {
    const piece = fc.oneof(
      fc.constantFrom(..."34 |tex|Nm|NeC| x |×|/|;|R|S|Z|t0|f|2|30|69,3|600| |'s|.|,|lb/14400yd|Ne".split("|")),
      fc.string({ maxLength: 2 }),
    );
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 12 }),
        fc.constantFrom(undefined, "ply/count" as const, "count/ply" as const, "silk" as const),
        (pieces, order) => {
          try {
            const { resultant, single, plies } = read(pieces.join(""), order);
            expect(resultant > 0 && single > 0 && plies >= 1 && Number.isInteger(plies)).toBe(true);
          } catch (thrown) {
            if (!(thrown instanceof Refusal)) throw thrown;
            expect(thrown.kind).toBe("argument");
          }
        },
      ),
      { numRuns: 5000 },
    );
  });
});
