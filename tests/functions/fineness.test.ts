import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

describe("BLENDMICRON", () => {
  test("left out, the weighting is by mass and the result the mean", () => {
    expect(sheet("=YARN.BLENDMICRON({1;3},{20;24})")).toBe(sheet('=YARN.BLENDMICRON({1;3},{20;24},,"mass","mean")'));
  });
  test("sd and cv need the cvs", () => {
    expect(messageOf('=YARN.BLENDMICRON({1;2},{20;21},,,"sd")')).toMatch(
      /^#VALUE! cvs is left out; give one for every/,
    );
  });
  test("a cv typed as a percent is refused, naming the item", () => {
    expect(messageOf("=YARN.BLENDMICRON({1;2},{20;21},{22;23})")).toMatch(
      /^#VALUE! cvs item 1 is 22; write 22% or 0\.22/,
    );
  });
  test("masses and microns swapped", () => {
    expect(messageOf("=YARN.BLENDMICRON({24;30},{2000;24000})")).toBe(
      "#VALUE! microns item 1 is 2000; must be 8 to 60 micron, as wool and hair are; swapped with masses?",
    );
  });
  test("nothing but zero masses is #DIV/0!", () => {
    expect(messageOf("=YARN.BLENDMICRON({0;0},{20;21})")).toMatch(/^#DIV\/0! masses is 0 in all/);
  });
  test("unknown words name the choices", () => {
    expect(messageOf('=YARN.BLENDMICRON(1,20,,"weight")')).toMatch(/write mass or length$/);
    expect(messageOf('=YARN.BLENDMICRON(1,20,,,"median")')).toMatch(/write mean, sd or cv$/);
  });
});

describe("WOOLGRADE", () => {
  test("a column of diameters, a blank stays blank, a blank sd is left out", () => {
    expect(sheet('=YARN.WOOLGRADE({21;"";21},{"";"";5.2})')).toEqual([["64s"], [""], ["62s"]]);
  });
  test("a diameter of 0 is refused", () => {
    expect(messageOf("=YARN.WOOLGRADE(0)")).toBe("#VALUE! micron is 0; must be 8 to 60 micron, as wool and hair are");
  });
  test("a grade for the diameter, or a CV for the deviation", () => {
    expect(messageOf("=YARN.WOOLGRADE(64)")).toMatch(/^#VALUE! micron is 64; must be 8 to 60 micron/);
    expect(messageOf("=YARN.WOOLGRADE(21,24%)")).toBe("#VALUE! sd is 0.24; must be 1 to 30 micron (micron × CV), or 0");
    expect(sheet("=YARN.WOOLGRADE(21,0)")).toBe("64s");
  });
});

describe("ROMAINE, TEAR and TOPFORECAST", () => {
  test("romaine 0 has no tear", () => {
    expect(messageOf("=YARN.TEAR(0)")).toMatch(/^#DIV\/0! romaine is 0/);
  });
  test("romaine typed as a percent is refused", () => {
    expect(messageOf("=YARN.TEAR(8)")).toMatch(/^#VALUE! romaine is 8; write 8% or 0\.08/);
  });
  test("vegetable matter and middle breaks typed as percents are refused", () => {
    expect(messageOf('=YARN.TOPFORECAST(85,38,21,1.5,50%,"hauteur")')).toMatch(/^#VALUE! vm is 1\.5; write 1\.5%/);
    expect(messageOf('=YARN.TOPFORECAST(85,38,21,1.5%,50,"hauteur")')).toMatch(/^#VALUE! mid_breaks is 50; write 50%/);
  });
  test("a forecast below 0 is #NUM!", () => {
    expect(messageOf('=YARN.TOPFORECAST(150,60,30,0,50%,"romaine")')).toMatch(
      /^#NUM! the romaine is forecast at or below 0/,
    );
  });
  test("a staple in inches or centimetres, a strength in another unit, a diameter in metres", () => {
    expect(messageOf('=YARN.TOPFORECAST(8.5,38,21,1.5%,50%,"hauteur")')).toBe(
      "#VALUE! staple_mm is 8.5; must be 20 to 400 mm, as staples are",
    );
    expect(messageOf('=YARN.TOPFORECAST(85,0.038,21,1.5%,50%,"hauteur")')).toMatch(/^#VALUE! strength is 0\.038; must/);
    expect(messageOf('=YARN.TOPFORECAST(85,38,0.021,1.5%,50%,"hauteur")')).toMatch(/^#VALUE! micron is 0\.021; must/);
  });
  test("three results in one call", () => {
    const rows = sheet('=YARN.TOPFORECAST(85,38,21,1.5%,50%,{"hauteur","cv hauteur","romaine"})') as number[][];
    expect(rows[0]?.length).toBe(3);
    expect(messageOf('=YARN.TOPFORECAST(85,38,21,1.5%,50%,"barbe")')).toMatch(/write hauteur, cv hauteur or romaine$/);
  });
});

describe("BALESTOCORE", () => {
  test("a lot that cannot reach the error gives #N/A and what to change", () => {
    expect(messageOf("=YARN.BALESTOCORE(1,2.5,4,0.1,,7)")).toBe(
      "#N/A error is 0.1; 7 bales of 4 cores cannot reach it; take more cores a bale",
    );
  });
  test("cores and bales are whole numbers, the error is above 0", () => {
    expect(messageOf("=YARN.BALESTOCORE(1,2,1.5,1)")).toMatch(
      /^#VALUE! cores_per_bale is 1\.5; must be a whole number/,
    );
    expect(messageOf("=YARN.BALESTOCORE(1,2,4,0)")).toMatch(/^#VALUE! error is 0; must be a number above 0/);
    expect(messageOf("=YARN.BALESTOCORE(1,2,4,1,,2.5)")).toMatch(/^#VALUE! bales is 2\.5; must be a whole number/);
  });
  test("a column of errors asked", () => {
    const column = sheet("=YARN.BALESTOCORE(1,2,4,{2;1;0.5})") as number[][];
    expect(column.map(([bales]) => bales)).toEqual(
      [...column.map(([bales]) => bales)].sort((a, b) => (a as number) - (b as number)),
    );
  });
});
