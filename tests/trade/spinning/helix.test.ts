import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { COUNT_SYSTEMS, type CountSystem } from "../../../src/tables/count-systems";
import { TWIST_UNITS, type TwistUnit } from "../../../src/tables/twist-units";
import { refusalOf } from "../../support/refusals";
import { degreesOf, helixTangent, secantOf, surfaceTangent } from "../../../src/trade/spinning/helix";

describe("a helix round a yarn", () => {
  test("by hand: 1,000/π turns a metre round 1 mm are an angle of 45 degrees", () => {
    expect(helixTangent(1, 1000 / Math.PI)).toBeCloseTo(1, 14);
    expect(degreesOf(1)).toBe(45);
  });

  test("the secant is that of the angle, also where its square would overflow", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (tangent) => {
        expect(secantOf(tangent) * Math.cos(Math.atan(tangent))).toBeCloseTo(1, 9);
      }),
    );
    expect(secantOf(1e200)).toBe(1e200);
  });

  test("unrolled it is a right triangle: circumference, turn and fibre", () => {
    const tex = COUNT_SYSTEMS.find(({ word }) => word === "tex") as CountSystem;
    const metric = TWIST_UNITS.find(({ word }) => word === "tpm") as TwistUnit;
    // 100 tex at 1.2 cm³/g is 0.12 mm² thick in the section; d = √(4 × 0.12/π).
    const diameter = Math.sqrt((4 * 0.12) / Math.PI);
    expect(surfaceTangent(300, metric, 100, tex, 1.2)).toBeCloseTo(Math.PI * diameter * 0.3, 12);
    // Both arguments are named, the twist in the unit it came in.
    expect(refusalOf(() => surfaceTangent(0.1, metric, 100, tex, 1.2))).toBe(
      "#VALUE! twist is 0.1 tpm; an angle below 0.6°, which holds no roving; check unit, count and volume",
    );
    expect(refusalOf(() => surfaceTangent(300, metric, 1e9, tex, 1.2))).toMatch(/^#VALUE! count is 1000000000 tex; /);
  });
});
