import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lightWord } from "../../src/sheet/shades";
import { bandWeights } from "../../src/tables/band-weights";
import { LAMPS_WITHOUT_OBSERVER, LIGHTS, observerOf, otherLights, type Light } from "../../src/tables/lights";

const lightOf = (word: string): Light => lightWord(word, "light");
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** The rows of a table of figures. */
const figuresOf = (file: string) =>
  readFileSync(file, "utf8")
    .split("\n")
    .filter((line) => /^\d/.test(line))
    .map((line) => line.split(",").map(Number));

// Made from the same tables with the open library colour 0.4.6 (its procedure of ASTM E2022) and, for the lamps with
// lines, with numpy; they are rounded to five decimals.
describe("weights made elsewhere", () => {
  test.each(["10", "2"])("come out to the last decimal for the observer of %s degrees", (observer) => {
    const rows = figuresOf(`tests/data/tristimulus-weights-${observer}.csv`);
    expect(rows).toHaveLength(31);
    for (const [place, lamp] of ["D65", "A", "F2", "F11"].entries()) {
      const light = lightOf(`${lamp}/${observer}`);
      rows.forEach((row, band) => {
        const own = [light.x[band]!, light.y[band]!, light.z[band]!];
        own.forEach((weight, axis) => expect(Math.abs(weight - row[1 + 3 * place + axis]!)).toBeLessThan(1.5e-5));
      });
    }
  });
});

describe("white points", () => {
  const chromaticity = ([X, Y, Z]: Light["white"]) => [X / (X + Y + Z), Y / (X + Y + Z)];
  const expectNear = (got: readonly number[], wanted: readonly number[], tolerance: number) =>
    got.forEach((value, place) => expect(Math.abs(value - wanted[place]!)).toBeLessThanOrEqual(tolerance));

  // Source: CIE 15:2018, as colour 0.3.16 lists x and y: lamps to four decimals, daylight and A to five.
  test.each([
    ["D65", 0.31272, 0.32903, 2e-5],
    ["D50", 0.34567, 0.35851, 2e-5],
    ["A", 0.44758, 0.40745, 3e-5],
    ["F2", 0.3721, 0.3751, 6e-5],
    ["F7", 0.3129, 0.3292, 6e-5],
    ["F11", 0.3805, 0.3769, 6e-5],
    ["F12", 0.437, 0.4042, 6e-5],
    ["LED-B1", 0.456, 0.4078, 6e-5],
    ["LED-B2", 0.4357, 0.4012, 6e-5],
    ["LED-B3", 0.3756, 0.3723, 6e-5],
    ["LED-B4", 0.3422, 0.3502, 6e-5],
    ["LED-B5", 0.3118, 0.3236, 6e-5],
    ["LED-BH1", 0.4474, 0.4066, 6e-5],
    ["LED-RGB1", 0.4557, 0.4211, 6e-5],
    ["LED-V1", 0.4548, 0.4044, 6e-5],
    ["LED-V2", 0.3781, 0.3775, 6e-5],
  ])("%s for 2 degrees", (lamp, x, y, tolerance) =>
    expectNear(chromaticity(lightOf(`${lamp}/2`).white), [x, y], tolerance),
  );

  // Sources: CIE 15 for daylight and A; for LED as colour 0.3.16 works them out, to fifteen places of which its own
  // curves, with more decimals than the tables by 5 nm, let six be asked.
  test.each([
    ["D65", 0.31382, 0.331, 2e-5],
    ["D50", 0.34773, 0.35952, 2e-5],
    ["A", 0.45117, 0.40594, 2e-5],
    ["LED-B1", 0.462504966271043, 0.403041801546906, 5e-7],
    ["LED-B2", 0.442119475258745, 0.396633702892576, 5e-7],
    ["LED-B3", 0.380851979328052, 0.368518548904765, 5e-7],
    ["LED-B4", 0.348371362473402, 0.345065503264192, 5e-7],
    ["LED-B5", 0.316916877024753, 0.322060276350364, 5e-7],
    ["LED-BH1", 0.45277261075491, 0.40003246275, 5e-7],
    ["LED-RGB1", 0.457036370583652, 0.425381348780888, 5e-7],
    ["LED-V1", 0.453602699414564, 0.398199587905174, 5e-7],
    ["LED-V2", 0.37772848383402, 0.374512315539769, 5e-7],
  ])("%s for 10 degrees", (lamp, x, y, tolerance) =>
    expectNear(chromaticity(lightOf(`${lamp}/10`).white), [x, y], tolerance),
  );

  // Source: the white points of ASTM E308 as open libraries of colour list them, here from memory.
  test.each([
    ["D65/10", 94.811, 107.304],
    ["D50/10", 96.72, 81.427],
    ["A/10", 111.144, 35.2],
    ["F2/10", 103.28, 69.026],
    ["F7/10", 95.792, 107.687],
    ["D65/2", 95.047, 108.883],
    ["D50/2", 96.422, 82.521],
    ["A/2", 109.85, 35.585],
  ])("%s as X and Z", (word, X, Z) => {
    const { white } = lightOf(word);
    expectNear([white[0], white[1], white[2]], [X, 100, Z], 0.0135);
  });

  // Source: CIE 15:2018, correlated colour temperatures of its LED illuminants, as two open libraries give them.
  test.each([
    ["LED-B1", 2733],
    ["LED-B2", 2998],
    ["LED-B3", 4103],
    ["LED-B4", 5109],
    ["LED-B5", 6598],
    ["LED-BH1", 2851],
    ["LED-RGB1", 2840],
    ["LED-V1", 2724],
    ["LED-V2", 4070],
  ])("%s is as warm as a black body of %d K, and says so", (lamp, kelvin) => {
    const light = lightOf(`${lamp}/2`);
    const [u, v] = uniform(light.white);
    const away = (temperature: number) => {
      const [bodyU, bodyV] = uniform(blackBody(temperature));
      return Math.hypot(u - bodyU, v - bodyV);
    };
    expect(away(kelvin)).toBeLessThan(away(kelvin - 1.5));
    expect(away(kelvin)).toBeLessThan(away(kelvin + 1.5));
    expect(light.meaning).toContain(`, ${kelvin} K`);
  });

  const uniform = ([X, Y, Z]: Light["white"]) => [(4 * X) / (X + 15 * Y + 3 * Z), (6 * Y) / (X + 15 * Y + 3 * Z)] as [number, number]; // prettier-ignore
  const curves = figuresOf("src/build/cie/observers.csv");
  /** Planck's law, seen by the 2-degree observer. */
  const blackBody = (kelvin: number) =>
    [4, 5, 6].map((axis) =>
      sum(curves.map((row) => row[axis]! / (row[0]! ** 5 * Math.expm1(1.4388e7 / (row[0]! * kelvin))))),
    ) as unknown as Light["white"];
});

describe("weights of bands", () => {
  const samples = Array.from({ length: 81 }, (_, place) => 380 + 5 * place);
  const positive = fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 81, maxLength: 81 });

  test("sum to the whole, whatever the light and the curve", () => {
    fc.assert(
      fc.property(positive, positive, (power, curve) => {
        const whole = sum(power.map((value, place) => value * curve[place]!));
        expect(sum(bandWeights(power, curve, { first: 380, step: 5 }))).toBeCloseTo(whole, 3);
      }),
    );
  });

  // Lagrange's polynomials of four places give every cubic as it is.
  test("give the sum over every 5 nm for a reflectance that is a cubic, where the light is within the bands", () => {
    const cubic = fc.tuple(...[1, 2, 3, 4].map(() => fc.integer({ min: -9, max: 9 })));
    fc.assert(
      fc.property(positive, positive, cubic, (power, curve, [a = 0, b = 0, c = 0, d = 0]) => {
        const reflectance = (nm: number) => [a, b, c, d].reduce((value, k) => value * ((nm - 550) / 100) + k, 0);
        const within = power.map((value, place) => (samples[place]! < 430 || samples[place]! > 670 ? 0 : value));
        const weights = bandWeights(within, curve, { first: 380, step: 5 });
        const exact = sum(samples.map((nm, place) => within[place]! * curve[place]! * reflectance(nm)));
        expect(sum(weights.map((weight, band) => weight * reflectance(400 + 10 * band)))).toBeCloseTo(exact, 2);
      }),
    );
  });

  test("count what is outside 400 to 700 nm for the end bands", () => {
    const only = (nm: number) => samples.map((sample) => (sample === nm ? 1 : 0));
    const ones = samples.map(() => 1);
    expect(bandWeights(only(380), ones, { first: 380, step: 5 })).toEqual([1, ...new Array<number>(30).fill(0)]);
    expect(bandWeights(only(780), ones, { first: 380, step: 5 })).toEqual([...new Array<number>(30).fill(0), 1]);
    // Of 395 nm: from 390 and 400, less a sixteenth from 380 and 410.
    expect(bandWeights(only(395), ones, { first: 380, step: 5 }).slice(0, 3)).toEqual([17 / 16, -1 / 16, 0]);
  });
});

describe("words", () => {
  // Common practice, no source: what the trade and its light cabinets call the lamps.
  test.each([
    ["daylight/10", "D65/10"],
    ["Incandescent/2", "A/2"],
    ["tungsten/10", "A/10"],
    ["Inc A/10", "A/10"],
    ["CWF/10", "F2/10"],
    ["cool white/10", "F2/10"],
    ["tl84/2", "F11/2"],
    ["TL83/10", "F12/10"],
    ["FL2/10", "F2/10"],
    ["FL7/10", "F7/10"],
    ["FL11/10", "F11/10"],
    ["FL12/2", "F12/2"],
    ["led-rgb1/10", "LED-RGB1/10"],
  ])("%s is %s", (written, word) => expect(lightOf(written).word).toBe(word));

  test("every light stands once, for both observers, and tells its other names", () => {
    expect(new Set(LIGHTS.map(({ word }) => word)).size).toBe(32);
    expect(LIGHTS.map(observerOf).filter((observer) => observer === "10")).toHaveLength(16);
    for (const { meaning, aliases } of LIGHTS) for (const alias of aliases) expect(meaning).toContain(alias);
  });

  test("a lamp or a name alone is refused with what to write", () => {
    for (const light of LIGHTS.filter((each) => observerOf(each) === "10")) {
      for (const word of [light.word, ...light.aliases]) {
        const lamp = light.word.replace("/10", "");
        expect(LAMPS_WITHOUT_OBSERVER[word.replace("/10", "")]).toBe(`${lamp}/10 or ${lamp}/2`);
      }
    }
    expect(LAMPS_WITHOUT_OBSERVER["LED"]).toContain("LED-B1/10");
  });

  test("a match is looked at again in the four lights of before, whatever light it was made in", () => {
    expect(otherLights(lightOf("D65/10")).map(({ word }) => word)).toEqual(["A/10", "F2/10", "F11/10"]);
    expect(otherLights(lightOf("TL84/2")).map(({ word }) => word)).toEqual(["D65/2", "A/2", "F2/2"]);
    expect(otherLights(lightOf("LED-B3/10"))).toHaveLength(4);
  });
});
