import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { orderChoices } from "../../../src/trade/prices/order-size";
import { decimals } from "../../support/money-arbitraries";

const BREAKS = [0, 50, 100, 250];
const RATES = [8, 6.5, 5, 4.75];
const need = decimals(0.5, 300, 1);

describe("order sizes", () => {
  test("without holding the cost per unit is the rate of the quantity ordered", () => {
    fc.assert(
      fc.property(need, (wanted) => {
        for (const { quantity, costs } of orderChoices(wanted, BREAKS, RATES, 0, 0)) {
          const tier = BREAKS.filter((from) => from <= quantity).length - 1;
          expect(costs?.perUnit.toNumber()).toBeCloseTo(RATES[tier] as number, 12);
          expect(costs?.cost.toNumber()).toBeCloseTo(quantity * (RATES[tier] as number), 9);
        }
      }),
    );
  });

  test("every order covers the need and reaches the minimum, or has no costs; quantities rise", () => {
    fc.assert(
      fc.property(need, decimals(0, 300, 0), (wanted, minimum) => {
        const choices = orderChoices(wanted, BREAKS, RATES, 0.1, minimum);
        expect(choices[0]?.quantity).toBe(wanted);
        choices.forEach(({ quantity, costs }, index) => {
          expect(costs !== undefined).toBe(quantity >= minimum);
          if (costs) expect(costs.surplus.toNumber()).toBeCloseTo(quantity - wanted, 9);
          if (index > 0) expect(quantity).toBeGreaterThan(choices[index - 1]?.quantity as number);
        });
        const most = Math.max(wanted, minimum);
        for (const from of BREAKS)
          expect(choices.some(({ quantity, costs }) => costs && quantity === from)).toBe(from >= most);
      }),
    );
  });

  test("a need that is just the least order taken is ordered as it is", () => {
    const [first, ...others] = orderChoices(60, BREAKS, RATES, 0, 60);
    expect([first?.order, first?.quantity, first?.costs?.cost.toNumber()]).toEqual(["need", 60, 60 * 6.5]);
    expect(others.map(({ quantity }) => quantity)).toEqual([100, 250]);
  });

  test("a surplus that is worth nothing leaves its whole cost with the need", () => {
    fc.assert(
      fc.property(need, (wanted) => {
        for (const { costs } of orderChoices(wanted, BREAKS, RATES, 1, 0)) {
          expect(costs?.perUnit.times(wanted).toNumber()).toBeCloseTo(costs?.cost.toNumber() as number, 9);
        }
      }),
    );
  });

  test("scaling the currency scales every cost", () => {
    fc.assert(
      fc.property(need, decimals(0, 2, 2), (wanted, holding) => {
        const plain = orderChoices(wanted, BREAKS, RATES, holding, 0);
        orderChoices(
          wanted,
          BREAKS,
          RATES.map((rate) => rate * 100),
          holding,
          0,
        ).forEach(({ costs }, index) => {
          for (const key of ["cost", "holding", "perUnit"] as const) {
            const before = plain[index]?.costs?.[key].toNumber() as number;
            expect(costs?.[key].toNumber()).toBeCloseTo(before * 100, 6);
          }
        });
      }),
    );
  });
});
