import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { marginOf, markupOf, priceForMargin, priceForMarkup } from "../../../src/trade/prices/margins";
import type { Refusal } from "../../../src/trade/refusal";
import { decimals } from "../../support/money-arbitraries";
import { refusalOf } from "../../support/refusals";

const cost = decimals(0.01, 1e5, 2);

test("a price for a margin has that margin, and costs nothing more than the cost over the rest", () => {
  fc.assert(
    fc.property(cost, decimals(-2, 0.99, 3), (spent, share) => {
      const price = priceForMargin(spent, share);
      expect(marginOf(spent, price)).toBeCloseTo(share, 12);
      expect(price * (1 - share)).toBeCloseTo(spent, 8);
    }),
  );
});

test("a price for a mark-up has that mark-up", () => {
  fc.assert(
    fc.property(cost, decimals(-0.99, 5, 3), (spent, share) => {
      expect(markupOf(spent, priceForMarkup(spent, share))).toBeCloseTo(share, 12);
    }),
  );
});

// margin = markup / (1 + markup), from the definitions.
test("margin and mark-up are two sides of one price", () => {
  fc.assert(
    fc.property(cost, cost, (spent, price) => {
      const up = markupOf(spent, price);
      expect(Math.abs(marginOf(spent, price) - up / (1 + up))).toBeLessThan(1e-9 * (1 + 1 / (1 + up)));
    }),
  );
});

test("scaling the currency scales prices and leaves margins alone", () => {
  fc.assert(
    fc.property(cost, decimals(0, 0.9, 2), fc.constantFrom(0.01, 7, 1000), (spent, share, scale) => {
      const [bigger, smaller] = [priceForMargin(spent * scale, share), priceForMargin(spent, share)];
      expect(Math.abs(bigger / (smaller * scale) - 1)).toBeLessThan(1e-12);
      expect(marginOf(spent * scale, bigger)).toBeCloseTo(share, 12);
      expect(priceForMarkup(spent * scale, share) / (priceForMarkup(spent, share) * scale)).toBeCloseTo(1, 12);
    }),
  );
});

test("a margin on a price of 0, a mark-up on a cost of 0 and a margin of 1 are divisions by zero", () => {
  for (const call of [() => marginOf(5, 0), () => markupOf(0, 5), () => priceForMargin(5, 1)]) {
    expect(call).toThrow(expect.objectContaining({ kind: "division" }) as Refusal);
  }
});

describe("rules of price", () => {
  test("what has no margin says so", () => {
    expect(refusalOf(() => priceForMargin(5, 1))).toBe("#DIV/0! margin is 1; must be below 1 (100%)");
    expect(refusalOf(() => marginOf(5, 0))).toBe("#DIV/0! price is 0; must be above 0");
    expect(refusalOf(() => markupOf(0, 5))).toBe("#DIV/0! cost is 0; must be above 0");
  });
});
