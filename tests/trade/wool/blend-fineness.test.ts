import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blendFineness } from "../../../src/trade/wool/blend-fineness";
import { refusalOf } from "../../support/refusals";

describe("diameter of a blend", () => {
  const component = fc.tuple(
    fc.integer({ min: 1, max: 5000 }),
    fc.integer({ min: 140, max: 400 }).map((tenths) => tenths / 10),
    fc.integer({ min: 0, max: 40 }).map((percent) => percent / 100),
  );
  const components = fc.array(component, { minLength: 1, maxLength: 6 });
  const columns = (parts: [number, number, number][]) =>
    [parts.map(([mass]) => mass), parts.map(([, micron]) => micron), parts.map(([, , cv]) => cv)] as const;

  test("by mass: 2,000 kg of 24 and 24,000 kg of 30 micron are (48,000 + 720,000)/26,000 micron", () => {
    expect(blendFineness([2000, 24000], [24, 30], undefined, "mass", "mean")).toBeCloseTo(768 / 26, 13);
  });

  test("by length the finer component counts for more, so the blend reads finer", () => {
    fc.assert(
      fc.property(components, (parts) => {
        const [masses, microns] = columns(parts);
        const byLength = blendFineness(masses, microns, undefined, "length", "mean");
        expect(byLength).toBeLessThanOrEqual(blendFineness(masses, microns, undefined, "mass", "mean") + 1e-12);
        expect(byLength).toBeGreaterThanOrEqual(Math.min(...microns) - 1e-12);
      }),
    );
  });

  test("agrees with counting fibres: a component as a crowd of two diameters with its mean and cv", () => {
    fc.assert(
      fc.property(components, fc.constantFrom("mass" as const, "length" as const), (parts, weighting) => {
        const [masses, microns, variations] = columns(parts);
        // Half the length at d(1 - cv), half at d(1 + cv): mean d and cv as wanted.
        const crowd = parts.flatMap(([mass, micron, cv]) => {
          const length = weighting === "mass" ? mass : mass / (micron ** 2 * (1 + cv ** 2));
          return [
            [length / 2, micron * (1 - cv)],
            [length / 2, micron * (1 + cv)],
          ] as const;
        });
        const total = crowd.reduce((sum, [length]) => sum + length, 0);
        const mean = crowd.reduce((sum, [length, d]) => sum + length * d, 0) / total;
        const variance = crowd.reduce((sum, [length, d]) => sum + length * (d - mean) ** 2, 0) / total;
        expect(blendFineness(masses, microns, variations, weighting, "mean")).toBeCloseTo(mean, 10);
        expect(blendFineness(masses, microns, variations, weighting, "sd")).toBeCloseTo(Math.sqrt(variance), 5);
        expect(blendFineness(masses, microns, variations, weighting, "cv")).toBeCloseTo(Math.sqrt(variance) / mean, 6);
      }),
    );
  });
});

test("no mass, no mean", () => {
  expect(refusalOf(() => blendFineness([0, 0], [20, 22], undefined, "mass", "mean"))).toBe(
    "#DIV/0! masses is 0 in all; must not sum to 0",
  );
});
