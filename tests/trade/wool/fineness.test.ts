import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { SOURCES } from "../../../src/tables/sources";
import { WOOL_GRADES } from "../../../src/tables/wool-grades";
import { blendFineness } from "../../../src/trade/wool/blend-fineness";
import { romaineOfTear, tearOfRomaine } from "../../../src/trade/wool/combing";
import { topForecast } from "../../../src/trade/wool/top-forecast";
import { woolGrade } from "../../../src/trade/wool/wool-grade";
import { refusalOf } from "../../support/refusals";

describe("diameter of a blend", () => {
  const component = fc.tuple(
    fc.integer({ min: 1, max: 5000 }),
    fc.integer({ min: 140, max: 400 }).map((tenths) => tenths / 10),
    fc.integer({ min: 0, max: 40 }).map((percent) => percent / 100),
  );
  const components = fc.array(component, { minLength: 1, maxLength: 6 });
  const columns = (parts: [number, number, number][]) =>
    [parts.map(([mass]) => mass), parts.map(([, micron]) => micron), parts.map(([, , cv]) => cv)] as const;

  test("by mass: 2,000 kg of 24 and 24,000 kg of 30 micron are (48,000 + 720,000)/26,000 micron", () => {
    expect(blendFineness([2000, 24000], [24, 30], undefined, "mass", "mean")).toBeCloseTo(768 / 26, 13);
  });

  test("by length the finer component counts for more, so the blend reads finer", () => {
    fc.assert(
      fc.property(components, (parts) => {
        const [masses, microns] = columns(parts);
        const byLength = blendFineness(masses, microns, undefined, "length", "mean");
        expect(byLength).toBeLessThanOrEqual(blendFineness(masses, microns, undefined, "mass", "mean") + 1e-12);
        expect(byLength).toBeGreaterThanOrEqual(Math.min(...microns) - 1e-12);
      }),
    );
  });

  test("agrees with counting fibres: a component as a crowd of two diameters with its mean and cv", () => {
    fc.assert(
      fc.property(components, fc.constantFrom("mass" as const, "length" as const), (parts, weighting) => {
        const [masses, microns, variations] = columns(parts);
        // Half the length at d(1 - cv), half at d(1 + cv): mean d and cv as wanted.
        const crowd = parts.flatMap(([mass, micron, cv]) => {
          const length = weighting === "mass" ? mass : mass / (micron ** 2 * (1 + cv ** 2));
          return [
            [length / 2, micron * (1 - cv)],
            [length / 2, micron * (1 + cv)],
          ] as const;
        });
        const total = crowd.reduce((sum, [length]) => sum + length, 0);
        const mean = crowd.reduce((sum, [length, d]) => sum + length * d, 0) / total;
        const variance = crowd.reduce((sum, [length, d]) => sum + length * (d - mean) ** 2, 0) / total;
        expect(blendFineness(masses, microns, variations, weighting, "mean")).toBeCloseTo(mean, 10);
        expect(blendFineness(masses, microns, variations, weighting, "sd")).toBeCloseTo(Math.sqrt(variance), 5);
        expect(blendFineness(masses, microns, variations, weighting, "cv")).toBeCloseTo(Math.sqrt(variance) / mean, 6);
      }),
    );
  });
});

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

describe("tear and romaine", () => {
  test("13.5 of top to 1 of noil is 1 in 14.5", () => {
    expect(romaineOfTear(13.5)).toBe(2 / 29);
  });

  test("undo each other", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10000 }), (count) => {
        expect(tearOfRomaine(romaineOfTear(count / 100))).toBeCloseTo(count / 100, 8);
      }),
    );
  });
});

describe("without anything to divide by", () => {
  test("no noil, no tear; no mass, no mean", () => {
    expect(refusalOf(() => tearOfRomaine(0))).toBe("#DIV/0! romaine is 0; without noil there is no tear");
    expect(refusalOf(() => blendFineness([0, 0], [20, 22], undefined, "mass", "mean"))).toBe(
      "#DIV/0! masses is 0 in all; must not sum to 0",
    );
  });
});

describe("TEAM-2 forecast", () => {
  // Worked by hand from the published equations for 85 mm, 38 N/ktex, 21 micron, 1.5 % VM, 50 % middle breaks.
  test("hauteur 44.2 + 17.86 + 19.95 - 0.675 - 9.5 - 3.5 = 68.335 mm", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "hauteur")).toBeCloseTo(68.335, 10);
  });
  test("cv 10.2 - 15.58 - 7.35 + 10 + 49.9 = 47.17 %", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "cv hauteur")).toBeCloseTo(0.4717, 12);
  });
  test("romaine -9.35 - 5.32 - 7.35 + 1.41 + 27.7 = 7.09 %, falling as the staple lengthens", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.5, "romaine")).toBeCloseTo(0.0709, 12);
    expect(topForecast(95, 38, 21, 0.015, 0.5, "romaine")).toBeCloseTo(0.0709 - 0.011, 12);
  });
  test("no noil at all, or less, is no forecast: 27.7 - 0.33 - 13.72 - 13.65 = 0", () => {
    const outside = "#NUM! the romaine is forecast at or below 0; these wools lie outside the equations";
    expect(refusalOf(() => topForecast(3, 98, 39, 0, 0.5, "romaine"))).toBe(outside);
    expect(refusalOf(() => topForecast(4, 98, 39, 0, 0.5, "romaine"))).toBe(outside);
    expect(topForecast(2, 98, 39, 0, 0.5, "romaine")).toBeCloseTo(0.0011, 12);
  });
  test("middle breaks below 45 % count as 45 %", () => {
    expect(topForecast(85, 38, 21, 0.015, 0.1, "hauteur")).toBe(topForecast(85, 38, 21, 0.015, 0.45, "hauteur"));
    expect(topForecast(85, 38, 21, 0.015, 0.45, "hauteur")).toBeCloseTo(68.335 + 0.19 * 5, 10);
  });
});
