import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { TWIST_UNITS, type TwistUnit } from "../../../src/tables/twist-units";
import {
  expectAngle,
  expectPlyTwist,
  expectTurns,
  expectTwist,
  expectTwisted,
} from "../../../src/trade/spinning/plausible-twist";
import { refusalOf } from "../../support/refusals";

const system = (word: string) => COUNT_SYSTEMS.find((one) => one.word === word) as CountSystem;
const unit = (word: string) => TWIST_UNITS.find((one) => one.word === word) as TwistUnit;

/** Common practice without a source: a soft knitting yarn, a hard crepe, a roving. */
describe("twists that yarns have", () => {
  test.each([
    [350, "tpm", 24, "Nm"],
    [12, "tpi", 24, "NeW"],
    [2500, "tpm", 60, "Nm"],
    [25, "tpm", 400, "tex"],
  ])("%d %s at %d %s", (twist, by, count, of) => {
    expect(expectTwist(twist, unit(by), count, system(of))).toBeCloseTo(by === "tpi" ? twist / 0.0254 : twist, 9);
  });

  test("turns a metre read as turns an inch are refused, and so are twist and count in each other's place", () => {
    expect(refusalOf(() => expectTwist(9000, unit("tpi"), 24, system("Nm")))).toMatch(/^#VALUE! twist is 9000 tpi/);
    expect(refusalOf(() => expectTurns("twist", "1", 1))).toContain("which no yarn has");
  });

  test("a ply twist stands beside its singles in one unit, or is none", () => {
    expect([0, 200, 700].map((ply) => expectPlyTwist(400, ply))).toEqual([0, 200, 700]);
    expect(refusalOf(() => expectPlyTwist(400, 10))).toContain("are both in one unit?");
  });

  test("outside fibres lie between 0.6 and 60 degrees to the axis", () => {
    expect(expectTwisted("twist", "300", Math.tan(Math.PI / 9))).toBeCloseTo(Math.tan(Math.PI / 9), 15);
    expect(refusalOf(() => expectTwisted("twist", "3", 0.0099))).toContain("below 0.6°");
    expect(expectAngle("twist", "3000", 1.73)).toBe(1.73);
    expect(refusalOf(() => expectAngle("twist", "3000", 1.74))).toContain("above 60°");
  });
});
