import { describe, expect, test } from "vitest";
import { plyTakeUp } from "../../../src/trade/spinning/ply-take-up";
import { takeUp } from "../../../src/trade/spinning/take-up";

describe("take-up of plying", () => {
  test("without ply twist there is none", () => {
    expect(plyTakeUp(0.3, 500, 0, "opposite")).toBeCloseTo(0, 14);
  });

  test("with all the singles twist taken out: the cosine of the ply, over what the singles had taken up", () => {
    const [diameter, turns] = [0.25, 400];
    const tangent = (Math.PI * diameter * turns) / 1000;
    const singles = takeUp(tangent, "staple");
    expect(plyTakeUp(diameter, turns, turns, "opposite")).toBeCloseTo(
      1 - Math.cos(Math.atan(tangent)) / (1 - singles),
      12,
    );
  });

  test("against the singles a little ply twist lengthens, and with them it shortens", () => {
    expect(plyTakeUp(0.25, 500, 150, "opposite")).toBeLessThan(0);
    expect(plyTakeUp(0.25, 500, 150, "same")).toBeGreaterThan(0);
  });

  test("at an angle above 60°, which no yarn has, names the twist that is too high", () => {
    expect(() => plyTakeUp(0.25, 3000, 0, "same")).toThrow(/^single_twist is 3000 turns a metre/);
    expect(() => plyTakeUp(0.25, 500, 3000, "same")).toThrow(/^ply_twist is 3000 turns a metre/);
  });

  test("more strands lie further out and take up more", () => {
    const by = [2, 3, 4, 6].map((plies) => plyTakeUp(0.25, 400, 400, "opposite", plies));
    expect([...by].sort((a, b) => a - b)).toEqual(by);
    expect(new Set(by).size).toBe(4);
  });
});
