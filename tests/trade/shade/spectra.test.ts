import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BANDS, BLACKEST, clipped, onBands, onUsualBands, WHITEST } from "../../../src/trade/shade/spectra";
import { refusalOf } from "../../support/refusals";

const nm = Array.from({ length: BANDS }, (_, band) => 400 + 10 * band);

describe("reflectance on 31 bands", () => {
  test("a cubic comes through from bands of 20 nm exactly, inside; at the ends a parabola does", () => {
    const coefficient = fc.integer({ min: -100, max: 100 });
    fc.assert(
      fc.property(coefficient, coefficient, coefficient, coefficient, (a, b, c, d) => {
        const curve = (length: number, cubic: number) => {
          const x = (length - 550) / 150;
          return a + b * x + c * x * x + cubic * x ** 3;
        };
        const measured = (cubic: number) => Array.from({ length: 16 }, (_, place) => curve(400 + 20 * place, cubic));
        const inside = onBands(measured(d), 400, 20);
        nm.slice(2, -2).forEach((length, place) => expect(inside[place + 2]).toBeCloseTo(curve(length, d), 9));
        onBands(measured(0), 400, 20).forEach((value, band) => expect(value).toBeCloseTo(curve(nm[band]!, 0), 9));
      }),
    );
  });

  test("beyond what was measured the nearest value stays", () => {
    const bands = onBands([0.2, 0.3, 0.4], 500, 10);
    expect(bands.slice(0, 11)).toEqual(new Array(11).fill(0.2));
    expect(bands.slice(12)).toEqual(new Array(19).fill(0.4));
  });

  test("31 and 16 bands are the usual ones; others must say where they start and step", () => {
    const even = new Array<number>(31).fill(0.5);
    expect(onUsualBands(even)).toBe(even);
    expect(onUsualBands(even.slice(0, 16))).toEqual(even);
    expect(refusalOf(() => onUsualBands(even.slice(0, 20)))).toMatch(
      /^#VALUE! reflectance is 20 bands wide; give first_nm/,
    );
    expect(refusalOf(() => onBands(even, 700, 10))).toContain("it must cover part of 400 to 700 nm");
  });

  test("other bands are not taken for the usual ones because they begin, step or count like them", () => {
    const rising = Array.from({ length: 31 }, (_, band) => band / 100);
    expect(onBands(rising.slice(0, 20), 400, 10)).toEqual([
      ...rising.slice(0, 20),
      ...new Array<number>(11).fill(0.19),
    ]);
    onBands(rising, 400, 20).forEach((value, band) => expect(value).toBeCloseTo(band / 200, 12));
    onBands(rising, 410, 10).forEach((value, band) => expect(value).toBeCloseTo(Math.max(0, band - 1) / 100, 12));
    expect(refusalOf(() => onBands(rising.slice(0, 3), 380, 10))).toContain("measured from 380 to 400 nm");
  });

  test("of a start and a step, one of which is given, the other is not guessed for other bands", () => {
    const even = new Array<number>(20).fill(0.5);
    const wanted =
      "#VALUE! reflectance is 20 bands wide; give first_nm and step_nm, or 31 or 16 bands from 400 to 700 nm";
    expect(refusalOf(() => onUsualBands(even, 400))).toBe(wanted);
    expect(refusalOf(() => onUsualBands(even, undefined, 10))).toBe(wanted);
    expect(onUsualBands(even, 400, 10)).toHaveLength(31);
  });

  test("the models get no black and no white of 0 and 1", () => {
    expect([-0.1, 0, 0.5, 1, 1.2].map(clipped)).toEqual([BLACKEST, BLACKEST, 0.5, WHITEST, WHITEST]);
  });
});
