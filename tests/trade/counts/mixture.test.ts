import fc from "fast-check";
import { expect, test } from "vitest";
import { texOf } from "../../../src/trade/counts/counts";
import { mixtureCount } from "../../../src/trade/counts/mixture";
import { COUNT_SYSTEMS } from "../../../src/tables/count-systems";
import { expectClose } from "../../support/closeness";

const component = fc.tuple(
  fc.double({ min: 0.5, max: 100, noNaN: true }),
  fc.double({ min: 0.1, max: 100, noNaN: true }),
);

test("the mixture has the mass and the length of its components", () => {
  fc.assert(
    fc.property(
      fc.array(component, { minLength: 1, maxLength: 8 }),
      fc.constantFrom(...COUNT_SYSTEMS),
      (components, system) => {
        const counts = components.map(([count]) => count);
        const masses = components.map(([, mass]) => mass);
        const length = components.reduce((sum, [count, mass]) => sum + mass / texOf(count, system), 0);
        const mass = masses.reduce((sum, one) => sum + one, 0);
        expectClose(texOf(mixtureCount(counts, masses, system), system), mass / length, 1e-12);
      },
    ),
  );
});

test("half and half of 1.5 and 2.5 den is 1.875 den", () => {
  const denier = COUNT_SYSTEMS.find(({ word }) => word === "den")!;
  expect(mixtureCount([1.5, 2.5], [50, 50], denier)).toBeCloseTo(1.875, 12);
});
