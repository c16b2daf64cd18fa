import fc from "fast-check";
import { expect, test } from "vitest";
import { swing, widestFirst } from "../../../src/trade/prices/swing";
import { decimals } from "../../support/money-arbitraries";

test("widest first, equals in the order given, and what has no swing last", () => {
  fc.assert(
    fc.property(fc.array(fc.option(fc.integer({ min: 0, max: 5 }), { nil: undefined })), (widths) => {
      const places = widestFirst(
        widths.map((_, place) => place),
        (place) => widths[place],
      );
      expect([...places].sort((a, b) => a - b)).toEqual(widths.map((_, place) => place));
      for (let index = 1; index < places.length; index++) {
        const [before, after] = [places[index - 1] as number, places[index] as number];
        const [wide, narrow] = [widths[before] ?? -1, widths[after] ?? -1];
        expect(wide > narrow || (wide === narrow && before < after)).toBe(true);
      }
    }),
  );
});

test("a swing has no sign, no order of low and high, and scales with the currency", () => {
  const money = decimals(-1e6, 1e6, 2);
  fc.assert(
    fc.property(money, money, (low, high) => {
      expect(swing(low, high)).toBe(swing(high, low));
      // In whole cents the difference is exact.
      expect(swing(low, high)).toBe(Math.abs(Math.round(high * 100) - Math.round(low * 100)) / 100);
      expect(swing(low * 8, high * 8) / 8).toBeCloseTo(swing(low, high), 6);
    }),
  );
});
