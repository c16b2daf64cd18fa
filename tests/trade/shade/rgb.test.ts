import * as culori from "culori";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { channelsOfHex, hexOfLab, labOfRgb } from "../../../src/trade/shade/rgb";

const channel = fc.integer({ min: 0, max: 255 });

describe("screen colours", () => {
  test("L*a*b* agrees with a general-purpose colour library", () => {
    const lab65 = culori.converter("lab65");
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const theirs = lab65({ mode: "rgb", r: r / 255, g: g / 255, b: b / 255 });
        labOfRgb(r, g, b).forEach((value, axis) =>
          expect(Math.abs(value - [theirs.l, theirs.a, theirs.b][axis]!)).toBeLessThan(1e-4),
        );
      }),
      { numRuns: 2000 },
    );
  });
  test("every colour of the screen comes back as itself", () => {
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const hex = hexOfLab(labOfRgb(r, g, b));
        expect(hex).toMatch(/^#[0-9A-F]{6}$/);
        expect(channelsOfHex(hex)).toEqual([r, g, b]);
      }),
      { numRuns: 2000 },
    );
  });
  test("hex texts: long, short, without #, and what is none", () => {
    expect(channelsOfHex("#1A2b3C")).toEqual([26, 43, 60]);
    expect(channelsOfHex(" 1a2b3c ")).toEqual([26, 43, 60]);
    expect(channelsOfHex("#fA0")).toEqual([255, 170, 0]);
    for (const text of ["", "#12", "#1234", "red", "#GGGGGG", "0x123456"]) expect(channelsOfHex(text)).toBeUndefined();
  });
  test("a shade no screen shows still gets a colour", () => {
    expect(hexOfLab([50, 200, -200])).toMatch(/^#[0-9A-F]{6}$/);
    expect(hexOfLab([110, 0, 0])).toBe("#FFFFFF");
  });
});
