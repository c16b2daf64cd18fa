import { describe, expect, test } from "vitest";
import * as general from "../../src/sheet/kinds";
import * as fibreKinds from "../../src/sheet/fibre-kinds";
import { channel, wavelength, wavelengthStep } from "../../src/sheet/shades";
import { efficiencyShare, machineWaste, plyRule, strands } from "../../src/sheet/spinning";
import { vocabulary } from "../../src/sheet/words";
import { refusalOf } from "../support/refusals";

const kinds = {
  ...general,
  ...fibreKinds,
  ...{ channel, wavelength, wavelengthStep },
  ...{ efficiencyShare, machineWaste, strands },
};

const TINY = Number.MIN_VALUE;

/** Kind, the numbers at and next to its limits that it takes, and those that it refuses. */
const LIMITS: [name: keyof typeof kinds, taken: number[], refused: number[]][] = [
  ["anyNumber", [-1e308, 0, 1e308], []],
  ["positive", [TINY, 1e308], [0, -TINY, -1]],
  ["notNegative", [0, TINY], [-TINY, -1]],
  ["wholeNumber", [1, 2, 1e9], [0, -1, 1.5, 0.5]],
  ["decimalPlaces", [-9, 0, 9], [-10, 10, 0.5]],
  ["share", [0, 0.5, 1], [-0.01, 1.01, 50]],
  ["shareAboveZero", [TINY, 1], [0, -1, 1.01]],
  ["loss", [-1, 0, 0.999], [1, -1.01, 5]],
  ["regain", [0, 0.1825, 1], [-0.01, 1.01, 18.25]],
  ["cleanYield", [0.1, 1, 1.5], [0, 0.00724, 0.0999, 1.51, 72]],
  ["standardRegain", [0, 0.1825, 0.3], [-0.01, 0.31, 0.9, 18.25]],
  ["diameterVariation", [0, 0.24, 1], [-0.01, 1.31, 24]],
  ["variation", [0, 2], [-0.01, 2.01, 24]],
  ["woolMicron", [8, 21, 60], [0, 7.9, 60.1, 2000]],
  ["fibreMicron", [4, 150], [0, 3.9, 151]],
  ["fibreDensity", [0.8, 1.31, 3], [0, 0.7, 3.1, 1310]],
  ["stapleLength", [20, 85, 400], [3.3, 8.5, 401]],
  ["stapleStrength", [5, 38, 70], [0.038, 4.9, 71]],
  ["micronDeviation", [0, 1, 5.2, 30], [-1, 0.24, 31]],
  ["takeUp", [-0.4, 0, 0.4], [0.5, -0.41, 1, 5]],
  ["rate", [0, 10], [-0.01, 10.1]],
  ["channel", [0, 127.5, 255], [-0.5, 255.5]],
  ["wavelength", [200, 550, 1000], [199.9, 1000.1]],
  ["wavelengthStep", [TINY, 10, 100], [0, -10, 100.1]],
  ["strands", [2, 12], [1, 0, 2.5]],
  ["machineWaste", [0, 0.4], [-0.01, 0.5, 1, 5]],
  ["efficiencyShare", [0.05, 1], [0, 0.009, 1.01, 85]],
];

describe.each(LIMITS)("%s", (name, taken, refused) => {
  const kind = kinds[name] as general.Kind<number>;

  test("takes what lies within its limits, unchanged", () => {
    for (const value of taken) expect(kind(value, "arg")).toBe(value);
  });

  test("refuses what lies beyond, by name and figure", () => {
    for (const value of refused) expect(refusalOf(() => kind(value, "arg"))).toContain(`#VALUE! arg is ${value}; `);
  });

  test("takes no number beyond those that stand for themselves, where it names them", () => {
    const [least, most] = kind.plain ?? [NaN, NaN];
    expect(taken.filter((value) => value < least || value > most)).toEqual([]);
    expect(refused.filter((value) => value >= least && value <= most)).toEqual([]);
  });

  test("tells what it will refuse without reading it", () => {
    expect(kind.refusalOf).toBeDefined();
    for (const value of taken) expect(kind.refusalOf?.(value)).toBeUndefined();
    for (const cell of [...refused, "text", NaN, Infinity, true]) expect(kind.refusalOf?.(cell)).toBe("argument");
  });

  test("refuses what is no number, saying what is wanted", () => {
    for (const [cell, came] of [
      ["12", 'text "12"'],
      [true, "TRUE"],
      [NaN, "not a number"],
      [Infinity, "not a number"],
      [null, "blank"],
    ] as const) {
      expect(refusalOf(() => kind(cell, "arg"))).toContain(`arg is ${came}; must be `);
    }
  });
});

test("a ratio of ply twist to singles twist is above 0 and at most 5", () => {
  for (const ratio of [TINY, 0.67, 5]) expect(plyRule(ratio, "rule")).toBe(ratio);
  for (const ratio of [0, -0.67, 5.1]) {
    expect(refusalOf(() => plyRule(ratio, "rule"))).toBe(
      `#VALUE! rule is ${ratio}; must be a ratio above 0 and at most 5, such as 0.67`,
    );
  }
});

describe("a percent typed whole", () => {
  test.each([
    [18.25, "write 18.25% or 0.1825"],
    [1.01, "write 1.01% or 0.0101"],
    [7, "write 7% or 0.07"],
    [100, "write 100% or 1"],
  ])("%d is answered with how to write it", (value, advice) => {
    expect(refusalOf(() => kinds.regain(value, "regain"))).toBe(
      `#VALUE! regain is ${value}; ${advice}; must be 0 to 1 (0% to 100%)`,
    );
  });

  test("of exactly 1 where 1 is not allowed is one too", () =>
    expect(refusalOf(() => kinds.loss(1, "loss"))).toContain("write 1% or 0.01"));

  test("is no advice that would be refused again", () => {
    expect(refusalOf(() => kinds.regain(1000, "r"))).toBe("#VALUE! r is 1000; must be 0 to 1 (0% to 100%)");
    expect(refusalOf(() => kinds.vegetableMatter(40, "v"))).toBe("#VALUE! v is 40; must be 0 to 0.3 (0% to 30%)");
    expect(refusalOf(() => kinds.rate(1000, "r"))).toContain("write 1000% or 10; ");
  });

  test("is not guessed at up to 2 where more than 100 % is allowed", () => {
    for (const value of [1.6, 2]) expect(refusalOf(() => kinds.cleanYield(value, "y"))).not.toContain("write");
    expect(refusalOf(() => kinds.cleanYield(72, "y"))).toContain("write 72% or 0.72; ");
  });

  test("nor at 2 itself, and above 2 it can only be one", () => {
    const kind = kinds.fraction(0, 1.5, "must be 0 to 1.5");
    for (const value of [1.6, 2])
      expect(refusalOf(() => kind(value, "y"))).toBe(`#VALUE! y is ${value}; must be 0 to 1.5`);
    expect(refusalOf(() => kind(2.1, "y"))).toBe("#VALUE! y is 2.1; write 2.1% or 0.021; must be 0 to 1.5");
  });

  test("is not guessed at below 1 or above 1000", () => {
    expect(refusalOf(() => kinds.regain(-0.5, "r"))).toBe("#VALUE! r is -0.5; must be 0 to 1 (0% to 100%)");
    expect(refusalOf(() => kinds.regain(1000.5, "r"))).toBe("#VALUE! r is 1000.5; must be 0 to 1 (0% to 100%)");
    const tenth = kinds.fraction(0, 0.1, "must be 0 to 0.1");
    expect(refusalOf(() => tenth(0.5, "r"))).toBe("#VALUE! r is 0.5; must be 0 to 0.1");
    // The limits themselves are allowed, unless the upper one is said to be open.
    expect(tenth(0.1, "r")).toBe(0.1);
    expect(refusalOf(() => kinds.fraction(0, 0.1, "must be below 0.1", true)(0.1, "r"))).toContain("r is 0.1");
  });
});

describe("a percent sign behind a fraction", () => {
  test("is answered with how to write it, if that would be taken", () => {
    expect(refusalOf(() => kinds.cleanYield(0.00724, "y"))).toBe(
      "#VALUE! y is 0.00724; write 72.4% or 0.724; must be 0.1 to 1.5 (10% to 150%)",
    );
    for (const value of [0, -0.00724, 0.0005, 0.09]) expect(refusalOf(() => kinds.cleanYield(value, "y"))).not.toContain("write"); // prettier-ignore
  });
});

describe("a rate that is small by nature", () => {
  const kind = kinds.percentOf(0.1, "must be 0 to 0.1");

  test("takes its limits, and a number beyond can only be a percent", () => {
    for (const value of [0, 0.05, 0.1]) expect(kind(value, "fee")).toBe(value);
    for (const [value, advice] of [
      [0.5, "write 0.5% or 0.005; "],
      [3, "write 3% or 0.03; "],
      [10, "write 10% or 0.1; "],
    ] as const) {
      expect(refusalOf(() => kind(value, "fee"))).toBe(`#VALUE! fee is ${value}; ${advice}must be 0 to 0.1`);
    }
    for (const value of [-0.01, -3, 10.1]) expect(refusalOf(() => kind(value, "fee"))).toBe(`#VALUE! fee is ${value}; must be 0 to 0.1`); // prettier-ignore
  });
});

describe("kinds that are made where they are needed", () => {
  const MADE: [what: string, make: () => general.Kind<number>, taken: number[], refused: number[]][] = [
    ["numberThat", () => kinds.numberThat("must be odd", (value) => value % 2 === 1), [1, 3], [2, 0.5]],
    ["numberBetween", () => kinds.numberBetween(2, 4, "must be 2 to 4"), [2, 3, 4], [1.9, 4.1]],
    ["wholeThat", () => kinds.wholeThat("must be whole", (value) => value > 1), [2, 3], [1, 2.5]],
    ["fraction", () => kinds.fraction(0, 0.3, "must be 0 to 0.3"), [0, 0.3], [-0.1, 0.4]],
    ["open fraction", () => kinds.fraction(0, 0.3, "must be below 0.3", true), [0, 0.29], [-0.1, 0.3]],
    ["percentOf", () => kinds.percentOf(0.3, "must be 0 to 0.3"), [0, 0.3], [-0.1, 0.4]],
  ];

  test.each(MADE)("%s tells what it will refuse without reading it", (_, make, taken, refused) => {
    const kind = make();
    for (const value of taken) expect([kind(value, "a"), kind.refusalOf?.(value)]).toEqual([value, undefined]);
    for (const cell of [...refused, NaN, Infinity, "2", null]) expect(kind.refusalOf?.(cell)).toBe("argument");
    for (const value of refused) expect(refusalOf(() => kind(value, "a"))).toContain(`a is ${value}; `);
  });

  test("those whose numbers stand for themselves say between which", () => {
    expect(MADE.map(([, make]) => make().plain)).toEqual([undefined, [2, 4], undefined, [0, 0.3], undefined, [0, 0.3]]);
    expect(kinds.blankIs(kinds.numberBetween(2, 4, ""), 7).plain).toEqual([2, 4]);
    expect(kinds.blankIs(kinds.text, "").plain).toBe(undefined);
  });

  test("4.35*100 is whole, as its cell shows it", () => {
    const kind = kinds.wholeThat("must be whole", () => true);
    expect([kind(4.35 * 100, "a"), kind.refusalOf?.(4.35 * 100)]).toEqual([435, undefined]);
  });

  test("a zero that can only be a blank is one", () => {
    const kind = kinds.blankOrZero(kinds.positive, 7);
    expect([0, null, "", 3].map((cell) => kind(cell, "a"))).toEqual([7, 7, 7, 3]);
    expect(refusalOf(() => kind(-1, "a"))).toContain("a is -1");
    expect(kinds.mayBeBlank(kind)).toBe(true);
  });

  test("a deviation of fibres from 10 on can only be a percent, below it is none", () => {
    expect(refusalOf(() => kinds.diameterVariation(10, "cv"))).toContain("write 10% or 0.1; ");
    expect(refusalOf(() => kinds.diameterVariation(9.9, "cv"))).not.toContain("write");
    expect(refusalOf(() => kinds.diameterVariation("24", "cv"))).toContain("makes it one");
  });
});

describe("text where a number is needed", () => {
  test.each([
    ["36,5", 'NUMBERVALUE(…,",",".") makes it one'],
    ["1.234,5", 'NUMBERVALUE(…,",",".") makes it one'],
    ["0,125", 'NUMBERVALUE(…,",",".") makes it one'],
    ["1,234.5", 'NUMBERVALUE(…,".",",") makes it one'],
    ["8%", 'NUMBERVALUE(…,".",",") makes it one'],
    ["1 200", 'NUMBERVALUE(…,".",",") makes it one'],
    ["1,200", "type it as a number"],
    ["1.200", "type it as a number"],
    [" 36,5 ", 'NUMBERVALUE(…,",",".") makes it one'],
  ])("%s is answered with how to make it a number", (written, advice) => {
    expect(refusalOf(() => kinds.positive(written, "a"))).toBe(
      `#VALUE! a is text "${written}"; must be a number above 0; ${advice}`,
    );
  });

  test("is known to be one", () => {
    expect(["36,5", "8%", "1.200", "12 tex", ""].map(kinds.readsAsNumber)).toEqual([true, true, true, false, false]);
  });

  test.each(["12 tex", "1,2,3", "", "n/a", "1.2.3"])("%s is left at what is wanted", (written) => {
    expect(refusalOf(() => kinds.positive(written, "a"))).toMatch(/; must be a number above 0$/);
  });

  test("gets no advice that would make the message too long", () => {
    const wanted = `must be ${"x".repeat(75)}`;
    const kind = kinds.numberThat(wanted, () => true);
    expect(refusalOf(() => kind("36,5", "a"))).toBe(`#VALUE! a is text "36,5"; ${wanted}`);
  });
});

describe("text and truth", () => {
  test("text is trimmed; a number counts as what is seen of it", () => {
    expect(kinds.text("  30 tex ", "t")).toBe("30 tex");
    expect(kinds.text(28, "t")).toBe("28");
    for (const cell of [true, NaN, Infinity, {}]) {
      expect(refusalOf(() => kinds.text(cell, "t"))).toMatch(/^#VALUE! t is .+; must be text$/);
    }
  });

  test("truth is TRUE, FALSE, 1 or 0", () => {
    expect([true, false, 1, 0].map((cell) => kinds.truth(cell, "t"))).toEqual([true, false, true, false]);
    for (const cell of ["TRUE", 2, -1, 0.5]) {
      expect(refusalOf(() => kinds.truth(cell, "t"))).toMatch(/^#VALUE! t is .+; must be TRUE or FALSE$/);
    }
  });
});

describe("a word", () => {
  const sizes = vocabulary("size", [
    ["small", 1],
    ["large", 2],
  ]);

  test("tells what it will refuse without reading it", () => {
    const kind = kinds.word(sizes);
    expect(["small", " LARGE", "tiny", 5, null].map((cell) => kind.refusalOf?.(cell))).toEqual([
      ...[undefined, undefined, "argument", "argument", "argument"],
    ]);
  });

  test("is read in any order, the same word again included", () => {
    const kind = kinds.word(sizes);
    expect(["small", "small", "large", "LARGE", "small"].map((cell) => kind(cell, "s"))).toEqual([1, 1, 2, 2, 1]);
  });

  test("must be text", () => {
    const kind = kinds.word(sizes);
    for (const [cell, came] of [
      [5, "5"],
      [undefined, "blank"],
      [false, "FALSE"],
    ] as const) {
      expect(refusalOf(() => kind(cell, "s"))).toBe(`#VALUE! s is ${came}, no size; write small or large`);
    }
  });

  test("that was refused is refused again", () => {
    const kind = kinds.word(sizes);
    for (let again = 0; again < 2; again++) expect(refusalOf(() => kind("tiny", "s"))).toContain('s is "tiny"');
    expect(refusalOf(() => kind("tiny", "other"))).toContain('other is "tiny"');
    expect(kind("large", "s")).toBe(2);
    expect(refusalOf(() => kind("tiny", "s"))).toContain('s is "tiny"');
  });

  test("is looked up once in a column of the same", () => {
    let looked = 0;
    const meanings = new Map(sizes.meanings);
    const counting = {
      ...sizes,
      meanings: { ...meanings, get: (key: string) => (looked++, meanings.get(key)) } as never,
    };
    const kind = kinds.word<number>(counting);
    expect(["large", "large", "large"].map((cell) => kind(cell, "s"))).toEqual([2, 2, 2]);
    expect(looked).toBe(1);
  });
});

describe("kinds made of kinds", () => {
  test("a number or something else, told apart by the cell", () => {
    const kind = kinds.numberOr(kinds.positive, kinds.text);
    expect([kind(2, "x"), kind("rule", "x")]).toEqual([2, "rule"]);
    expect(refusalOf(() => kind(-2, "x"))).toContain("above 0");
    expect(refusalOf(() => kind(true, "x"))).toContain("must be text");
  });

  test("a blank may mean something, and only kinds made so may be blank", () => {
    const kind = kinds.blankIs(kinds.positive, 7);
    expect([null, undefined, "", 3].map((cell) => kind(cell, "x"))).toEqual([7, 7, 7, 3]);
    expect(refusalOf(() => kind(-3, "x"))).toContain("x is -3");
    expect([kinds.mayBeBlank(kind), kinds.mayBeBlank(kinds.positive)]).toEqual([true, false]);
  });
});
