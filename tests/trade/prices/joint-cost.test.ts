import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decimal, sum } from "../../../src/trade/money";
import { jointCostShares, type JointMethod, type JointProduct } from "../../../src/trade/prices/joint-cost";
import type { Refusal } from "../../../src/trade/refusal";
import { Fraction, totalOf } from "../../support/fractions";
import { decimals } from "../../support/money-arbitraries";
import { refusalOf } from "../../support/refusals";

/** Separable costs below the sales value, so that every method applies. */
const product: fc.Arbitrary<JointProduct> = fc
  .record({ quantity: decimals(0.1, 9000, 1), price: decimals(0.01, 90, 2), part: fc.integer({ min: 0, max: 99 }) })
  .map(({ quantity, price, part }) => ({
    quantity,
    price,
    separable: Math.floor(Math.floor(quantity * price * 100 - 1e-6) * (part / 100)) / 100,
  }));
const products = fc.array(product, { minLength: 1, maxLength: 9 });
const cost = decimals(0.01, 1e6, 2);
const METHODS: readonly JointMethod[] = ["physical", "sales value", "net realisable", "constant margin"];
const methods = fc.constantFrom(...METHODS);

/** The share of each product before it is rounded to the cent, in exact fractions. */
function exactShares(total: number, items: readonly JointProduct[], method: JointMethod): Fraction[] {
  const joint = Fraction.from(total);
  const read = items.map(({ quantity, price, separable }) => ({
    quantity: Fraction.from(quantity),
    sales: Fraction.from(quantity).times(Fraction.from(price)),
    separable: Fraction.from(separable),
  }));
  if (method === "constant margin") {
    const sales = totalOf(read.map((each) => each.sales));
    const profit = sales.minus(joint).minus(totalOf(read.map((each) => each.separable)));
    const margin = profit.over(sales);
    return read.map((each) => each.sales.minus(each.sales.times(margin)).minus(each.separable));
  }
  const weights = read.map((each) => {
    if (method === "physical") return each.quantity;
    return method === "sales value" ? each.sales : each.sales.minus(each.separable);
  });
  return weights.map((weight) => joint.times(weight).over(totalOf(weights)));
}

describe("joint cost", () => {
  test("the shares are whole cents and sum to the cost exactly, by every method", () => {
    fc.assert(
      fc.property(cost, products, methods, (total, items, method) => {
        const shares = jointCostShares(total, items, method);
        expect(sum(shares).eq(total)).toBe(true);
        for (const share of shares) expect(decimal(share).eq(decimal(share).toDecimalPlaces(2))).toBe(true);
      }),
    );
  });

  test("no share is a cent or more from the exact one", () => {
    fc.assert(
      fc.property(cost, products, methods, (total, items, method) => {
        const exact = exactShares(total, items, method);
        jointCostShares(total, items, method).forEach((share, index) => {
          const gap = Fraction.from(Number(share)).minus(exact[index] as Fraction);
          expect(Math.abs(gap.toNumber())).toBeLessThan(0.01);
        });
      }),
    );
  });

  test("without separable costs the three methods by value agree, but for a cent between equal remainders", () => {
    fc.assert(
      fc.property(cost, products, (total, items) => {
        const plain = items.map((item) => ({ ...item, separable: 0 }));
        const [sales, net, margin] = (["sales value", "net realisable", "constant margin"] as const).map((method) =>
          jointCostShares(total, plain, method).map(Number),
        );
        expect(net).toEqual(sales);
        margin?.forEach((share, index) => expect(Math.abs(share - (sales?.[index] as number))).toBeLessThan(0.011));
      }),
    );
  });

  test("scaling the currency scales every share to within the rounding", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), products, methods, (total, items, method) => {
        const scaled = items.map(({ quantity, price, separable }) => ({
          quantity,
          price: Number((price * 100).toFixed(0)),
          separable: Number((separable * 100).toFixed(0)),
        }));
        const plain = jointCostShares(total, items, method);
        jointCostShares(total * 100, scaled, method).forEach((share, index) => {
          expect(Math.abs(Number(share) - Number(plain[index]) * 100)).toBeLessThan(1.02);
        });
      }),
    );
  });

  test("equal products share odd cents from the first on", () => {
    const thirds = [1, 1, 1].map((quantity) => ({ quantity, price: 3, separable: 0 }));
    for (const method of METHODS) {
      expect(jointCostShares(100, thirds, method).map(Number)).toEqual([33.34, 33.33, 33.33]);
    }
  });

  test("a product worth less than its separable cost is refused by name; weights of nothing divide by zero", () => {
    const poor = [
      { quantity: 1, price: 9, separable: 0 },
      { quantity: 1, price: 3, separable: 5 },
    ];
    expect(() => jointCostShares(10, poor, "net realisable")).toThrow(
      expect.objectContaining({ message: "separable[1] is 5; must not exceed its sales value of 3" }) as Refusal,
    );
    // Sales 12, costs 10 + 5, so each bears 15/12 of its sales: 11.25 and 3.75 - 5.
    expect(jointCostShares(10, poor, "constant margin").map(Number)).toEqual([11.25, -1.25]);
    for (const method of METHODS) {
      expect(() => jointCostShares(10, [{ quantity: 0, price: 0, separable: 0 }], method)).toThrow(
        expect.objectContaining({ kind: "division" }) as Refusal,
      );
    }
  });
});

describe("rules of process and joint cost", () => {
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
