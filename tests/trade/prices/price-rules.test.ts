import { describe, expect, test } from "vitest";
import { breakEvenUnits } from "../../../src/trade/prices/break-even";
import { chargeableMass } from "../../../src/trade/prices/chargeable-mass";
import { duty } from "../../../src/trade/prices/duty";
import { equivalentUnits } from "../../../src/trade/prices/equivalent-units";
import { fee } from "../../../src/trade/prices/fee";
import { premium } from "../../../src/trade/prices/insurance";
import { jointCostShares } from "../../../src/trade/prices/joint-cost";
import { marginOf, markupOf, priceForMargin } from "../../../src/trade/prices/margins";
import { refusalOf } from "../../support/refusals";

/** Each figure follows from the words of its rule by mental arithmetic. */
describe("rules of price", () => {
  test("duty: on the value, on the quantity, both, the higher or the lower", () => {
    // 5% of 1,000 is 50; 100 kg at 0.70 are 70.
    const dutyBy = (rule: "sum" | "higher" | "lower") => duty(1000, 100, 0.05, 0.7, rule).toNumber();
    expect([dutyBy("sum"), dutyBy("higher"), dutyBy("lower")]).toEqual([120, 70, 50]);
    expect(duty(1000, 100, 0.05, undefined, "sum").toNumber()).toBe(50);
    for (const rule of ["higher", "lower"] as const) {
      expect(refusalOf(() => duty(1000, 100, 0.05, undefined, rule))).toBe(
        `#VALUE! specific is blank; rule "${rule}" compares two duties; give it`,
      );
    }
  });

  test("a fee has a floor and a cap, which may be the same", () => {
    const fees = [100, 5000, 100000].map((value) => fee(value, 0.01, 25, 500).toNumber());
    expect(fees).toEqual([25, 50, 500]);
    expect(fee(100000, 0.01, 25, undefined).toNumber()).toBe(1000);
    expect(fee(5000, 0.01, 30, 30).toNumber()).toBe(30);
    expect(refusalOf(() => fee(5000, 0.01, 30, 29))).toBe(
      "#VALUE! maximum is 29; must not be below minimum, which is 30",
    );
  });

  test("a circular premium needs a rate that leaves something", () => {
    // The insured value I = 1 × (900 + P) with P = 0.1·I: I = 1000, P = 100.
    expect(premium(900, 0.1, 0, true).toNumber()).toBe(100);
    expect(premium(900, 0.1, 0, false).toNumber()).toBe(90);
    for (const rate of [0.8, 0.9]) {
      expect(refusalOf(() => premium(900, rate, 0.25, true))).toBe(
        `#NUM! rate is ${rate}; with the uplift it must stay below 1 when circular`,
      );
    }
  });

  test("the chargeable mass is the greater of two, in whole steps where the carrier has them", () => {
    expect(chargeableMass(90, 0.5, 200, undefined).toNumber()).toBe(100);
    expect(chargeableMass(110.2, 0.5, 200, undefined).toNumber()).toBe(110.2);
    expect(chargeableMass(110.2, 0.5, 200, 0.5).toNumber()).toBe(110.5);
    expect(chargeableMass(110, 0.5, 200, 0.5).toNumber()).toBe(110);
  });

  test("what has no margin says so", () => {
    expect(refusalOf(() => priceForMargin(5, 1))).toBe("#DIV/0! margin is 1; must be below 1 (100%)");
    expect(refusalOf(() => marginOf(5, 0))).toBe("#DIV/0! price is 0; must be above 0");
    expect(refusalOf(() => markupOf(0, 5))).toBe("#DIV/0! cost is 0; must be above 0");
    expect(refusalOf(() => breakEvenUnits(100, 5, 5, 0))).toBe(
      "#DIV/0! variable is 5, the same as price; must be below price",
    );
    expect(refusalOf(() => breakEvenUnits(100, 5, 6, 0))).toBe(
      "#N/A variable is 6, above price 5; no quantity breaks even",
    );
  });
});

describe("rules of process and joint cost", () => {
  const period = {
    openingUnits: 40,
    openingDone: 0.5,
    closingUnits: 0,
    closingDone: 0,
    openingCost: 10,
    addedCost: 20,
  };

  test("by fifo the opening stock is completed first, and it may be all that is completed", () => {
    // 40 units half done: 20 equivalent units of work for 20 of cost.
    const all = equivalentUnits("fifo", { ...period, completedUnits: 40 });
    expect([all.units, all.costPerUnit, all.completedCost, all.closingCost].map(Number)).toEqual([20, 1, 30, 0]);
    expect(refusalOf(() => equivalentUnits("fifo", { ...period, completedUnits: 39 }))).toBe(
      "#VALUE! completed_units is 39; by fifo the opening 40 are completed first",
    );
  });

  test("no work at all cannot bear a cost", () => {
    expect(refusalOf(() => equivalentUnits("average", { ...period, completedUnits: 0 }))).toBe(
      "#DIV/0! the number of equivalent units is 0; there is nothing to bear the cost",
    );
  });

  test("products that are worth nothing cannot share by worth, and the measure is named", () => {
    const nothing = [{ quantity: 0, price: 0, separable: 0 }];
    for (const [method, measure] of [
      ["physical", "quantities"],
      ["sales value", "sales value"],
      ["net realisable", "net realisable value"],
      ["constant margin", "sales value"],
    ] as const) {
      expect(refusalOf(() => jointCostShares(100, nothing, method))).toBe(
        `#DIV/0! ${measure} is 0 in all; must not sum to 0`,
      );
    }
  });
});
