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

  test("has them to all digits when asked exactly: as a step of any width shows them, the further steps taken off", () => {
    for (const model of MODELS) {
      for (const lights of [[DAYLIGHT], [LAMP, DAYLIGHT]]) {
        const objective = new ShadeObjective(TARGET, model, lights);
        for (const part of [0.02, 0.3, 1]) {
          const values = between(additiveValues(TARGET, model), additiveValues(BLEND, model), part);
          const slopes = objective.at(values, true).slopes();
          const largest = Math.max(...slopes.map(Math.abs));
          for (let band = 0; band < values.length; band += 6) {
            const across = (by: number) => {
              const [more, less] = [values.slice(), values.slice()];
              more[band]! += by * values[band]!;
              less[band]! -= by * values[band]!;
              return (objective.measure(more) - objective.measure(less)) / (2 * by * values[band]!);
            };
            // Richardson's extrapolation, twice.
            const [wide, half, quarter] = [across(4e-3), across(2e-3), across(1e-3)];
            const [first, second] = [half + (half - wide) / 3, quarter + (quarter - half) / 3];
            const measured = (second + (second - first) / 15) / 2;
            expect(Math.abs(slopes[band]! - measured)).toBeLessThan(1e-7 * largest);
          }
        }
      }
    }
  });

  test("is not asked exactly unless it is said, which takes half as many colour differences", () => {
    const objective = new ShadeObjective(TARGET, MODELS[0]!, [DAYLIGHT]);
    const values = additiveValues(BLEND, MODELS[0]!);
    expect(objective.at(values).slopes()).toEqual(objective.at(values, false).slopes());
    expect(objective.at(values).slopes()).not.toEqual(objective.at(values, true).slopes());
  });

  test("forgets one blend when it becomes another", () => {
    const objective = new ShadeObjective(TARGET, MODELS[0]!, [DAYLIGHT, LAMP]);
    const [values, others] = [additiveValues(BLEND, MODELS[0]!), additiveValues(OTHER, MODELS[0]!)];
    const blend = objective.at(values);
    const asked = (measured: typeof blend) => [
      measured.error,
      ...measured.values,
      ...measured.slopes(),
      ...measured.curvature([objective.targetValues, values]),
    ];
    const first = asked(blend);
    expect(blend.become(others)).toBe(objective.measure(others));
    expect(asked(blend)).toEqual(asked(objective.at(others)));
    expect(asked(blend)).toEqual(asked(objective.at(others)));
    blend.become(values);
    expect(asked(blend)).toEqual(first);
  });

  test("has a curvature far from the match too: of what the colour moves, by the metric of the target", () => {
    for (const model of MODELS) {
      for (const lights of [[DAYLIGHT], [DAYLIGHT, LAMP]]) {
        const objective = new ShadeObjective(TARGET, model, lights);
        const centre = additiveValues(BLEND, model);
        const column = additiveValues(OTHER, model);
        const part = 1e-4;
        const reflectance = (values: Float64Array) => Array.from(values, (value) => model.reflectance(value));
        const [here, there] = [reflectance(centre), reflectance(between(centre, column, part))];
        const squares = lights.map((light) => {
          const [wanted, from, to] = [labOf(TARGET, light), labOf(here, light), labOf(there, light)];
          const moved = wanted.map((value, axis) => value + to[axis]! - from[axis]!);
          return (difference2000(wanted, moved as never) / part) ** 2;
        });
        const curves = here.map((value, band) => ((100 * (there[band]! - value)) / part) ** 2);
        const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
        expectClose(objective.at(centre).curvature([column])[0]!, mean(squares) + 1e-7 * mean(curves), 0.02);
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
