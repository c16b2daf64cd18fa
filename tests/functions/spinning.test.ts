import { describe, expect, test } from "vitest";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { CellError } from "../../src/recalculate/engine";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { AMBIGUOUS_CONVENTION_WORDS, TWIST_CONVENTIONS } from "../../src/tables/twist-conventions";
import { SOURCES } from "../../src/tables/sources";
import { TWIST_UNITS } from "../../src/tables/twist-units";
import { messageOf, sheet, sourceFunctions } from "../support/functions";

const FAMILIES = ["twist", "drafting", "evenness", "production"];
const SPINNING = documentedFunctions().filter(({ family }) => FAMILIES.includes(family));

/** One good call of every function of these families, argument by argument as they are declared. */
const CALLS: Readonly<Record<string, readonly (string | number)[]>> = {
  DELIVERY: [27, 177, "mm"],
  TWIST: [8000, 20, "tpm"],
  ROLLTWIST: [8000, 177, 27, "mm", "tpm"],
  SPINDLESPEED: [400, "tpm", 20],
  ROLLSPEED: [400, "tpm", 8000, 27, "mm"],
  TRAVELLERLAG: [20, 25, "mm"],
  TWISTUNIT: [400, "tpm", "tpi"],
  TWISTFACTOR: [400, "tpm", 25, "Nm", "metric"],
  TWISTFOR: [80, "metric", 25, "Nm", "tpm"],
  FACTORUNIT: [80, "metric", "worsted"],
  TWISTANGLE: [400, "tpm", 40, "tex", 1.25],
  TAKEUP: [400, "tpm", 40, "tex", 1.25, "staple"],
  PLYTWIST: [400, 2, "axial"],
  RESIDUALTWIST: [400, 200, "same"],
  PLYTAKEUP: [400, 200, "tpm", 40, "tex", 1.25, "opposite", 2],
  ROLLDRAFT: [25, 200, 25, 10],
  DRAFT: [500, "tex", 40, "tex", 1, 0.01, 0.02],
  DRAWN: [500, "tex", 12, 1, 0.01, 0.02, "Nm"],
  CHANGEWHEEL: [40, 20, 25, "Nm", "twist"],
  WHEELCONSTANT: [15, 40, "draft"],
  FIBRES: [40, "tex", 21, 0.21, 1.31],
  LIMITCV: [40, 0.21],
  EVENNESSINDEX: [0.2, 40, 0.21],
  DOUBLEDCV: [0.05, 8, 0.01],
  SPINLIMIT: [21, 40, "Nm", 0.21, 1.31],
  SPINFINENESS: [21, 0.21],
  SHAREVARIATION: [0.25, 40],
  SPINRATE: [8000, 400, "tpm", 40, "tex", 0.9],
  SPINDLESNEEDED: [500, 40, 30],
  MACHINEHOURS: [500, 400, 30],
  MACHINERATE: [120, 20, "ktex", 2, 0.85],
  TRAVELLERSPEED: [46, 13500, "mm"],
  SPINDLELIMIT: [46, 32, "mm"],
  FIBRECOUNT: [20, "dtex", 1.31, 0.21],
};
/** These give a table and take their arguments whole. */
const TABLES = ["DRAFTPLAN", "TWISTCONVENTIONS", "DOFFPLAN", "MIXCOUNT"];

/** What makes the arguments before it lists of one blend. */
const TAKEN_WHOLE = ["FIBRES shares"];

type Cell = string | number | null | { code: string };

function call(id: string, cells: readonly (Cell | Cell[][])[]): unknown {
  const implementation = sourceFunctions.get(id) as (...cells: unknown[]) => unknown;
  // Excel hands a formula in a cell one argument more than was typed.
  return implementation(...cells.map((cell) => (Array.isArray(cell) ? cell : [[cell]])), { address: "Sheet1!A1" });
}

function codeOf(cell: unknown): string | undefined {
  return (cell as { code?: string }).code;
}

function thrownBy(run: () => unknown): { code: string; message: string } {
  try {
    run();
  } catch (thrown) {
    return thrown as { code: string; message: string };
  }
  throw new Error("nothing was refused");
}

/** The default as the parameter's description states it: a word marked "(default" or the number after "default". */
function documentedDefault(description: string): string | number | undefined {
  const word = /"([^"]+)" \(default/.exec(description);
  if (word) return word[1];
  const number = /default (\d[\d.]*)/.exec(description);
  return number ? Number(number[1]) : undefined;
}

test("the list names every function of these families, each with all its parameters", () => {
  expect([...Object.keys(CALLS), ...TABLES].sort()).toEqual(SPINNING.map(({ id }) => id).sort());
  for (const { id, parameters } of SPINNING) {
    const broadcasting = parameters.filter(({ name }) => !TAKEN_WHOLE.includes(`${id} ${name}`));
    if (id in CALLS) expect(CALLS[id], id).toHaveLength(broadcasting.length);
  }
});

describe.each(SPINNING.filter(({ id }) => id in CALLS))("$id", ({ id, parameters }) => {
  const good = CALLS[id] as readonly (string | number)[];
  const plain = call(id, good) as number[][];
  const withArgument = (index: number, cell: Cell | Cell[][]) => good.map((value, i) => (i === index ? cell : value));

  test("gives one finite number", () => {
    expect(plain).toEqual([[expect.any(Number)]]);
    expect(Number.isFinite(plain[0]?.[0])).toBe(true);
  });

  parameters.forEach(({ name, optional, description }, index) => {
    if (TAKEN_WHOLE.includes(`${id} ${name}`)) return;
    test(`${name}: a column gives a column, a row a row`, () => {
      const value = good[index] as Cell;
      expect(call(id, withArgument(index, [[value], [value], [value]]))).toEqual([plain[0], plain[0], plain[0]]);
      expect(call(id, withArgument(index, [[value, value]]))).toEqual([[plain[0]?.[0], plain[0]?.[0]]]);
    });

    test(`${name}: one bad row is an error in its own cell`, () => {
      const value = good[index] as Cell;
      const got = call(id, withArgument(index, [[value], ["no such"], [{ code: "#N/A" }], [value]])) as unknown[][];
      expect([got[0], got[3]]).toEqual([plain[0], plain[0]]);
      expect(codeOf(got[1]?.[0])).toBe("#VALUE!");
      expect(codeOf(got[2]?.[0])).toBe("#N/A");
    });

    test(`${name}: ${optional ? "left out or blank it takes its default" : "blank is refused alone, and stays blank in a column"}`, () => {
      const value = good[index] as Cell;
      const column = call(id, withArgument(index, [[value], [null], [""]])) as unknown[][];
      expect(column[0]).toEqual(plain[0]);
      if (optional) {
        expect(call(id, withArgument(index, null))).toEqual([column[1]]);
        expect(call(id, withArgument(index, undefined as never))).toEqual([column[1]]);
        expect(column[2]).toEqual(column[1]);
        const documented = documentedDefault(description);
        // 1.26108 is the rounded default; everything else is exact.
        const [[explicit]] = call(id, withArgument(index, documented ?? (good[1] as string))) as [[number]];
        expect(Math.abs((column[1]?.[0] as number) / explicit - 1)).toBeLessThan(documented === 1.26108 ? 3e-6 : 1e-15);
      } else {
        expect(column.slice(1)).toEqual([[""], [""]]);
        expect(thrownBy(() => call(id, withArgument(index, null)))).toMatchObject({
          code: "#VALUE!",
          message: `${name} is blank; must be given`,
        });
      }
    });

    test(`${name}: a wrong kind of value is refused by name in 120 characters`, () => {
      const wrong: Cell[] = typeof good[index] === "number" ? ["abc", true as never, -1e9] : [true as never, "qqq"];
      for (const cell of wrong) {
        if (id === "TWISTUNIT" && typeof cell === "number") continue; // a residual twist may be negative
        const { code, message } = thrownBy(() => call(id, withArgument(index, cell)));
        expect(code).toBe("#VALUE!");
        expect(message.startsWith(`${name} is `), message).toBe(true);
        expect(message.length).toBeLessThanOrEqual(120);
        expect(message.endsWith("…"), message).toBe(false);
      }
    });

    test(`${name}: shapes that do not match are refused with both`, () => {
      const other = index === 0 ? 1 : 0;
      if (parameters.length === 1) return;
      const cells = withArgument(index, [[good[index] as Cell], [good[index] as Cell]]);
      cells[other] = [[good[other] as Cell], [good[other] as Cell], [good[other] as Cell]];
      const { code, message } = thrownBy(() => call(id, cells));
      expect(code).toBe("#VALUE!");
      expect(message).toContain("2×1");
      expect(message).toContain("3×1");
    });

    if (typeof good[index] === "number") {
      test(`${name}: no size of number gives anything but a finite number or an error`, () => {
        for (const size of [5e-324, 1e-300, 1e-9, 0, 1, 2, 1e9, 1e300, 1.7e308, -0]) {
          const [[cell]] = call(id, withArgument(index, [[size], [size]])) as [[unknown]];
          if (typeof cell === "number") {
            expect(Number.isFinite(cell) && !Object.is(cell, -0), `${size} gave ${cell}`).toBe(true);
          } else {
            expect(["#VALUE!", "#NUM!"], `${size}`).toContain(codeOf(cell));
          }
        }
      });
    }
  });
});

describe("words", () => {
  test("of twist units and conventions are matched without regard to case and spaces", () => {
    expect(sheet('=YARN.TWISTUNIT(1,"  TPI ","Tpm")')).toEqual(sheet('=YARN.TWISTUNIT(1,"tpi","tpm")'));
    expect(sheet('=YARN.FACTORUNIT(1,"TEX  TPM","ysw")')).toEqual(sheet('=YARN.FACTORUNIT(1,"tex tpm","YSW")'));
  });

  test("an unknown one is answered with the choices or the nearest", () => {
    expect(messageOf('=YARN.TWISTUNIT(1,"tpx","tpm")')).toBe(
      '#VALUE! from is "tpx", not a unit of twist; write tpm, tpi or tpcm',
    );
    expect(messageOf('=YARN.FACTORUNIT(1,"wosted","metric")')).toBe(
      '#VALUE! from is "wosted", not a twist-factor convention; the nearest is worsted',
    );
    expect(messageOf('=YARN.PLYTWIST(300,2,"half")')).toBe(
      '#VALUE! rule is "half", not a rule; write two-thirds, n/(n+1) or axial',
    );
  });

  test.each(Object.keys(AMBIGUOUS_CONVENTION_WORDS))(
    "%s has several meanings: refused, with every choice in full in the message",
    (bare) => {
      const message = messageOf(`=YARN.TWISTFACTOR(10,"tpi",10,"NeW","${bare}")`);
      expect(message).toBe(
        `#VALUE! convention is "${bare}", of several meanings; write ${AMBIGUOUS_CONVENTION_WORDS[bare] as string}`,
      );
      const words = TWIST_CONVENTIONS.map(({ word }) => word);
      const choices = (AMBIGUOUS_CONVENTION_WORDS[bare] as string).split(/, | or /);
      expect(choices.filter((choice) => !words.includes(choice))).toEqual([]);
      expect(choices.length).toBeGreaterThan(1);
    },
  );

  test("every row of the tables has a known source, and no word stands twice", () => {
    const keys = SOURCES.map(({ key }) => key);
    for (const { source } of [...TWIST_UNITS, ...TWIST_CONVENTIONS]) expect(keys).toContain(source);
    for (const rows of [TWIST_UNITS, TWIST_CONVENTIONS]) {
      const spellings = rows.flatMap(({ word, aliases }) => [word, ...aliases]).map((word) => word.toLowerCase());
      expect(new Set(spellings).size).toBe(spellings.length);
    }
  });
});

describe("fractions", () => {
  test.each([
    ['=YARN.FIBRES(30,"tex",21,21)', "cv is 21; write 21% or 0.21"],
    ["=YARN.LIMITCV(40,25)", "cv is 25; write 25% or 0.25"],
    ["=YARN.EVENNESSINDEX(18.25,40)", "cv_measured is 18.25; write 18.25% or 0.1825"],
    ["=YARN.DOUBLEDCV(0.05,8,3)", "cv_added is 3; write 3% or 0.03"],
    ["=YARN.SHAREVARIATION(25,40)", "share is 25; write 25% or 0.25"],
    ['=YARN.DRAFT(500,"tex",40,"tex",1,2)', "waste is 2; write 2% or 0.02"],
    ['=YARN.DRAWN(500,"tex",12,1,0,3)', "contraction is 3; write 3% or 0.03"],
    ['=YARN.SPINRATE(8000,400,"tpm",40,"tex",90)', "efficiency is 90; write 90% or 0.9"],
    ['=YARN.DRAFTPLAN(20,"ktex",{8,8,5})', "passages row 1, waste, is 5; write 5% or 0.05"],
  ])("%s is answered with how to write the percent", (formula, beginning) => {
    expect(messageOf(formula)).toContain(`#VALUE! ${beginning}`);
  });
});

describe("rules of thumb", () => {
  test("PLYTWIST has no default rule", () => {
    expect(messageOf("=YARN.PLYTWIST(300,2,)")).toBe("#VALUE! rule is blank; must be given");
    expect(messageOf("=YARN.PLYTWIST(300,2,67)")).toContain("rule is 67; must be a ratio above 0 and at most 5");
    expect(messageOf("=YARN.PLYTWIST(300,1,0.5)")).toBe(
      "#VALUE! plies is 1; must be a whole number from 2 to 12, as yarns are plied",
    );
  });

  test.each(["TWISTANGLE", "PLYTWIST", "SPINLIMIT", "SPINFINENESS"])("%s says that it rests on one", (id) => {
    expect(SPINNING.find((entry) => entry.id === id)?.remarks.toLowerCase()).toContain("rule of thumb");
  });

  test("what is recalled says so where it is used", () => {
    for (const { id, description, remarks, sources } of SPINNING) {
      if (sources.includes("MEMORY")) expect(description + remarks, id).toContain("from memory, verify before use");
      if (sources.includes("PRACTICE")) expect(description + remarks, id).toContain("common practice, no source");
    }
  });

  test("the functions of the machines carry the caution", () => {
    for (const id of ["SPINRATE", "SPINDLESNEEDED", "MACHINEHOURS"]) {
      const remarks = SPINNING.find((entry) => entry.id === id)?.remarks;
      expect(remarks).toContain("the machine maker's; guards and lock-out as local rules demand");
    }
  });
});

describe("DRAFTPLAN", () => {
  test("names the column and row of what is wrong in its table", () => {
    expect(messageOf('=YARN.DRAFTPLAN(20,"ktex",{8,8;0,9})')).toContain("passages row 2, doublings, is 0");
    expect(messageOf('=YARN.DRAFTPLAN(20,"ktex",{8;9})')).toBe(
      "#VALUE! passages is 1 column wide; give 2 to 3: doublings, draft, waste",
    );
    expect(messageOf('=YARN.DRAFTPLAN({20;30},"ktex",{8,8})')).toBe(
      "#VALUE! count_in is 2×1 cells; must be a single cell",
    );
  });

  test("a blank waste is none, a blank draft is refused, blank rows at the end are not passages", () => {
    const rows = call("DRAFTPLAN", [
      20,
      "ktex",
      [
        [8, 8, null],
        [6, 9, 0.02],
        [null, null, null],
      ],
      null,
    ]) as unknown[][];
    expect(rows).toHaveLength(3);
    expect(rows[1]?.[4]).toBe(20);
    expect(thrownBy(() => call("DRAFTPLAN", [20, "ktex", [[8, null]], null])).message).toBe(
      "passages row 1, draft, is blank; fill it in; a blank is not 0",
    );
  });

  test("an error value in the table goes out as it came", () => {
    expect(thrownBy(() => call("DRAFTPLAN", [20, "ktex", [[8, { code: "#REF!" }]], null])).code).toBe("#REF!");
  });

  test("is in the system of the count fed unless another is asked for", () => {
    expect(sheet('=INDEX(YARN.DRAFTPLAN(20,"ktex",{8,8}),1,2)')).toBe("count in (ktex)");
    expect(sheet('=INDEX(YARN.DRAFTPLAN(20,"ktex",{8,8},"Nm"),1,5)')).toBe("count out (Nm)");
  });
});

test("TWISTCONVENTIONS: header, eight rows, sizes by which factors convert", () => {
  const rows = call("TWISTCONVENTIONS", []) as (string | number)[][];
  expect(rows.map((row) => row[0])).toEqual(["word", ...TWIST_CONVENTIONS.map(({ word }) => word)]);
  for (const row of rows.slice(1)) {
    const factor = sheet(`=YARN.FACTORUNIT(1,"${row[0] as string}","tex tpm")`);
    expect(Math.abs((factor as number) / (row[4] as number) - 1)).toBeLessThan(1e-14);
    expect(COUNT_SYSTEMS.map(({ word }) => word)).toContain(row[3]);
  }
});

test("zero speeds and counts are refused, not divided by", () => {
  for (const formula of ["=YARN.TWIST(15000,0)", '=YARN.DRAFT(0,"tex",1,"tex")', "=YARN.LIMITCV(0)"]) {
    expect(sheet(formula)).toBeInstanceOf(CellError);
    expect(messageOf(formula)).toMatch(/is 0; must be a number (above 0|of fibres, 1 or more)$/);
  }
});

describe("FIBRES of a blend", () => {
  test("takes one cell for all or one a fibre, and refuses what does not go together", () => {
    const fibres = (...cells: (Cell | Cell[][])[]): unknown => call("FIBRES", cells);
    const refused = (...cells: (Cell | Cell[][])[]): string => thrownBy(() => fibres(...cells)).message;
    expect(fibres([[20], [40]], "tex", [[21], [18]], 0.2, null, [[0.5], [0.5]])).toHaveLength(2);
    expect(refused(20, "tex", [[21], [18]], null, null, [[0.5], [0.4]])).toContain("shares is 0.9 in all");
    expect(refused(20, "tex", [[21], [18], [30]], null, null, [[0.5], [0.5]])).toContain("micron is 3 items long");
    expect(refused(20, "tex", null, null, null, [[0.5], [0.5]])).toContain("micron is blank");
    expect(refused(20, "tex", [[21], [18]], null, null, [[50], [50]])).toContain("write 50% or 0.5");
  });
});
