import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Decimal } from "../../../src/trade/money";
import { equivalentUnits, type ProcessMethod, type ProcessPeriod } from "../../../src/trade/prices/equivalent-units";
import type { Refusal } from "../../../src/trade/refusal";
import { decimals } from "../../support/money-arbitraries";
import { refusalOf } from "../../support/refusals";

const done = decimals(0, 1, 2);
const periods: fc.Arbitrary<ProcessPeriod> = fc
  .record({
    openingUnits: fc.integer({ min: 0, max: 900 }),
    openingDone: done,
    started: fc.integer({ min: 1, max: 5000 }),
    closingUnits: fc.integer({ min: 0, max: 900 }),
    closingDone: done,
    openingCost: decimals(0, 1e5, 2),
    addedCost: decimals(0, 1e6, 2),
  })
  .map(({ started, ...period }) => ({ ...period, completedUnits: period.openingUnits + started }));
const methods = fc.constantFrom<ProcessMethod>("average", "fifo");

describe("equivalent units", () => {
  test("cost of completed and of closing sum to opening and added, to the last digit", () => {
    fc.assert(
      fc.property(periods, methods, (period, method) => {
        const { completedCost, closingCost } = equivalentUnits(method, period);
        expect(completedCost.plus(closingCost).eq(new Decimal(period.openingCost).plus(period.addedCost))).toBe(true);
      }),
    );
  });

  test("units reconcile: what the period made is what left, plus what is there, less what was there", () => {
    fc.assert(
      fc.property(periods, ({ ...period }) => {
        const [average, fifo] = [equivalentUnits("average", period), equivalentUnits("fifo", period)];
        const opening = new Decimal(period.openingUnits).times(period.openingDone);
        expect(average.units.eq(fifo.units.plus(opening))).toBe(true);
      }),
    );
  });

  test("completed and closing are their equivalent units at the cost per unit; by fifo the opening keeps its cost", () => {
    fc.assert(
      fc.property(periods, methods, (period, method) => {
        const { costPerUnit, completedCost, closingCost } = equivalentUnits(method, period);
        const rate = costPerUnit.toNumber();
        const near = (got: Decimal, wanted: number): void =>
          expect(Math.abs(got.toNumber() - wanted)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
        near(closingCost, period.closingUnits * period.closingDone * rate);
        const { openingCost, openingUnits, openingDone, completedUnits } = period;
        const finished = method === "average" ? 0 : openingCost + openingUnits * (1 - openingDone) * rate;
        const startedAndFinished = (method === "average" ? completedUnits : completedUnits - openingUnits) * rate;
        near(completedCost, finished + startedAndFinished);
      }),
    );
  });

  test("without opening stock both methods are one", () => {
    fc.assert(
      fc.property(periods, (period) => {
        const fresh = { ...period, openingUnits: 0, openingCost: 0 };
        const [average, fifo] = [equivalentUnits("average", fresh), equivalentUnits("fifo", fresh)];
        for (const key of ["units", "costPerUnit", "completedCost", "closingCost"] as const) {
          expect(average[key].eq(fifo[key])).toBe(true);
        }
      }),
    );
  });

  test("scaling the currency scales every cost and no unit", () => {
    fc.assert(
      fc.property(periods, methods, (period, method) => {
        const scaled = equivalentUnits(method, {
          ...period,
          openingCost: new Decimal(period.openingCost).times(100).toNumber(),
          addedCost: new Decimal(period.addedCost).times(100).toNumber(),
        });
        const plain = equivalentUnits(method, period);
        expect(scaled.units.eq(plain.units)).toBe(true);
        for (const key of ["costPerUnit", "completedCost", "closingCost"] as const) {
          expect(scaled[key].minus(plain[key].times(100)).abs().toNumber()).toBeLessThan(1e-18);
        }
      }),
    );
  });

  test("no units at all are a division by zero; fewer completed than were open are refused by fifo only", () => {
    const nothing = { openingUnits: 0, openingDone: 0, completedUnits: 0, closingUnits: 0, closingDone: 0 };
    const period = { ...nothing, openingCost: 1, addedCost: 1 };
    expect(() => equivalentUnits("average", period)).toThrow(expect.objectContaining({ kind: "division" }) as Refusal);
    const few = { ...period, openingUnits: 100, completedUnits: 60, closingUnits: 40 };
    expect(() => equivalentUnits("fifo", few)).toThrow(expect.objectContaining({ kind: "argument" }) as Refusal);
    expect(equivalentUnits("average", few).units.toNumber()).toBe(60);
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
});
