import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chanceBeyond, limitOfT } from "../../../src/trade/quality/students-t";
import { expectClose } from "../../support/closeness";

const away = fc.double({ min: 1e-3, max: 60, noNaN: true });

describe("Student's t", () => {
  test("closed forms of 1, 2 and 4 degrees of freedom", () => {
    fc.assert(
      fc.property(away, (t) => {
        expectClose(chanceBeyond(t, 1), (2 / Math.PI) * Math.atan(1 / t), 1e-11);
        // 1 - t/√(2 + t²), written so that it keeps its digits far out.
        const root = Math.sqrt(2 + t * t);
        expectClose(chanceBeyond(t, 2), 2 / (root * (root + t)), 1e-11);
        const s = t / Math.sqrt(4 + t * t);
        expect(Math.abs(chanceBeyond(t, 4) - (1 - s * (1 + (1 - s * s) / 2)))).toBeLessThan(1e-12);
      }),
      { numRuns: 500 },
    );
  });

  test("its density, integrated by Simpson's rule", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0.05, max: 6, noNaN: true }), (degrees, t) => {
        // The density is even and differs from (1 + x²/ν)^(-(ν+1)/2) by a constant; x = √ν·tan u makes it cosᵛ⁻¹ u.
        const part = (end: number): number => {
          const steps = 20_000;
          const width = end / steps;
          let sum = 0;
          for (let step = 0; step <= steps; step++) {
            const weight = step === 0 || step === steps ? 1 : step % 2 === 1 ? 4 : 2;
            sum += weight * Math.cos(step * width) ** (degrees - 1);
          }
          return (sum * width) / 3;
        };
        const inside = part(Math.atan(t / Math.sqrt(degrees))) / part(Math.PI / 2);
        expect(Math.abs(chanceBeyond(t, degrees) - (1 - inside))).toBeLessThan(1e-10);
      }),
      { numRuns: 40 },
    );
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, two-sided; printed to three decimals (from memory).
  test.each([
    [1, 0.95, 12.706],
    [2, 0.95, 4.303],
    [5, 0.95, 2.571],
    [10, 0.95, 2.228],
    [30, 0.95, 2.042],
    [100, 0.95, 1.984],
    [5, 0.99, 4.032],
    [10, 0.9, 1.812],
  ])("%i degrees of freedom at %d: %d", (degrees, confidence, printed) => {
    expect(limitOfT(confidence, degrees)).toBeCloseTo(printed, 3);
  });

  test("the limit of a confidence has just that chance beyond it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 0.9999, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (confidence, degrees) => {
          expectClose(chanceBeyond(limitOfT(confidence, degrees), degrees), 1 - confidence, 1e-10);
        },
      ),
    );
  });

  test("with many degrees of freedom it is the normal deviate", () => {
    // 1.959964 for 95 %: the normal distribution's own table.
    expect(limitOfT(0.95, 1e7)).toBeCloseTo(1.959964, 5);
    expect(chanceBeyond(0, 5)).toBe(1);
  });

  test("where squares leave the range of doubles, nothing is beyond, or everything", () => {
    expect(chanceBeyond(1e200, 5)).toBe(0);
    expect(chanceBeyond(1e-160, 1e7)).toBe(1);
  });
});
