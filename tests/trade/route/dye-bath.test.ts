import { expect, test } from "vitest";
import { dyeBath } from "../../../src/trade/route/dye-bath";

// By hand, from the definitions: liquor ratio 1:15 is 15 l a kg, dyes in percent on the mass of fibre.
test("50 kg of fibre at 1:15 with 2.4 % and 0.15 % of two dyes: 750 l, 1.2 kg and 75 g", () => {
  expect(dyeBath(50, 15, [0.024, 0.0015])).toEqual([750, 1.2, 0.075]);
});

test("in decimal: 3 × 0.1 is 0.3", () => {
  expect(dyeBath(3, 0.1, [0.1])).toEqual([0.3, 0.3]);
});
