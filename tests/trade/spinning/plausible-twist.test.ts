import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { TWIST_CONVENTIONS, type TwistConvention } from "../../../src/tables/twist-conventions";
import { TWIST_UNITS, type TwistUnit } from "../../../src/tables/twist-units";
import {
  expectAngle,
  expectFactor,
  expectFactorAtMost,
  expectPlyTwist,
  expectTurns,
  expectTurnsAtMost,
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
    expect(refusalOf(() => expectTwist(9000, unit("tpi"), 24, system("Nm")))).toBe(
      "#VALUE! twist is 9000 tpi; a metric twist factor above 1000, which no yarn has; check unit and count",
    );
    expect(refusalOf(() => expectTwist(24, unit("tpm"), 350, system("Nm")))).toBe(
      "#VALUE! twist is 24 tpm; a metric twist factor below 3, which no yarn has; check unit and count",
    );
    expect(refusalOf(() => expectTwist(24, unit("tpm"), 45352, system("Nm")))).toMatch(/^#VALUE! count is 45352/);
  });

  test("factors from 3 to 1000 in the metric convention, those of others among them", () => {
    const metric = TWIST_CONVENTIONS.find(({ word }) => word === "metric") as TwistConvention;
    for (const factor of [3, 1000]) expect(expectFactor("factor", "it", factor, metric)).toBe(factor);
    expect(refusalOf(() => expectFactor("factor", "2.9 so", 2.9, metric))).toBe(
      "#VALUE! factor is 2.9 so; a metric twist factor below 3, which no yarn has; check unit and count",
    );
    expect(refusalOf(() => expectFactor("factor", "it", 1001, metric))).toContain("above 1000");
    // One to convert may be small.
    for (const factor of [0, 1, 1000]) expect(expectFactorAtMost("it", factor, metric)).toBe(factor);
    expect(refusalOf(() => expectFactorAtMost("1001 so", 1001, metric))).toBe(
      "#VALUE! value is 1001 so; a metric twist factor above 1000, which no yarn has; check unit and count",
    );
  });

  test("turns from 2 to 6000 a metre; a residual twist may be any, either way", () => {
    for (const turns of [2, 6000]) expect(expectTurns("twist", "it", turns)).toBe(turns);
    expect(refusalOf(() => expectTurns("twist", "1.9 so", 1.9))).toBe(
      "#VALUE! twist is 1.9 so; 1.9 turns a metre, which no yarn has; check units and order",
    );
    for (const turns of [-6000, 0, 6000]) expect(expectTurnsAtMost("twist", "it", turns)).toBe(turns);
    for (const turns of [-6001, 6001])
      expect(refusalOf(() => expectTurnsAtMost("twist", "it", turns))).toBe(
        `#VALUE! twist is it; ${turns} turns a metre, which no yarn has; check units and order`,
      );
  });

  test("a ply twist stands beside its singles in one unit, or is none", () => {
    expect([0, 200, 700].map((ply) => expectPlyTwist(400, ply))).toEqual([0, 200, 700]);
    expect([20, 8000].map((ply) => expectPlyTwist(400, ply))).toEqual([20, 8000]);
    expect(refusalOf(() => expectPlyTwist(400, 10))).toBe(
      "#VALUE! ply_twist is 10; beside a single_twist of 400; are both in one unit?",
    );
    expect(refusalOf(() => expectPlyTwist(400, 8001))).toMatch(/^#VALUE! ply_twist is 8001/);
  });

  test("outside fibres lie between 0.6 and 60 degrees to the axis", () => {
    expect(expectTwisted("twist", "300", Math.tan(Math.PI / 9))).toBeCloseTo(Math.tan(Math.PI / 9), 15);
    expect(expectTwisted("twist", "3", 0.01)).toBe(0.01);
    expect(refusalOf(() => expectTwisted("twist", "3", 0.0099))).toBe(
      "#VALUE! twist is 3; an angle below 0.6°, which holds no roving; check unit, count and volume",
    );
    expect(expectAngle("twist", "3000", 1.73)).toBe(1.73);
    expect(expectAngle("twist", "3000", Math.sqrt(3))).toBe(Math.sqrt(3));
    for (const expectation of [expectAngle, expectTwisted])
      expect(refusalOf(() => expectation("twist", "3000", 1.74))).toBe(
        "#VALUE! twist is 3000; an angle above 60°, which no yarn has; check unit, count and volume",
      );
  });
});
