import { describe, expect, test } from "vitest";
import { routeCost, type PricedStage } from "../../../src/trade/prices/route-cost";

const spinning: PricedStage = {
  stage: "spinning",
  loss: 0.1,
  regain_out: 0,
  by_product: 0,
  by_product_price: undefined,
  basis: undefined,
  rate: undefined,
  minimum: 0,
  fixed: 0,
  actual_out: undefined,
  hours: undefined,
};
const cost = (stage: Partial<PricedStage>, quantity = 100) =>
  routeCost(quantity, [{ ...spinning, ...stage }], "made", 9, 0, undefined).map((line) => ({
    stage: line.stage,
    charge: line.charge.toNumber() + 0,
    costSoFar: line.costSoFar.toNumber(),
  }));

describe("what really came out", () => {
  // 100 at 9 are 900 on the 90 expected: 10 a unit. Nine units less leave with 90, nine more come in with 90.
  test("below what was expected, the rest leaves at the unit cost reached", () => {
    expect(cost({ actual_out: 81 }).slice(1)).toEqual([
      { stage: "spinning", charge: 0, costSoFar: 900 },
      { stage: "spinning: abnormal loss", charge: -90, costSoFar: 810 },
    ]);
  });

  test("above it, the surplus comes in at the unit cost reached", () => {
    expect(cost({ actual_out: 99 }).slice(1)).toEqual([
      { stage: "spinning", charge: 0, costSoFar: 900 },
      { stage: "spinning: abnormal gain", charge: 90, costSoFar: 990 },
    ]);
  });

  test("exactly as expected, there is a line of nothing lost", () => {
    expect(cost({ actual_out: 90 })[2]).toEqual({ stage: "spinning: abnormal loss", charge: 0, costSoFar: 900 });
  });
});

describe("a rate", () => {
  test("per hour follows the hours and not the mass", () => {
    for (const quantity of [1, 100]) {
      expect(cost({ basis: "per hour", rate: 40, hours: 3.5 }, quantity)[1]?.charge).toBe(140);
    }
    expect(cost({ basis: "per hour", rate: 40, hours: 0 })[1]?.charge).toBe(0);
  });

  test("in percent is of the cost so far, and 1 is taken for a percent typed whole", () => {
    expect(cost({ basis: "percent", rate: 0.05 })[1]?.charge).toBe(45);
    expect(() => cost({ basis: "percent", rate: 1 })).toThrow(
      "stages[0].rate is 1; of basis percent must be below 1; write 1% or 0.01",
    );
  });
});
