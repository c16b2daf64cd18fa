import { describe, expect, test } from "vitest";
import {
  bandsRow,
  channelsGiven,
  differenceFormula,
  expectScale,
  hexOrRed,
  labRow,
  reflectanceRow,
  shadeRow,
  toleranceFormula,
  wavelength,
  wavelengthStep,
} from "../../src/sheet/shades";
import type { Cell } from "../../src/sheet/cells";
import { transposed } from "../../src/sheet/shape";
import { difference1994, difference2000 } from "../../src/trade/shade/shade-difference";
import { refusalOf } from "../support/refusals";

const grey = (bands: number): Cell[] => new Array<number>(bands).fill(0.5);

describe("a formula for the difference of two shades", () => {
  test("is a word, whose year may be typed as a number", () => {
    for (const year of [2000, "2000", "ciede2000"]) expect(differenceFormula(year, "formula")).toBe(difference2000);
    const [one, other] = [
      [50, 10, 10],
      [52, 14, 7],
    ] as const;
    expect(differenceFormula(1994, "formula")(one, other)).toBe(difference1994(1, 0.045, 0.015)(one, other));
  });

  test.each([
    [true, "TRUE, no formula; write 2000, CMC 2:1, CMC 1:1, 1994, 1994 textiles or 1976"],
    [NaN, "not a number, no formula; write 2000, CMC 2:1, CMC 1:1, 1994, 1994 textiles or 1976"],
    [2001, '"2001", not a formula; write 2000, CMC 2:1, CMC 1:1, 1994, 1994 textiles or 1976'],
    ["CMC", '"CMC", of several meanings; write CMC 2:1 or CMC 1:1'],
  ])("%s is none", (cell, message) =>
    expect(refusalOf(() => differenceFormula(cell, "formula"))).toBe(`#VALUE! formula is ${message}`),
  );
});

test("half-axes are no formula that a calculation could use", () => {
  const axes = toleranceFormula("half-axes", "formula");
  expect(refusalOf(() => axes([50, 0, 0], [51, 0, 0]))).toBe(
    '#VALUE! formula is "half-axes" among others; give it in a single cell',
  );
});

test("wavelengths and their steps have limits, which belong to them", () => {
  expect([200, 1000].map((nm) => wavelength(nm, "first"))).toEqual([200, 1000]);
  for (const nm of [199.9, 1000.1])
    expect(refusalOf(() => wavelength(nm, "first"))).toBe(`#VALUE! first is ${nm}; must be a wavelength, 200 to 1000 nm`); // prettier-ignore
  expect([0.1, 100].map((nm) => wavelengthStep(nm, "step"))).toEqual([0.1, 100]);
  for (const nm of [0, 100.1])
    expect(refusalOf(() => wavelengthStep(nm, "step"))).toBe(`#VALUE! step is ${nm}; must be above 0 and at most 100 nm`); // prettier-ignore
});

describe("red, green and blue", () => {
  test("on a scale to 1 are refused; whole 0 and 1 are the darkest of 255", () => {
    const said = (value: number) => `#VALUE! hex_or_r is ${value}; channels go to 255: multiply values on a scale to 1 by 255`; // prettier-ignore
    for (const [red, green, blue] of [
      [0.5, 0.2, 0.1],
      [0, 0.5, 1],
      [1, 0, 0.5],
      [0.5, undefined, undefined],
    ] as const)
      expect(refusalOf(() => channelsGiven(red, green, blue))).toBe(said(red));
    for (const channels of [
      [0, 1, 1],
      [0.5, 200, 1],
      [200, 0.5, 1],
      [1.5, 0.5, 0],
    ] as const)
      expect(channelsGiven(channels[0], channels[1], channels[2])).toEqual(channels);
    expect(refusalOf(() => hexOrRed(-1, "r"))).toBe("#VALUE! r is -1; must be 0 to 255");
    expect(hexOrRed(0, "r")).toBe(0);
  });

  test("the first of them may be a text that holds all three", () => {
    expect(hexOrRed("#1A2B3C", "r")).toEqual([26, 43, 60]);
    expect(hexOrRed(255, "r")).toBe(255);
    expect(refusalOf(() => hexOrRed("red", "r"))).toBe(
      '#VALUE! r is text "red"; must be like #1A2B3C, or the red channel 0 to 255',
    );
    expect(refusalOf(() => hexOrRed(256, "r"))).toBe("#VALUE! r is 256; must be 0 to 255");
  });

  const advice = "give red, green and blue, or one text like #1A2B3C";
  test("are three, or one text that holds them", () => {
    expect(channelsGiven([1, 2, 3], undefined, undefined)).toEqual([1, 2, 3]);
    expect(channelsGiven(1, 2, 3)).toEqual([1, 2, 3]);
    expect(refusalOf(() => channelsGiven(1, undefined, 3))).toBe(`#VALUE! g is blank; ${advice}`);
    expect(refusalOf(() => channelsGiven(1, 2, undefined))).toBe(`#VALUE! b is blank; ${advice}`);
  });
});

describe("L*a*b* along a row", () => {
  test("are three cells, whatever blanks follow", () => {
    expect(labRow([50, -10, 20, "", null], "lab")).toEqual([50, -10, 20]);
    expect([labRow([0, 0, 0], "lab"), labRow([110, 0, 0], "lab")]).toEqual([
      [0, 0, 0],
      [110, 0, 0],
    ]);
  });

  test.each([
    [[-0.1, 0, 0], "-0.1; L* must be 0 to 110"],
    [[110.1, 0, 0], "110.1; L* must be 0 to 110"],
    [[50, "", 20], "blank in part; must be 3 along a row: L*, a*, b*"],
    [[50, 20], "2 cells wide; must be 3 along a row: L*, a*, b*"],
    [[50, "red", 20], 'text "red"; must be a number'],
  ])("%j is refused", (row, message) => expect(refusalOf(() => labRow(row, "lab"))).toBe(`#VALUE! lab is ${message}`));
});

describe("a reflectance along a row", () => {
  test("has 31 bands, or 16 of which a grey stays grey", () => {
    expect(reflectanceRow(grey(31), "shade")).toEqual(grey(31));
    const widened = reflectanceRow([...grey(16), "", ""], "shade");
    expect(widened).toHaveLength(31);
    for (const band of widened) expect(band).toBeCloseTo(0.5, 12);
    expect(bandsRow([0, 1.5, 0.2, 0.3, null], "shade")).toEqual([0, 1.5, 0.2, 0.3]);
  });

  const wanted = "must be a reflectance along a row, 31 or 16 bands from 400 to 700 nm";
  test.each([
    [bandsRow, [0.1, 0.2], `2 wide; ${wanted}`],
    [bandsRow, [50, 10, 10], `3 cells wide, like L*a*b*; ${wanted}`],
    [reflectanceRow, grey(10), "10 bands wide; must be 31 or 16 bands from 400 to 700 nm"],
    [reflectanceRow, grey(30), "30 bands wide; must be 31 or 16 bands from 400 to 700 nm"],
  ])("%o of %j is refused", (read, row, message) =>
    expect(refusalOf(() => read(row, "shade"))).toBe(`#VALUE! shade is ${message}`),
  );

  test("one band typed in percent, or left out, is named", () => {
    expect(refusalOf(() => reflectanceRow([0.5, 50, ...grey(29)], "shade"))).toContain("shade band 2 is 50; write 50%");
    expect(refusalOf(() => reflectanceRow([0.5, "", ...grey(29)], "shade"))).toContain("shade band 2 is blank");
  });
});

describe("a shade of either form", () => {
  test("is told apart by its width", () => {
    expect(shadeRow([50, 0, 0, ""], "shade")).toEqual({ measured: false, lab: [50, 0, 0] });
    expect(shadeRow(grey(31), "shade")).toEqual({ measured: true, reflectance: grey(31) });
    expect(shadeRow(grey(16), "shade")).toMatchObject({ measured: true });
    const wanted = "must be 31 or 16 bands, 400 to 700 nm, or L*, a*, b* along a row";
    expect(refusalOf(() => shadeRow(grey(5), "shade"))).toBe(`#VALUE! shade is 5 cells wide; ${wanted}`);
    expect(refusalOf(() => shadeRow([null, ""], "shade"))).toBe(`#VALUE! shade is 0 cells wide; ${wanted}`);
  });
});

describe("a shade on a scale to 1", () => {
  const scale = "multiply values on a scale to 1 by 100";

  test("is refused by itself where nothing dyed is so black", () => {
    for (const lightness of [0.5, 1])
      expect(refusalOf(() => shadeRow([lightness, 0.1, 0], "shade"))).toBe(
        `#VALUE! shade is L* ${lightness}; L*, a*, b* go to 100: ${scale}`,
      );
    for (const lightness of [0, 1.01]) expect(shadeRow([lightness, 0, 0], "shade").measured).toBe(false);
  });

  test("is refused in a pair where both are so black, or one beside a shade that is not", () => {
    type Lab = readonly [number, number, number];
    const refused: readonly (readonly [Lab, Lab])[] = [
      [[0.5, 0.1, 0.1], [0.6, 0, 0]],
      [[1, 20, 0], [1, 3, 0]],
      [[0.5, 0.1, 0.1], [50, 0, 0]],
      [[1, 1, -1], [10, 0, 0]],
    ]; // prettier-ignore
    for (const [one, other] of refused) {
      for (const [standard, sample] of [
        [one, other],
        [other, one],
      ] as const)
        expect(refusalOf(() => expectScale(standard, sample))).toBe(
          `#VALUE! L* is ${standard[0]} and ${sample[0]}; goes to 100: ${scale}`,
        );
    }
    const meant: readonly (readonly [Lab, Lab])[] = [
      [[50, 0, 0], [60, 0, 0]],
      [[0, 0, 0], [0.5, 0.1, 0.1]],
      [[0, 0, 0], [50, 0, 0]],
      [[0.5, 5, 0], [50, 0, 0]],
      [[0.5, 0, -1.1], [50, 0, 0]],
      [[1.1, 0, 0], [50, 0, 0]],
      [[0.5, 0.1, 0.1], [9.9, 0, 0]],
    ]; // prettier-ignore
    for (const [one, other] of meant) {
      expect(() => expectScale(one, other)).not.toThrow();
      expect(() => expectScale(other, one)).not.toThrow();
    }
  });
});

test("a reflectance on bands of its own is brought to the usual ones", () => {
  const rising = [400, 450, 500, 550, 600, 650, 700].map((nm) => (nm - 300) / 1000);
  const bands = reflectanceRow(rising, "shade", { first: 400, step: 50 });
  expect(bands).toHaveLength(31);
  bands.forEach((value, band) => expect(value).toBeCloseTo(0.1 + band / 100, 9));
});

test("a column is told how it becomes a row", () => {
  expect(refusalOf(() => bandsRow([0.5], "shade"))).toBe(
    "#VALUE! shade is 1 wide; must be a reflectance along a row (TRANSPOSE turns a column), 31 or 16 bands from 400 to 700 nm",
  );
});

test("rows become columns, and nothing stays nothing", () => {
  const turned = transposed([
    [1, 2, 3],
    [4, 5, 6],
  ]);
  expect(turned).toEqual([
    [1, 4],
    [2, 5],
    [3, 6],
  ]);
  expect(transposed([])).toEqual([]);
});
