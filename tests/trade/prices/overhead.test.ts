import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { overheadVariances, type OverheadPeriod } from "../../../src/trade/prices/overhead";
import { Fraction } from "../../support/fractions";
import { decimals } from "../../support/money-arbitraries";

const period: fc.Arbitrary<OverheadPeriod> = fc.record({
  budgetCost: decimals(0.01, 900000, 2),
  budgetHours: decimals(0.25, 90000, 2),
  actualCost: decimals(0, 900000, 2),
  actualHours: decimals(0, 90000, 2),
  standardHours: decimals(0, 90000, 2),
});

describe("fixed overheads", () => {
  test("each variance is its definition, in exact fractions", () => {
    fc.assert(
      fc.property(period, (given) => {
        const found = overheadVariances(given);
        const exact = (value: number) => Fraction.from(value);
        const rate = exact(given.budgetCost).over(exact(given.budgetHours));
        const hours = (from: number, less: number) => exact(from).minus(exact(less)).times(rate);
        const wanted = {
          expenditure: exact(given.budgetCost).minus(exact(given.actualCost)),
          efficiency: hours(given.standardHours, given.actualHours),
          capacity: hours(given.actualHours, given.budgetHours),
          volume: hours(given.standardHours, given.budgetHours),
          total: exact(given.standardHours).times(rate).minus(exact(given.actualCost)),
        };
        for (const kind of Object.keys(wanted) as (keyof typeof wanted)[]) {
          expect(Math.abs(found[kind].toNumber() - wanted[kind].toNumber())).toBeLessThanOrEqual(
            1e-12 * Math.max(1, Math.abs(wanted[kind].toNumber())),
          );
        }
      }),
    );
  });

  test("they foot exactly", () => {
    fc.assert(
      fc.property(period, (given) => {
        const { expenditure, efficiency, capacity, volume, total } = overheadVariances(given);
        expect(efficiency.plus(capacity).eq(volume)).toBe(true);
        expect(expenditure.plus(volume).eq(total)).toBe(true);
      }),
    );
  });

  test("a period that went as planned has none", () => {
    const plain = { budgetCost: 7000, budgetHours: 300, actualCost: 7000, actualHours: 300, standardHours: 300 };
    expect(Object.values(overheadVariances(plain)).map(Number)).toEqual([0, 0, 0, 0, 0]);
  });

  test("no budget hours, no rate", () => {
    const idle = { budgetCost: 7000, budgetHours: 0, actualCost: 7000, actualHours: 300, standardHours: 300 };
    expect(() => overheadVariances(idle)).toThrow("budget_hours is 0; must be above 0");
  });
});
