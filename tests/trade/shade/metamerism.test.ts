import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LIGHTS } from "../../../src/tables/lights";
import { metamerism } from "../../../src/trade/shade/metamerism";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { smoothSpectrum } from "../../../src/trade/shade/smooth-spectrum";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { TEXTILES } from "../../support/measured-textiles";

const measured = fc.constantFrom(...TEXTILES.values());
const light = fc.constantFrom(...LIGHTS);

describe("index of metamerism", () => {
  test("is 0 for a reflectance and itself, for one scaled, and when the light does not change", () => {
    fc.assert(
      fc.property(measured, measured, light, light, (first, second, from, to) => {
        expect(metamerism(first, first, from, to)).toBeLessThan(1e-6);
        const paler = first.map((value) => value * 0.9);
        expect(metamerism(first, paler, from, to)).toBeLessThan(1e-6);
        expect(metamerism(first, second, from, from)).toBeLessThan(1e-6);
      }),
    );
  });
  test("of a pair that matches in one light is their difference in the other", () => {
    fc.assert(
      fc.property(measured, light, light, (first, from, to) => {
        const second = smoothSpectrum(labOf(first, from), from)!;
        const plain = difference2000(labOf(first, to), labOf(second, to));
        expect(Math.abs(metamerism(first, second, from, to) - plain)).toBeLessThan(1e-5);
      }),
    );
  });
});
