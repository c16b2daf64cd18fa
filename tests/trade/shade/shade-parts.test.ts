import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shadeBlock, CYLINDER } from "../../../src/trade/shade/shade-blocks";
import { difference1976, difference1994 } from "../../../src/trade/shade/shade-difference";
import { shadeParts, shadeWords } from "../../../src/trade/shade/shade-parts";
import type { Lab } from "../../../src/trade/shade/tristimulus";
import { refusalOf } from "../../support/refusals";

const axis = fc.double({ min: -90, max: 90, noNaN: true });
const lab = fc.tuple(fc.double({ min: 0, max: 100, noNaN: true }), axis, axis);
const DEGREE = Math.PI / 180;
const at = (lightness: number, chroma: number, hue: number): Lab => [
  lightness,
  chroma * Math.cos(hue * DEGREE),
  chroma * Math.sin(hue * DEGREE),
];

describe("the parts of a difference", () => {
  test("lightness, chroma and hue make the whole, as lightness, a* and b* do", () => {
    fc.assert(
      fc.property(lab, lab, (standard, sample) => {
        const { lightness, a, b, chroma, hue } = shadeParts(standard, sample);
        const whole = difference1976(standard, sample);
        expect(Math.hypot(lightness, a, b)).toBeCloseTo(whole, 9);
        expect(Math.hypot(lightness, chroma, hue)).toBeCloseTo(whole, 7);
        expect(Math.hypot(lightness, chroma, hue)).toBeCloseTo(difference1994(1, 0, 0)(standard, sample), 7);
      }),
    );
  });

  test("hue goes round from red to yellow, by half the angle, and back with the other sign", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 80, noNaN: true }),
        fc.double({ min: 1, max: 80, noNaN: true }),
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: -179, max: 179 }),
        (c1, c2, hue, turn) => {
          const parts = shadeParts(at(50, c1, hue), at(50, c2, hue + turn));
          expect(parts.hue).toBeCloseTo(2 * Math.sqrt(c1 * c2) * Math.sin((turn / 2) * DEGREE), 6);
          expect(shadeParts(at(50, c2, hue + turn), at(50, c1, hue)).hue).toBeCloseTo(-parts.hue, 6);
        },
      ),
    );
    expect(shadeParts([50, 0, 0], [50, 0, 0]).hue).toBe(0);
    expect(shadeParts([50, 0, 0], [50, 3, 4])).toMatchObject({ chroma: 5, hue: 0 });
  });
});

test("hue keeps its digits next to none and at a half turn: an arc is its chord, and a half turn the sum of two radii", () => {
  expect(shadeParts([50, 50, 0], [50, 50, 5e-8]).hue / 5e-8).toBeCloseTo(1, 9);
  expect(Math.abs(shadeParts([50, 10, 0], [50, -10, 0]).hue)).toBeCloseTo(20, 12);
});

describe("the words", () => {
  const words = (standard: Lab, sample: Lab) => shadeWords(standard, shadeParts(standard, sample));

  test("a chroma of 5 is no grey: of the same hue it is the same", () => {
    expect(words([50, 3, 4], [50, 6, 8])[2]).toBe("same");
    expect(words([50, 2.7, 3.6], [50, 5.4, 7.2])[2]).toBe("yellower");
  });

  test("for lightness and chroma", () => {
    expect(words([50, 10, 0], [52, 12, 0]).slice(0, 2)).toEqual(["lighter", "brighter"]);
    expect(words([50, 10, 0], [48, 8, 0]).slice(0, 2)).toEqual(["darker", "duller"]);
    expect(words([50, 10, 0], [50.04, 9.96, 0])).toEqual(["same", "same", "same"]);
  });

  test.each([
    [45, "yellower", "redder"],
    [135, "greener", "yellower"],
    [225, "bluer", "greener"],
    [315, "redder", "bluer"],
    // At red, yellow, green and blue themselves.
    [0, "yellower", "bluer"],
    [90, "greener", "redder"],
    [180, "bluer", "yellower"],
    [270, "redder", "greener"],
  ])("from a hue of %d° on it is %s, back it is %s", (hue, onwards, backwards) => {
    const standard: Lab =
      hue % 90 === 0 ? ([50, [20, 0, -20, 0][hue / 90], [0, 20, 0, -20][hue / 90]] as Lab) : at(50, 20, hue);
    expect(words(standard, at(50, 20, hue + 10))[2]).toBe(onwards);
    expect(words(standard, at(50, 20, hue - 10))[2]).toBe(backwards);
  });

  test("of a grey go by the larger of da* and db*", () => {
    expect(words([50, 0, 0], [50, 1, 0.5])[2]).toBe("redder");
    expect(words([50, 0, 0], [50, -1, 0.5])[2]).toBe("greener");
    expect(words([50, 3, 3], [50, 3.2, 4])[2]).toBe("yellower");
    expect(words([50, 0, 0], [50, 0.5, -1])[2]).toBe("bluer");
  });
});

describe("shade blocks", () => {
  const standard: Lab = [60, 0, 10];
  const block = (sample: Lab, widths = [1, 1, 1]) => shadeBlock(sample, standard, widths, CYLINDER);

  test("count whole blocks from the standard, half a width to the next", () => {
    expect(block(standard)).toBe(555);
    expect([60.49, 60.5, 61.49, 61.5, 59.51, 59.5, 64.4, 56].map((L) => block([L, 0, 10]))).toEqual([
      555, 655, 655, 755, 555, 455, 955, 155,
    ]);
    expect(block([60, 0, 11.2])).toBe(565);
    // Towards red from yellow is less hue.
    expect(block([60, 1.2, 10])).toBe(554);
    expect(block([60, -1.2, 10])).toBe(556);
    expect(block([60.6, 0, 8.9], [1.2, 2, 1])).toBe(645);
  });

  test("are the same for every axis by itself", () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 40 }), fc.integer({ min: 1, max: 30 }), (tenths, width) => {
        const blocks = Math.sign(tenths) * Math.floor(Math.abs(tenths) / width + 0.5);
        const wanted = Math.abs(blocks) > 4 ? undefined : 555 + 100 * blocks;
        const call = (): number => block([60 + tenths / 10, 0, 10], [width / 10, 1, 1]);
        if (wanted === undefined) expect(refusalOf(call)).toContain(`${Math.abs(blocks)} blocks off in dL*`);
        else expect(call()).toBe(wanted);
      }),
    );
  });

  test("beyond the ninth there is none", () => {
    expect(refusalOf(() => block([64.5, 0, 10]))).toBe(
      "#N/A labs is 5 blocks off in dL*; at most 4 either way: wider blocks",
    );
    expect(refusalOf(() => shadeBlock([60, 9, 10], standard, [1, 2, 1], ["lightness", "a", "b"]))).toBe(
      "#N/A labs is 5 blocks off in da*; at most 4 either way: wider blocks",
    );
  });
});
