import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CYLINDER, shadeBlock } from "../../../src/trade/shade/shade-blocks";
import { refusalOf } from "../../support/refusals";

const STANDARD = [50, 20, 0] as const;

describe("shade blocks", () => {
  test("by hand: 0.6 lighter, 0.4 less chroma, the same hue, in blocks of 0.5, are one up, one down and none", () => {
    expect(shadeBlock([50.6, 19.6, 0], STANDARD, [0.5, 0.5, 0.5], CYLINDER)).toBe(645);
    expect(shadeBlock(STANDARD, STANDARD, [0.5, 0.5, 0.5], CYLINDER)).toBe(555);
  });

  test("the edge of a block belongs to the one further out: half a block off in lightness", () => {
    expect(shadeBlock([50.25, 20, 0], STANDARD, [0.5, 1, 1], CYLINDER)).toBe(655);
    expect(shadeBlock([50.2499, 20, 0], STANDARD, [0.5, 1, 1], CYLINDER)).toBe(555);
    expect(shadeBlock([49.75, 20, 0], STANDARD, [0.5, 1, 1], CYLINDER)).toBe(455);
  });

  test("each digit counts whole blocks, by a plain count in L*, a* and b*", () => {
    const off = fc.integer({ min: -40, max: 40 }).filter((tenths) => Math.abs(tenths) % 10 !== 5);
    fc.assert(
      fc.property(off, off, off, (l, a, b) => {
        const sample = [50 + l / 10, 20 + a / 10, b / 10] as const;
        const digit = (tenths: number) => 5 + Math.sign(tenths) * Math.floor((Math.abs(tenths) + 5) / 10);
        const wanted = digit(l) * 100 + digit(a) * 10 + digit(b);
        expect(shadeBlock(sample, STANDARD, [1, 1, 1], ["lightness", "a", "b"])).toBe(wanted);
      }),
    );
  });

  test("beyond a thousand blocks they are not counted out", () => {
    const far = (lightness: number) =>
      refusalOf(() => shadeBlock([lightness, 20, 0], STANDARD, [0.001, 1, 1], CYLINDER));
    expect(far(51)).toContain("labs is 1000 blocks off in dL*");
    expect(far(49)).toContain("labs is 1000 blocks off in dL*");
    expect(far(52)).toContain("labs is over 1000 blocks off in dL*");
  });

  test("five blocks off there is no digit", () => {
    expect(refusalOf(() => shadeBlock([55, 20, 0], STANDARD, [1, 1, 1], CYLINDER))).toBe(
      "#N/A labs is 5 blocks off in dL*; at most 4 either way: wider blocks",
    );
  });
});
