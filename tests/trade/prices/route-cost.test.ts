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

  test("a twentieth of it or twenty times as much at the furthest; a yield is no mass", () => {
    for (const actual_out of [4.5, 1800]) expect(cost({ actual_out }).length).toBe(3);
    for (const actual_out of [0.9, 4.4, 1801]) {
      expect(() => cost({ actual_out })).toThrow(`actual_out is ${actual_out}; must be a mass; 90 is expected`);
    }
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

describe("lots and currencies", () => {
  test("the rate per lot and the fixed charge are paid for every lot begun of what goes in", () => {
    const lots = { basis: "per lot", rate: 70, fixed: 5, lot_size: 30 } as const;
    // 100 in lots of 30 are 4, 90 are 3.
    expect(cost(lots)[1]?.charge).toBe(4 * 75);
    expect(cost(lots, 90)[1]?.charge).toBe(3 * 75);
    expect(cost({ basis: "per in", rate: 1, minimum: 150, fixed: 5, lot_size: 30 })[1]?.charge).toBe(150 + 20);
    expect(cost({ basis: "per lot", rate: 70, fixed: 5 })[1]?.charge).toBe(75);
  });

  test("a stage in another money is invoiced to the cent and then converted, and so is its by-product", () => {
    expect(cost({ basis: "per in", rate: 0.333, currency_rate: 1.1 })[1]?.charge).toBe(36.63);
    // 33.335 is invoiced as 33.34, which are 0.2 of it: 6.668.
    expect(cost({ basis: "per in", rate: 0.33335, currency_rate: 0.2 })[1]?.charge).toBe(6.67);
    const noil = routeCost(
      100,
      [{ ...spinning, by_product: 0.1, by_product_price: 2, currency_rate: 1.25 }],
      "made",
      9,
      0,
      undefined,
    );
    expect(noil[1]?.credit.toNumber()).toBe(25);
  });

  test("a percent is of the cost so far, in whatever money it is invoiced", () => {
    expect(cost({ basis: "percent", rate: 0.05, currency_rate: 1.25 })[1]?.charge).toBe(45);
    expect(cost({ basis: "percent", rate: 0.05, fixed: 4, currency_rate: 1.25 })[1]?.charge).toBe(50);
  });
});
