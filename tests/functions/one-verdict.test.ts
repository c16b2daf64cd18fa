import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

/** A grey in 16 bands, as a row and within one. */
const bands = (reflectance: number): string => Array.from({ length: 16 }, () => reflectance).join();
const GREY = (reflectance: number): string => `{${bands(reflectance)}}`;

/** Every function that takes the shares of a whole blend, with the place of the shares marked. */
const TAKERS: [name: string, formula: string][] = [
  ["MIXSHADE", "=YARN.MIXSHADE(SHARES,{50,0,0;60,0,0;70,0,0})"],
  ["MIXNEED", "=YARN.MIXNEED(SHARES,{90})"],
  ["MIXSTOCK", "=YARN.MIXSTOCK(SHARES,{30,30,30})"],
  ["LAYDOWN", "=YARN.LAYDOWN(90,SHARES,1,0.5)"],
  ["BLENDREGAIN", '=YARN.BLENDREGAIN(SHARES,{0.1,0.2,0.3},"dry")'],
  ["SLIVERPLAN", '=YARN.SLIVERPLAN(SHARES,20,"ktex",12)'],
  ["FIBRES", '=YARN.FIBRES(31.25,"tex",{19,21,24},,,SHARES)'],
  ["MIXFIT", '=YARN.MIXFIT(SHARES,{24,0,0;82,0,0;50,0,0},{45,0,0},"difference")'],
  ["MIXCORRECT", `=YARN.MIXCORRECT(${GREY(0.2)},SHARES,${GREY(0.21)},{${[0.1, 0.2, 0.4].map(bands).join(";")}})`],
];

const withShares = (formula: string, shares: string) => formula.replace("SHARES", shares);

describe.each(TAKERS)("one recipe, one verdict: %s", (_name, formula) => {
  test("thirds to seven decimals are scaled to thirds", () => {
    const thirds = sheet(withShares(formula, "{0.3333333,0.3333333,0.3333333}"));
    const exact = sheet(withShares(formula, `{${1 / 3},${1 / 3},${1 / 3}}`));
    const [got, wanted] = [thirds, exact].map((result) => (Array.isArray(result) ? result.flat() : [result]));
    expect(got?.length).toBe(wanted?.length);
    got?.forEach((cell, place) => {
      if (typeof cell === "number") expect(cell).toBeCloseTo(wanted?.[place] as number, 9);
      else expect(cell).toEqual(wanted?.[place]);
    });
  });

  test("thirds to four decimals, and a forgotten share, are refused with the sum and the way out", () => {
    for (const [shares, sum] of [
      ["{0.3333,0.3333,0.3333}", "0.9999"],
      ["{0.5,0.4,0}", "0.9"],
      ["{0.5,0.5,0.000002}", "1.000002"],
    ] as const) {
      expect(messageOf(withShares(formula, shares))).toMatch(
        new RegExp(
          `^#VALUE! (shares|recipes row 1) is ${sum} in all; must sum to 1 \\(100%\\); MIXROUND mends rounded`,
        ),
      );
    }
  });
});
