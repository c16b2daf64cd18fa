import { describe, expect, test } from "vitest";
import { DAYLIGHT, LIGHTS } from "../../../src/tables/lights";
import { absorptionModel, additiveValues, exponentialModel, fibreModel } from "../../../src/trade/shade/blend-models";
import { difference2000 } from "../../../src/trade/shade/shade-difference";
import { ShadeObjective } from "../../../src/trade/shade/shade-objective";
import { smoothSpectrum } from "../../../src/trade/shade/smooth-spectrum";
import { labOf } from "../../../src/trade/shade/tristimulus";
import { expectClose } from "../../support/closeness";
import { TEXTILES, textile } from "../../support/measured-textiles";

const LAMP = LIGHTS.find(({ word }) => word === "A/10")!;
const MODELS = [fibreModel(0.15), exponentialModel(0.28), absorptionModel];
const [TARGET, BLEND, OTHER] = [textile(53), textile(79), textile(75)];

/** Between two values, a part of the way from the first. */
function between(from: Float64Array, to: Float64Array, part: number): Float64Array {
  return from.map((value, band) => value + part * (to[band]! - value));
}

describe("the objective of a match", () => {
  test("is the mean square of CIEDE2000 over the lights, and a ten-millionth of the mean square of the curves in percent", () => {
    for (const model of MODELS) {
      for (const lights of [[DAYLIGHT], [DAYLIGHT, LAMP], LIGHTS]) {
        const squares = lights.map((light) => difference2000(labOf(TARGET, light), labOf(BLEND, light)) ** 2);
        const curves = BLEND.map((value, band) => (100 * (value - TARGET[band]!)) ** 2);
        const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
        const objective = new ShadeObjective(TARGET, model, lights);
        expectClose(objective.measure(additiveValues(BLEND, model)), mean(squares) + 1e-7 * mean(curves), 1e-9);
        expect(objective.measure(objective.targetValues)).toBeLessThan(1e-18);
      }
    }
  });

  test("has the slopes that it shows when one band is nudged", () => {
    for (const model of MODELS) {
      for (const lights of [[DAYLIGHT], [LAMP, DAYLIGHT]]) {
        const objective = new ShadeObjective(TARGET, model, lights);
        const values = between(additiveValues(TARGET, model), additiveValues(BLEND, model), 0.3);
        const slopes = objective.at(values).slopes();
        const largest = Math.max(...slopes.map(Math.abs));
        for (let band = 0; band < values.length; band += 3) {
          const nudged = (by: number) => {
            const moved = values.slice();
            moved[band] = moved[band]! * (1 + by);
            return objective.measure(moved);
          };
          const measured = (nudged(1e-5) - nudged(-1e-5)) / (2e-5 * values[band]!) / 2;
          expect(Math.abs(slopes[band]! - measured)).toBeLessThan(2e-3 * largest);
        }
      }
    }
  });

  test("at a shade that looks the same in the light, only the curves slope", () => {
    const alike = smoothSpectrum(labOf(TARGET, DAYLIGHT), DAYLIGHT)!;
    for (const model of MODELS) {
      const objective = new ShadeObjective(TARGET, model, [DAYLIGHT]);
      const values = additiveValues(alike, model);
      const slopes = objective.at(values).slopes();
      const largest = Math.max(...slopes.map(Math.abs));
      alike.forEach((value, band) => {
        const curve = ((1e-7 * 100 ** 2) / 31) * (value - TARGET[band]!) * model.slope(value);
        expect(Math.abs(slopes[band]! - curve)).toBeLessThan(0.02 * largest);
      });
    }
  });

  test("rises from a match with the squares that its curvature says, alone and two together", () => {
    for (const model of MODELS) {
      for (const lights of [[DAYLIGHT], [DAYLIGHT, LAMP]]) {
        const objective = new ShadeObjective(TARGET, model, lights);
        const centre = objective.targetValues;
        const columns = [additiveValues(BLEND, model), additiveValues(OTHER, model)];
        const gram = objective.at(centre).curvature(columns);
        // So small a part of the way that the objective is its own square, so large that nothing is lost in digits.
        const part = 1e-4;
        const rise = (first: number, second: number) =>
          objective.measure(
            centre.map(
              (value, band) =>
                value + part * (first * (columns[0]![band]! - value) + second * (columns[1]![band]! - value)),
            ),
          ) /
          part ** 2;
        expectClose(gram[0]!, rise(1, 0), 0.02);
        expectClose(gram[3]!, rise(0, 1), 0.02);
        expectClose(gram[1]! + gram[2]! + gram[0]! + gram[3]!, rise(1, 1), 0.02);
        expect(gram[1]).toBe(gram[2]);
      }
    }
  });

  test("and without the colour with those of the curves alone", () => {
    for (const model of MODELS) {
      const objective = new ShadeObjective(TARGET, model, [DAYLIGHT]);
      const centre = objective.targetValues;
      const column = additiveValues(BLEND, model);
      const gram = objective.at(centre).curvature([column], false);
      const part = 1e-5;
      const curves = Array.from(
        between(centre, column, part),
        (value, band) => (100 * (model.reflectance(value) - model.reflectance(centre[band]!))) ** 2,
      );
      expectClose(gram[0]!, (1e-7 * curves.reduce((sum, square) => sum + square, 0)) / 31 / part ** 2, 1e-3);
    }
  });

  test("is met for every measured shade in every light at the shade itself", () => {
    for (const measured of TEXTILES.values()) {
      const objective = new ShadeObjective(measured, MODELS[0]!, LIGHTS);
      expect(objective.measure(additiveValues(measured, MODELS[0]!))).toBeLessThan(1e-15);
    }
  });
});
