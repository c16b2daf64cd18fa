import { describe, expect, test } from "vitest";
import type { CellError } from "../../src/recalculate/engine";
import { type Outcome } from "../../src/recalculate/engine";
import { documentedFunctions } from "../../src/documentation/docblocks.mjs";
import { rowText, rowsText, textile } from "../support/measured-textiles";
import { messageOf, sheet } from "../support/functions";

const SOCK = rowText(textile(47));
const SOLIDS = rowsText([textile(47), textile(159), textile(53), textile(79)]);
const TARGET = rowText(textile(165));

function rows(formula: string): (string | number | boolean | null | CellError)[][] {
  const outcome: Outcome = sheet(formula);
  if (!Array.isArray(outcome)) throw new Error(`${formula} gave ${JSON.stringify(outcome)}`);
  return outcome;
}

describe("one row per item", () => {
  test("a single standard serves a column of samples; a blank row stays blank", () => {
    const got = rows('=YARN.SHADEDIFF({50,20,30},{51,21,28;"","","";50,20,30},"1976")').map(([cell]) => cell);
    expect(got[0]).toBeCloseTo(Math.sqrt(6), 12);
    expect(got.slice(1)).toEqual(["", 0]);
  });
  test("a bad row is an error in its own cell, an error value passes through", () => {
    const got = rows("=YARN.SHADEDIFF({50,0,0},{51,0,0;500,0,0;NA(),0,0})".replace("NA()", "#N/A")).map(
      ([cell]) => cell,
    );
    expect(got[0]).toBeTypeOf("number");
    expect(got[1]).toMatchObject({ code: "#VALUE!" });
    expect(got[2]).toMatchObject({ code: "#N/A" });
  });
  test("the formula may go along row by row", () => {
    const got = rows('=YARN.SHADEDIFF({50,0,0},{52,0,0},{"1976";"1994";"CMC 2:1"})');
    expect(got).toHaveLength(3);
    expect(got[0]).toEqual([2]);
  });
  test("rows of L*a*b* of different numbers are refused with both shapes", () => {
    expect(messageOf("=YARN.SHADEDIFF({50,0,0;51,0,0},{50,0,0;51,0,0;52,0,0})")).toBe(
      "#VALUE! lab_1 is 2×1; must be one cell or match lab_2, which is 3×1",
    );
  });
  test("several targets give a recipe a row; a bad one fails alone", () => {
    const got = rows(`=YARN.MIXMATCH({50,0,0;50,200,0;70,30,10},{50,0,0;70,30,10})`);
    expect(got).toHaveLength(3);
    expect(got[0]).toEqual([expect.closeTo(1, 6), expect.closeTo(0, 6)]);
    expect(got[2]).toEqual([expect.closeTo(0, 6), expect.closeTo(1, 6)]);
    for (const cell of got[1] ?? []) expect(cell).toMatchObject({ code: "#VALUE!" });
  });
  test("several recipes give a row each; one that does not sum to 1 fails alone", () => {
    const got = rows("=YARN.MIXSHADE({0.5,0.5;0.5,0.4;1,0},{50,0,0;70,30,10})");
    expect(got.map((row) => row.length)).toEqual([3, 3, 3]);
    expect(got[1]).toEqual(new Array(3).fill(expect.objectContaining({ code: "#VALUE!" })));
    expect(got[2]?.[0]).toBeCloseTo(50, 6);
  });
  test("16 bands serve as well as 31, within the error of interpolation", () => {
    const coarse = rowText(textile(47).filter((_, index) => index % 2 === 0));
    const difference = sheet(`=YARN.SHADEDIFF(YARN.LABOF(${SOCK}),YARN.LABOF(${coarse}))`);
    expect(difference).toBeTypeOf("number");
    expect(difference as number).toBeLessThan(0.2);
  });
});

describe("MIXCHOICES", () => {
  const header = (formula: string): unknown => rows(formula)[0];
  test("has a header with units, shares per solid, and a cost column only with prices", () => {
    const shares = [1, 2, 3, 4].map((index) => `solid ${index} (share)`);
    const common = [
      ...["choice", ...shares, "L*", "a*", "b*", "difference (CIEDE2000, A/10)"],
      ...["worst difference in another light (CIEDE2000)", "note"],
    ];
    expect(header(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},2,,,"A/10")`)).toEqual(common);
    expect(header(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},2,,,"A/10",,{10,20,30,40})`)).toEqual([
      ...common,
      "cost (per kg)",
    ]);
  });
  test("agrees with MIXMATCH, MIXSHADE, SHADEDIFF and the prices", () => {
    const [, first] = rows(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},3,,,,0.01,{10,20,30,40})`) as number[][];
    const shares = first!.slice(1, 5);
    const matched = rows(`=YARN.MIXMATCH(${TARGET},${SOLIDS},3,,,,0.01)`).map(([share]) => share);
    expect(shares).toEqual(matched);
    const cost = shares.reduce((sum, share, index) => sum + share * 10 * (index + 1), 0);
    expect(first![11]).toBeCloseTo(cost, 9);
    const shown = rows(`=YARN.MIXSHADE(${rowText(shares)},${SOLIDS})`)[0] as number[];
    shown.forEach((value, axis) => expect(first![5 + axis]).toBeCloseTo(value, 9));
    expect(first![8]).toBeCloseTo(sheet(`=YARN.SHADEDIFF(YARN.LABOF(${TARGET}),${rowText(shown)})`) as number, 9);
  });
  test("shows at most the choices asked for, five by default, each of other solids", () => {
    expect(rows(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},2)`).length).toBeLessThanOrEqual(6);
    expect(rows(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},2,,,,,,2)`)).toHaveLength(3);
    expect(rows(`=YARN.MIXCHOICES(${TARGET},${SOLIDS},1,,,,,,9)`)).toHaveLength(5);
  });
  test("says L*a*b* only and leaves the other lights blank when a row is L*a*b*", () => {
    const [, first] = rows(`=YARN.MIXCHOICES({40,10,10},${SOLIDS},2)`);
    expect(first?.slice(9)).toEqual(["", expect.stringMatching(/^L\*a\*b\* only/)]);
    const [, second] = rows(`=YARN.MIXCHOICES(${TARGET},{30,0,0;70,20,20},2)`);
    expect(second?.slice(7)).toEqual(["", expect.stringMatching(/^L\*a\*b\* only/)]);
  });
  test("says near-best and heuristic when it is", () => {
    const invented = Array.from({ length: 30 }, (_, index) => {
      const hue = index * 0.7;
      return [30 + index, 15 * Math.cos(hue), 15 * Math.sin(hue)];
    });
    const note = (parts: number): unknown => rows(`=YARN.MIXCHOICES({45,3,4},${rowsText(invented)},${parts})`)[1]?.[36];
    expect(note(2)).toMatch(/^L\*a\*b\* only/);
    expect(note(3)).toMatch(/^near-best; L\*a\*b\* only/);
    expect(note(5)).toMatch(/^heuristic; L\*a\*b\* only/);
  });
});

describe("limits of shares, and what is told", () => {
  const FOUR = "{85,0,8;45,-18,15;38,1,-9;60,30,20}";
  const shares = (rest: string) =>
    rows(`=YARN.MIXMATCH({55,0,5},${FOUR},4,${rest})`).map(([share]) => share) as number[];
  test("one least share a solid is used in any case; a greatest of 0 takes a solid away", () => {
    const got = shares("{0;0;0;0.2},,,,{1;1;0;1}");
    expect(got[3]).toBeGreaterThanOrEqual(0.2 - 1e-9);
    expect(got[2]).toBe(0);
    expect(Math.max(...shares("0,,,,0.4"))).toBeLessThanOrEqual(0.4 + 1e-9);
    // A blank is no limit, and names say whose limit it is.
    expect(shares('{"";"";"";0.2},,,,{"";"";0;""}')).toEqual(got);
  });
  test("the cheapest within a difference costs no more than the nearest", () => {
    const table = (within: string) => rows(`=YARN.MIXCHOICES({55,0,5},${FOUR},3,,,,0.05,{10;30;25;40},,,${within})`);
    const [nearest, cheapest] = [table("")[1], table("8")[1]] as [number[], number[]];
    expect(cheapest[11]).toBeLessThan(nearest[11]!);
    expect(cheapest[8]).toBeLessThanOrEqual(8);
    expect(messageOf(`=YARN.MIXCHOICES({55,40,5},${FOUR},3,,,,,{10;30;25;40},,,1)`)).toMatch(
      /^#N\/A within is 1; the nearest recipe is [\d.]+ off$/,
    );
    expect(messageOf(`=YARN.MIXCHOICES({55,0,5},${FOUR},3,,,,,,,,1)`)).toBe(
      "#VALUE! prices is blank; give them: within asks for the cheapest",
    );
  });
  test("a shade out of reach and a reflectance over 1 are told", () => {
    expect(rows(`=YARN.MIXCHOICES({55,40,5},${FOUR},3)`)[1]?.[10]).toMatch(/^L\*a\*b\* only; out of reach by \d+\.\d$/);
    const bright = rowsText([textile(47), textile(159).map((value, band) => (band < 5 ? 1.04 : value))]);
    expect(rows(`=YARN.MIXCHOICES(${TARGET},${bright},2)`)[1]?.[8]).toMatch(
      /reflectance over 1: brightener or wrong reading/,
    );
  });
  const ZEROS = rowText(new Array<number>(31).fill(0));
  test.each([
    [
      `=YARN.MIXMATCH({55,0,5},${FOUR},2,{0.1;0.1;0.1;0})`,
      "parts is 2; must be 3 or more: min_share asks for so many solids",
    ],
    [`=YARN.MIXMATCH({55,0,5},${FOUR},2,,,,,0.4)`, "#N/A max_share is 0.8 in 2 solids; take more parts"],
    [
      `=YARN.MIXMATCH({55,0,5},${FOUR},4,{0.5;0.6;0;0})`,
      "#N/A min_share is 1.1 in all; shares of 1 in all cannot be met",
    ],
    [
      `=YARN.MIXMATCH({55,0,5},${FOUR},4,{0.5;0;0;0},,,,{0.4;1;1;1})`,
      "min_share item 1 is 0.5; must not be above its max_share, 0.4",
    ],
    [`=YARN.MIXMATCH({55,0,5},${FOUR},4,0.5,,,,0.4)`, "min_share is 0.5; must not be above max_share, 0.4"],
    [
      `=YARN.MIXMATCH({55,0,5},${FOUR},4,,,,,{1;1;1})`,
      "max_share is 3 items long; must be one cell or one per item of solids, 4",
    ],
    [
      `=YARN.MIXMATCH({55,0,5},${FOUR},4,,,,0.5,0.3)`,
      "max_share is too tight with the other limits; no recipe has such shares",
    ],
    [`=YARN.MIXMATCH({55,0,5},${FOUR},4,,,,,40)`, "max_share is 40; write 40% or 0.4"],
    [
      `=YARN.MIXMATCH(${TARGET},${ZEROS})`,
      "solids is 0 in every band; no dyed wool is so black; a blank row may arrive as 0",
    ],
    [`=YARN.MIXMATCH(${ZEROS},${SOLIDS})`, "target is 0 in every band"],
    [
      "=YARN.MIXMATCH({0.55,0.1,0.05},{50,0,0;60,0,0})",
      "target is L* 0.55; L*, a*, b* go to 100: multiply values on a scale to 1 by 100",
    ],
    [
      `=YARN.METAMERISM(${SOCK},${TARGET},"D65/10","A/2")`,
      'light_2 is "A/2"; must have the observer of light_1, D65/10',
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("MIXADD", () => {
  const ADD = '{"black",20,0,0;"white",90,0,0}';
  const table = rows(`=YARN.MIXADD({40,0,0},{55,2,3},120,${ADD},{60;10},,,0.5)`);
  test("shows before and after, with names, masses that add up and the shade of the blend of it all", () => {
    expect(table[0]).toEqual([
      ...["batch", "black added (kg)", "white added (kg)", "mass (kg)", "L*", "a*", "b*"],
      ...["difference (CIEDE2000, D65/10)", "note"],
    ]);
    const [before, after] = table.slice(1) as [number[], number[]];
    expect(before.slice(0, 4)).toEqual(["before", 0, 0, 120]);
    expect(after[3]).toBeCloseTo(120 + after[1]! + after[2]!, 9);
    expect((after[1]! * 2) % 1).toBe(0);
    expect(after[7]).toBeLessThan(before[7]!);
    const shares = [120, after[1]!, after[2]!].map((mass) => mass / after[3]!);
    const shade = rows(`=YARN.MIXSHADE(${rowText(shares)},{55,2,3;20,0,0;90,0,0})`)[0] as number[];
    shade.forEach((value, axis) => expect(after[4 + axis]).toBeCloseTo(value, 9));
    expect(sheet(`=YARN.SHADEDIFF({40,0,0},${rowText(shade)})`)).toBeCloseTo(after[7]!, 6);
  });
  test("says what it cannot do", () => {
    const note = (formula: string) => rows(formula)[2]?.[8];
    expect(note(`=YARN.MIXADD({90,0,0},{55,2,3},120,{20,0,0;30,5,5})`)).toMatch(
      /^nothing helps; out of reach by \d+\.\d; L\*a\*b\* only$/,
    );
    expect(note(`=YARN.MIXADD({40,0,0},{55,2,3},120,${ADD},1)`)).toMatch(/^at the most; out of reach/);
    expect(rows(`=YARN.MIXADD(${TARGET},${SOCK},120,${SOLIDS},,,{"D65/10","A/10"})`)[0]?.slice(-2)).toEqual([
      "difference (CIEDE2000, A/10)",
      "difference that ranks (CIEDE2000, root mean square)",
    ]);
  });
  test.each([
    [`=YARN.MIXADD({40,0,0},{55,2,3},0,${ADD})`, "batch_mass is 0; must be a number above 0"],
    [
      `=YARN.MIXADD({40,0,0},{55,2,3},120,${ADD},{1;2;3})`,
      "most is 3 items long; must be one cell or one per item of solids, 2",
    ],
    [`=YARN.MIXADD({40,0,0},{55,2,3},120,${ADD},-1)`, "most is -1; must be a number, 0 or more"],
    [`=YARN.MIXADD({40,0,0;41,0,0},{55,2,3},120,${ADD})`, "target is 2 rows; must be one row"],
    [`=YARN.MIXADD({40,0,0},120,{55,2,3},${ADD})`, "batch is 1 cell wide"],
    [
      `=YARN.MIXADD(${TARGET},{55,2,3},120,${SOLIDS},,,{"D65/10","A/10"})`,
      "light is 2 lights; batch has L*a*b*, which tell of one light only",
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("MIXCORRECT", () => {
  const recipe = "{0.4;0.3;0.2;0.1}";
  const pad = `YARN.MIXSHADE(${recipe},${SOLIDS},0.2,"reflectance")`;
  test("brings the pad of a mill with another constant nearer", () => {
    const made = (shares: string) => `YARN.LABOF(YARN.MIXSHADE(${shares},${SOLIDS},0.2,"reflectance"))`;
    const off = (shares: string) => sheet(`=YARN.SHADEDIFF(YARN.LABOF(${TARGET}),${made(shares)})`) as number;
    const matched = `YARN.MIXMATCH(${TARGET},${SOLIDS})`;
    const first = off(matched);
    const padOf = `YARN.MIXSHADE(${matched},${SOLIDS},0.2,"reflectance")`;
    expect(off(`YARN.MIXCORRECT(${TARGET},${matched},${padOf},${SOLIDS})`)).toBeLessThanOrEqual(first + 1e-9);
  });
  test("gives the recipe under the names of the solids, and keeps to limits and steps", () => {
    const named = `{${[47, 159, 53, 79].map((id) => `"s${id}",${textile(id).join()}`).join(";")}}`;
    const got = rows(`=YARN.MIXCORRECT(${TARGET},${recipe},${pad},${named},,,,,0.05,0.5)`);
    expect(got[0]).toEqual(["s47", "s159", "s53", "s79"]);
    const shares = got[1] as number[];
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(Math.max(...shares)).toBeLessThanOrEqual(0.5);
  });
  test.each([
    [
      `=YARN.MIXCORRECT({40,0,0},${recipe},${pad},${SOLIDS})`,
      "target is 3 cells wide, like L*a*b*; must be a reflectance",
    ],
    [
      `=YARN.MIXCORRECT(${TARGET},${recipe},${pad},{50,0,0;60,0,0;70,0,0;80,0,0})`,
      "solids is L*a*b* in part; must be reflectances: a pad corrects band by band",
    ],
    [
      `=YARN.MIXCORRECT(${TARGET},{0.5;0.5},${pad},${SOLIDS})`,
      "shares is 2 items long; must match solids, which has 4",
    ],
    [`=YARN.MIXCORRECT(${TARGET},{0.5,0.5,0,0;1,0,0,0},${pad},${SOLIDS})`, "shares is 2 recipes; must be one"],
    [
      `=YARN.MIXCORRECT(${TARGET},{0;0;0;1},${rowText(textile(159))},${SOLIDS})`,
      "off what the shares predict; at most 15",
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("METAMERISM and MIXFIT", () => {
  test("two lights give a number, one row or many", () => {
    expect(sheet(`=YARN.METAMERISM(${SOCK},${TARGET},"D65/10","A/10")`)).toBeTypeOf("number");
    expect(rows(`=YARN.METAMERISM(${SOCK},${SOLIDS},"D65/10","A/10")`)).toHaveLength(4);
  });
  test("the fitted constant goes back into MIXSHADE as the model", () => {
    const white = "{92,0,3;22,1,-2}";
    const pads = `YARN.MIXSHADE({0.5,0.5;0.9,0.1;0.2,0.8},${white},0.21)`;
    expect(sheet(`=YARN.MIXFIT({0.5,0.5;0.9,0.1;0.2,0.8},${white},${pads})`)).toBeCloseTo(0.21, 6);
    expect(sheet(`=YARN.MIXFIT({0.5,0.5;0.9,0.1;0.2,0.8},${white},${pads},"difference")`)).toBeLessThan(1e-5);
  });
});

describe("SHADEPASS, GREYSCALE and the screen colours", () => {
  test("a difference equal to the tolerance passes, in spite of the last digits", () => {
    expect(sheet('=YARN.SHADEPASS({60,0,0},{61.7,0,0},1.7,"1976")')).toBe(true);
    expect(sheet('=YARN.SHADEPASS({60,0,0},{61.71,0,0},1.7,"1976")')).toBe(false);
  });
  test("three numbers or one text make the same colour", () => {
    expect(rows("=YARN.LABFROMRGB(26,43,60)")).toEqual(rows('=YARN.LABFROMRGB("#1a2b3c")'));
    expect(sheet("=YARN.LABTORGB(YARN.LABFROMRGB(26,43,60))")).toBe("#1A2B3C");
    expect(rows("=YARN.LABFROMRGB({255;0},0,{0;255})")).toHaveLength(2);
  });
});

describe("SHADEPARTS and SHADESORT", () => {
  test("a row per sample with the names, a bad one in error by itself, a blank one blank", () => {
    const got = rows('=YARN.SHADEPARTS({50,20,0},{"lot 1",51,20,0;"","","","";"lot 3",500,0,0})');
    expect(got[0]).toEqual(["sample", "dL*", "da*", "db*", "dC*", "dH*", "lightness", "chroma", "hue"]);
    expect(got[1]).toEqual(["lot 1", 1, 0, 0, 0, 0, "lighter", "same", "same"]);
    expect(got[2]).toEqual(new Array(9).fill(""));
    expect(got[3]?.[0]).toBe("lot 3");
    expect(got[3]?.[1]).toMatchObject({ code: "#VALUE!" });
  });
  test("lots come back with their names; widths one or three", () => {
    expect(rows('=YARN.SHADESORT({"A",61,0,10;"B",60,0,10},{60,0,10},1)')).toEqual([
      ["A", 655],
      ["B", 555],
    ]);
    expect(messageOf("=YARN.SHADESORT({60,0,10},{60,0,10},{1,2})")).toBe(
      "#VALUE! widths is 2 numbers; give three, or one for all",
    );
    expect(messageOf("=YARN.SHADESORT({60,0,10},{60,0,10;61,0,10},1)")).toBe(
      "#VALUE! standard is 2 rows; must be one row",
    );
    expect(messageOf('=YARN.SHADESORT({60,0,10},{60,0,10},1,"xyz")')).toContain("write lch or lab");
  });
});

describe("SHADEPASS in several lights and by half-axes", () => {
  const other = rowText(textile(53));
  test("passes when it passes in every light, each with its own tolerance", () => {
    const differences = ["D65/10", "A/10"].map(
      (light) => sheet(`=YARN.SHADEDIFF(YARN.LABOF(${SOCK},"${light}"),YARN.LABOF(${other},"${light}"))`) as number,
    ) as [number, number];
    const pass = (first: number, second: number) =>
      sheet(`=YARN.SHADEPASS(${SOCK},${other},{${first},${second}},,{"D65/10","A/10"})`);
    expect(pass(differences[0], differences[1])).toBe(true);
    expect(pass(differences[0] * 0.99, differences[1])).toBe(false);
    expect(pass(differences[0], differences[1] * 0.99)).toBe(false);
    expect(sheet(`=YARN.SHADEPASS(${SOCK},${other},${Math.max(...differences)},,{"D65/10","A/10"})`)).toBe(true);
  });
  test("half-axes are an ellipsoid in dL*, dC* and dH*", () => {
    const pass = (sample: string) => sheet(`=YARN.SHADEPASS({50,0,20},{${sample}},{2,1,0.5},"half-axes")`);
    expect(["52,0,20", "50,0,21", "48,0,20", "51,0,20.86"].map(pass)).toEqual([true, true, true, true]);
    expect(["52.1,0,20", "50,0,21.1", "50,0.6,20", "51,0,20.9"].map(pass)).toEqual([false, false, false, false]);
  });
  test.each([
    [
      '=YARN.SHADEPASS({50,0,0},{50,0,0},{1,2},"half-axes")',
      "tolerance is 2 numbers; give three half-axes, for dL*, dC*, dH*",
    ],
    [
      `=YARN.SHADEPASS(${SOCK},${other},{1,2,3},,{"D65/10","A/10"})`,
      "tolerance is 3 items long; must match light, which has 2",
    ],
    [
      `=YARN.SHADEPASS(${SOCK},${other},{1,2,3},"half-axes","D65/10")`,
      'formula is "half-axes"; they belong to one light: leave light out',
    ],
    [
      '=YARN.SHADEPASS({50,0,0},{50,0,0},1,,"D65/10")',
      "lab_standard is 3 cells wide, like L*a*b*; must be a reflectance",
    ],
  ])("%s", (formula, message) => expect(messageOf(formula)).toContain(message));
});

describe("messages: the argument, what came, what is allowed", () => {
  const band = textile(47).slice(0, 20);
  const cases: [formula: string, message: string][] = [
    ["=YARN.SHADEDIFF({50,20},{50,20,30})", "#VALUE! lab_1 is 2 cells wide; must be 3 along a row: L*, a*, b*"],
    ["=YARN.SHADEDIFF({150,20,30},{50,20,30})", "#VALUE! lab_1 is 150; L* must be 0 to 110"],
    ['=YARN.SHADEDIFF({50,20,30},{50,"red",30})', '#VALUE! lab_2 is text "red"; must be a number'],
    [
      '=YARN.SHADEDIFF({50,20,30},{50,20,30},"CMC")',
      '#VALUE! formula is "CMC", of several meanings; write CMC 2:1 or CMC 1:1',
    ],
    [
      "=YARN.SHADEDIFF({50,20,30},{50,20,30},2001)",
      '#VALUE! formula is "2001", not a formula; write 2000, CMC 2:1, CMC 1:1, 1994, 1994 textiles or 1976',
    ],
    ["=YARN.SHADEPASS({50,20,30},{50,20,30},0)", "#VALUE! tolerance is 0; must be above 0 and at most 50 units"],
    [`=YARN.LABOF(${SOCK},"D65")`, '#VALUE! light is "D65", of several meanings; write D65/10 or D65/2'],
    [`=YARN.LABOF(${SOCK},"TL84")`, '#VALUE! light is "TL84", of several meanings; write F11/10 or F11/2'],
    [`=YARN.LABOF(${SOCK},"cwf")`, '#VALUE! light is "cwf", of several meanings; write F2/10 or F2/2'],
    [
      `=YARN.LABOF(${SOCK},"D56/10")`,
      '#VALUE! light is "D56/10", not a light; write D65/10, D50/10, A/10, F2/10, F7/10, F11/10, F12/10, LED-B1/10 or another',
    ],
    [
      `=YARN.LABOF(${rowText(band)})`,
      "#VALUE! reflectance is 20 bands wide; give first_nm and step_nm, or 31 or 16 bands from 400 to 700 nm",
    ],
    [
      `=YARN.LABOF(${rowText(band)},"D65/10",800,10)`,
      "#VALUE! reflectance is measured from 800 to 990 nm; it must cover part of 400 to 700 nm",
    ],
    [
      "=YARN.LABOF({50,20,30})",
      "#VALUE! reflectance is 3 cells wide, like L*a*b*; must be a reflectance along a row, 31 or 16 bands from 400 to 700 nm",
    ],
    [
      `=YARN.LABOF({0.2,0.3,45,0.5},"D65/10",400,100)`,
      "#VALUE! reflectance band 3 is 45; write 45% or 0.45; must be 0 to 1.5 (150%)",
    ],
    [
      `=YARN.METAMERISM({50,20,30},${SOCK},"D65/10","A/10")`,
      "#VALUE! reflectance_1 is 3 cells wide, like L*a*b*; must be a reflectance along a row, 31 or 16 bands from 400 to 700 nm",
    ],
    [
      "=YARN.MIXSHADE({0.5,0.4},{50,0,0;60,0,0})",
      "#VALUE! shares is 0.9 in all; must sum to 1 (100%); MIXROUND mends rounded shares",
    ],
    [
      "=YARN.MIXSHADE({50,50},{50,0,0;60,0,0})",
      "#VALUE! shares item 1 is 50; write 50% or 0.5; must be 0 to 1 (0% to 100%)",
    ],
    ["=YARN.MIXSHADE({0.5,0.5},{50,0,0})", "#VALUE! shares is 2 items long; must match solids, which has 1"],
    ["=YARN.MIXSHADE(1,{50,200,0})", "#VALUE! solids is L*a*b* 50, 200, 0; no surface has that shade"],
    [
      "=YARN.MIXSHADE(1,{50,20,0,1})",
      "#VALUE! solids is 4 cells wide; must be 31 or 16 bands, 400 to 700 nm, or L*, a*, b* along a row",
    ],
    [
      '=YARN.MIXSHADE(1,{50,20,0},"mean")',
      '#VALUE! model is "mean", not a blend model; write fibre, exponential or ks',
    ],
    ["=YARN.MIXSHADE(1,{50,20,0},15)", "#VALUE! model is 15; must be a constant above 0 and at most 1, or a word"],
    ["=YARN.MIXMATCH({50,0,0},{50,0,0},0)", "#VALUE! parts is 0; must be a whole number, 1 or more"],
    ["=YARN.MIXMATCH({50,0,0},{50,0,0},4,5)", "#VALUE! min_share is 5; write 5% or 0.05; must be 0 to 1 (0% to 100%)"],
    [
      "=YARN.MIXMATCH({50,0,0},{50,0,0},4,0,,,0.03)",
      "#VALUE! step is 0.03; must go into 1 a whole number of times: 0.01, 0.05",
    ],
    ["=YARN.MIXMATCH({50,0,0},{50,0,0},4,0,,,1E-180)", "#VALUE! step is 1e-180; must be 0.000001 or more"],
    [
      '=YARN.MIXMATCH({50,0,0},{50,0,0},4,0,,{"D65/10","A/10"})',
      "#VALUE! light is 2 lights; solids has L*a*b*, which tell of one light only",
    ],
    ["=YARN.MIXCHOICES({50,0,0;51,0,0},{50,0,0})", "#VALUE! target is 2 rows; must be one row"],
    [
      "=YARN.MIXCHOICES({50,0,0},{50,0,0;60,0,0},,,,,,{1,2,3})",
      "#VALUE! prices is 3 items long; must match solids, which has 2",
    ],
    [
      "=YARN.MIXFIT({1,0},{50,0,0;60,0,0},{50,0,0})",
      "#N/A blends is alike for every constant; card pads that mix a light solid with a dark one",
    ],
    [
      "=YARN.MIXFIT({0.5,0.5},{50,0,0;60,0,0},{50,0,0;55,0,0})",
      "#VALUE! blends is 2 items long; must match shares, which has 1",
    ],
    [
      '=YARN.LABFROMRGB("reddish")',
      '#VALUE! hex_or_r is text "reddish"; must be like #1A2B3C, or the red channel 0 to 255',
    ],
    ["=YARN.LABFROMRGB(300,0,0)", "#VALUE! hex_or_r is 300; must be 0 to 255"],
    ["=YARN.LABFROMRGB(30,0)", "#VALUE! b is blank; give red, green and blue, or one text like #1A2B3C"],
  ];
  for (const [formula, message] of cases) {
    test(message, () => {
      expect(messageOf(formula)).toBe(message);
      expect(message.length).toBeLessThanOrEqual("#VALUE! ".length + 120);
    });
  }
  test("L*a*b* down a column is refused row by row", () => {
    const got = rows("=YARN.SHADEDIFF({50;20;30},{50,20,30})");
    for (const [cell] of got) expect(cell).toMatchObject({ code: "#VALUE!" });
  });
});

test("what a blend function gives is called a start recipe in the description of each", () => {
  const blending = documentedFunctions().filter(({ id, family }) => family === "shade" && id.startsWith("MIX"));
  expect(blending.map(({ id }) => id)).toEqual([
    "MIXSHADE",
    "MIXFIT",
    "MIXMATCH",
    "MIXCHOICES",
    "MIXADD",
    "MIXCORRECT",
  ]);
  for (const { description } of blending) {
    expect(description).toMatch(
      /start recipe for (a|the next) hand-carded pad, not an approval|Card a pad before you add/,
    );
  }
});
