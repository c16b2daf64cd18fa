import { describe, expect, test } from "vitest";
import { cleanMass, combinedYield } from "../../../src/trade/wool/clean-mass";
import { refusalOf } from "../../support/refusals";

describe("clean mass", () => {
  // Source: CERTIFICATE: the yield is rounded to 0.1 %, then the mass to 1 kg.
  test("of 12,000 kg at 72.4036 % is 8,688 kg on the certificate and 8,688.432 kg without rounding", () => {
    expect(cleanMass(12000, 0.724036, "certificate")).toBe(8688);
    expect(cleanMass(12000, 0.724036, "none")).toBe(8688.432);
  });

  test("of several lots: their clean masses over their net masses", () => {
    // 1,000 kg at 70.0 % and 3,000 kg at 60.1 % are 700 and 1,803 kg of 4,000 kg.
    expect(combinedYield([1000, 3000], [0.7, 0.601])).toBe(2503 / 4000);
    expect(refusalOf(() => combinedYield([0, 0], [0.7, 0.6]))).toBe("#DIV/0! nets is 0 in all; must not sum to 0");
  });

  test("tonnes are not rounded to kilograms", () => {
    expect(refusalOf(() => cleanMass(12, 0.724, "certificate"))).toBe(
      '#VALUE! net is 12; too little to round to 1 kg; for tonnes write rounding "none"',
    );
    expect(cleanMass(12, 0.724036, "none")).toBe(8.688432);
    expect([cleanMass(0, 0.7, "certificate"), cleanMass(50, 0.7, "certificate")]).toEqual([0, 35]);
    expect(refusalOf(() => combinedYield([1000, 12], [0.7, 0.7]))).toBe(
      "#VALUE! nets item 2 is 12; too little to round to 1 kg; for tonnes write it in kg",
    );
    // 49.96 % is 50.0 % on the certificate: 500 kg of 1,000.
    expect(combinedYield([1000], [0.4996])).toBe(0.5);
  });
});
