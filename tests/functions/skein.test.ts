import { describe, expect, test } from "vitest";
import { messageOf, sheet } from "../support/functions";

describe("SKEINS and SKEINREMAINDER", () => {
  test("only one regain is refused, naming the other", () => {
    expect(messageOf("=YARN.SKEINS(1,0.1,12%)")).toBe(
      "#VALUE! regain_standard is left out; give both regains or neither",
    );
    expect(messageOf("=YARN.SKEINREMAINDER(1,0.1,,18.25%)")).toBe(
      "#VALUE! regain_now is left out; give both regains or neither",
    );
  });
  test("no yarn makes no skeins and leaves nothing", () => {
    expect([sheet("=YARN.SKEINS(0,0.1)"), sheet("=YARN.SKEINREMAINDER(0,0.1)")]).toEqual([0, 0]);
  });
  test("a column with a blank and a bad row", () => {
    expect(sheet('=YARN.SKEINS({0.3;"";-1;1},0.1)')).toEqual([
      [3],
      [""],
      [expect.objectContaining({ code: "#VALUE!", message: "mass is -1; must be a number, 0 or more" })],
      [10],
    ]);
  });
  test("a regain typed as a percent is refused", () => {
    expect(messageOf("=YARN.SKEINS(1,0.1,12,18.25)")).toMatch(/^#VALUE! regain_now is 12; write 12% or 0\.12/);
  });
});

describe("REELTURNS", () => {
  test("units are words, an unknown short one gets them all", () => {
    expect(messageOf('=YARN.REELTURNS(560,"yd",1.5,"yrd")')).toMatch(
      /^#VALUE! circumference_unit is "yrd".*write m, mm, cm, km, in, ft or yd$/,
    );
  });
  test("a reel without circumference is refused", () => {
    expect(messageOf('=YARN.REELTURNS(560,"yd",0,"yd")')).toBe("#VALUE! circumference is 0; must be a number above 0");
  });
});

describe("SHORTFALL", () => {
  test("outside 5 g to 10 kg it is #N/A in its own row", () => {
    expect(sheet('=YARN.SHORTFALL({100;4;"";10001;"x"})')).toEqual([
      [4.5],
      [expect.objectContaining({ code: "#N/A", message: "nominal_g is 4 g; the rule covers packs of 5 g to 10 kg" })],
      [""],
      [expect.objectContaining({ code: "#N/A" })],
      [expect.objectContaining({ code: "#VALUE!" })],
    ]);
  });
});

describe("NETCHECK", () => {
  test("is a header and one row of numbers and a verdict", () => {
    const [header, row] = sheet("=YARN.NETCHECK({101;90;103},100)") as unknown[][];
    expect(header).toEqual([
      "packs",
      "mean (g)",
      "T (g)",
      "below nominal - T",
      "allowed below nominal - T",
      "below nominal - 2T",
      "verdict",
    ]);
    expect(row).toEqual([
      3,
      98,
      4.5,
      1,
      0,
      1,
      "fails: mean below nominal; 1 below nominal - T, 0 allowed; 1 below nominal - 2T, none allowed",
    ]);
  });
  test("tares must be one or one a pack, and no heavier than the pack", () => {
    expect(messageOf("=YARN.NETCHECK({101;90;103},100,{1;2})")).toMatch(
      /^#VALUE! tare is 2 items long; give one, or one for each/,
    );
    expect(messageOf("=YARN.NETCHECK({101;2},100,3)")).toMatch(/^#VALUE! tare is above the mass of pack 2/);
  });
  test("a nominal mass outside the rule is #N/A under its own name", () => {
    expect(messageOf("=YARN.NETCHECK({101;99},4)")).toBe("#N/A nominal is 4 g; the rule covers packs of 5 g to 10 kg");
  });
  test("a gap in the list is refused, an error value passes through", () => {
    expect(messageOf('=YARN.NETCHECK({101;"";99},100)')).toMatch(/^#VALUE! masses item 2 is blank/);
    expect(sheet("=YARN.NETCHECK({101;#N/A},100)")).toMatchObject({ code: "#N/A" });
  });
});
