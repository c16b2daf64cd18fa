import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fromTex, texOf } from "../../../src/trade/counts/counts";
import {
  blendedFibresInSection,
  fibresInSection,
  fibreTex,
  finestTex,
  WOOL_DENSITY,
} from "../../../src/trade/spinning/fibres-in-section";
import { anySystem, between } from "../../support/spinning";
import { expectClose } from "../../support/closeness";

describe("fibres in the section", () => {
  test("scale with tex and with 1/d²", () => {
    fc.assert(
      fc.property(between(5, 500), between(12, 45), between(0, 0.4), between(0.2, 5), (tex, micron, cv, scale) => {
        const fibres = fibresInSection(tex, micron, cv, WOOL_DENSITY);
        expectClose(fibresInSection(tex * scale, micron, cv, WOOL_DENSITY), fibres * scale, 1e-14);
        expectClose(fibresInSection(tex, micron * scale, cv, WOOL_DENSITY), fibres / scale ** 2, 1e-14);
      }),
    );
  });

  test("one fibre weighs the volume of its cylinder: a kilometre of it, in grams", () => {
    fc.assert(
      fc.property(between(12, 45), between(0.9, 1.6), (micron, density) => {
        const radiusInCm = (micron / 2) * 1e-4;
        expectClose(fibreTex(micron, 0, density), Math.PI * radiusInCm ** 2 * 1e5 * density, 1e-13);
      }),
    );
  });

  test("unequal fibres: the mean section of two diameters, counted one by one", () => {
    fc.assert(
      fc.property(between(15, 40), between(0, 0.5), (mean, cv) => {
        const [thin, thick] = [mean * (1 - cv), mean * (1 + cv)];
        const pair = (fibreTex(thin, 0, WOOL_DENSITY) + fibreTex(thick, 0, WOOL_DENSITY)) / 2;
        expectClose(fibreTex(mean, cv, WOOL_DENSITY), pair, 1e-13);
      }),
    );
  });

  test("the finest count has just the fewest fibres, in any system", () => {
    fc.assert(
      fc.property(
        between(12, 45),
        between(5, 200),
        between(0, 0.4),
        between(0.9, 1.6),
        anySystem,
        (micron, fewest, cv, density, system) => {
          const count = fromTex(finestTex(fewest, micron, cv, density), system);
          expectClose(fibresInSection(texOf(count, system), micron, cv, density), fewest, 1e-13);
        },
      ),
    );
  });

  test("the printed constants 972 and 917 are one formula", () => {
    expect(Math.round(fibresInSection(1, 1, 0, WOOL_DENSITY))).toBe(972);
    expect(Math.round(fibresInSection(1, 1, 0.245, WOOL_DENSITY))).toBe(917);
  });
});

describe("a blend of unlike fibres", () => {
  test("has the fibres of each share of its mass, one after the other in the section", () => {
    const wool = { micron: 21, variation: 0.2, density: 1.31 };
    const nylon = { micron: 18, variation: 0, density: 1.14 };
    const blend = blendedFibresInSection(20, [
      { ...wool, share: 0.8 },
      { ...nylon, share: 0.2 },
    ]);
    // 16 tex of wool and 4 tex of nylon: π/4·d²·ρ of each, from geometry.
    const area = (micron: number, cv: number) => (Math.PI / 4) * micron ** 2 * (1 + cv * cv) * 1e-6;
    expectClose(blend, 16 / (area(21, 0.2) * 1310) + 4 / (area(18, 0) * 1140), 1e-13);
    expectClose(blendedFibresInSection(20, [{ ...wool, share: 1 }]), fibresInSection(20, 21, 0.2, 1.31), 1e-15);
  });
});
