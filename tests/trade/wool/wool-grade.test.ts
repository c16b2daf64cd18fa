import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { SOURCES } from "../../../src/tables/sources";
import { WOOL_GRADES } from "../../../src/tables/wool-grades";
import { woolGrade } from "../../../src/trade/wool/wool-grade";

/** NMSU Guide B-409, Table 1 (whose "9.15" and "3059" are misprints of 19.15 and 3.59), and the two coarsest rows from memory. */
const PRINTED: [grade: string, from: number, to: number, sd: number | undefined][] = [
  ["Finer than 80s", 10, 17.69, 3.59],
  ["80s", 17.7, 19.14, 4.09],
  ["70s", 19.15, 20.59, 4.59],
  ["64s", 20.6, 22.04, 5.19],
  ["62s", 22.05, 23.49, 5.89],
  ["60s", 23.5, 24.94, 6.49],
  ["58s", 24.95, 26.39, 7.09],
  ["56s", 26.4, 27.84, 7.59],
  ["54s", 27.85, 29.29, 8.19],
  ["50s", 29.3, 30.99, 8.69],
  ["48s", 31, 32.69, 9.09],
  ["46s", 32.7, 34.39, 9.59],
  ["44s", 34.4, 36.19, 10.09],
  ["40s", 36.2, 38.09, 10.69],
  ["36s", 38.1, 40.2, 11.19],
  ["Coarser than 36s", 40.21, 60, undefined],
];

describe("US wool grades", () => {
  test.each(PRINTED)("%s holds from %d to %d micron", (grade, from, to) => {
    expect([woolGrade(from, undefined), woolGrade((from + to) / 2, undefined), woolGrade(to, undefined)]).toEqual([
      grade,
      grade,
      grade,
    ]);
  });

  test.each(PRINTED.slice(0, -1))(
    "%s (%d to %d micron) admits a deviation of %d, and above it drops one grade",
    (...row) => {
      const [grade, from, , sd] = row;
      const coarser = (PRINTED[PRINTED.findIndex(([name]) => name === grade) + 1] as (typeof PRINTED)[number])[0];
      expect(woolGrade(from, sd)).toBe(grade);
      expect(woolGrade(from, (sd as number) + 0.01)).toBe(coarser);
    },
  );

  test("the coarsest grade admits any deviation", () => {
    expect(woolGrade(45, 100)).toBe("Coarser than 36s");
  });

  test("between two printed limits the diameter is rounded to hundredths first, half up", () => {
    expect(woolGrade(19.144, undefined)).toBe("80s");
    expect(woolGrade(19.145, undefined)).toBe("70s");
  });

  test("a coarser wool never gets a finer grade", () => {
    const micron = fc.integer({ min: 1000, max: 5000 }).map((hundredths) => hundredths / 100);
    const place = (diameter: number) => PRINTED.findIndex(([grade]) => grade === woolGrade(diameter, undefined));
    fc.assert(fc.property(micron, micron, (a, b) => place(Math.max(a, b)) >= place(Math.min(a, b))));
  });

  test("the recalled rows say so", () => {
    const status = new Map(SOURCES.map((source) => [source.key, source.status]));
    const recalled = WOOL_GRADES.filter(({ source }) => status.get(source) !== "read").map(({ word }) => word);
    expect(recalled).toEqual(["36s", "Coarser than 36s"]);
  });
});
