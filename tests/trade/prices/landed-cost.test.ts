import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apportion } from "../../../src/trade/largest-remainder";
import { decimal, quotient, sum, type Amount } from "../../../src/trade/money";
import { landedCost } from "../../../src/trade/prices/landed-cost";
import { Fraction, totalOf } from "../../support/fractions";
import { exactShares, ruledLanded, ruledShares } from "../../support/shipments";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

const written = (amount: Amount): string => decimal(amount).toFixed();

/** Decimal knows a -0, a cell does not. */
const plain = (amount: Amount): number => Number(amount) + 0;

const weights = fc
  .array(fc.oneof(typed(0, 1000, 2), typed(-50, 50, 3), fc.double({ min: 1e-5, max: 1e6, noNaN: true })), {
    minLength: 1,
    maxLength: 25,
  })
  .filter((list) => totalOf(list.map(Fraction.from)).numerator !== 0n);
const amount = fc.oneof(typed(-5000, 5000, 2), typed(-10, 10, 6), typed(-1e9, 1e9, 4));
const places = fc.integer({ min: -2, max: 4 });

describe("apportionment", () => {
  test("foots for any amount, weights and sign, and no part is a unit or more off its exact share", () => {
    fc.assert(
      fc.property(amount, weights, places, (total, list, decimals) => {
        const parts = apportion(total, list, decimals).map((part) => Fraction.from(Number(part)));
        const wanted = Fraction.from(total).rounded(decimals);
        expect(totalOf(parts).compare(wanted)).toBe(0);
        const unit = Fraction.from(Number(`1e${-decimals}`));
        exactShares(wanted, list).forEach((exact, index) => {
          expect(
            exact
              .minus(parts[index] as Fraction)
              .abs()
              .compare(unit),
          ).toBe(-1);
        });
      }),
      { numRuns: 1000 },
    );
  });

  test("gives the left-over units to the largest remainders, the first of equals first", () => {
    const list = fc
      .array(typed(0, 100, 1), { minLength: 1, maxLength: 12 })
      .filter((all) => all.some((one) => one > 0));
    fc.assert(
      fc.property(typed(-5000, 5000, 2), list, places, (total, all, decimals) => {
        expect(apportion(total, all, decimals).map(plain)).toEqual(
          ruledShares(total, all, decimals).map((share) => share.toNumber()),
        );
      }),
      { numRuns: 2000 },
    );
  });

  test("foots with weights of every size a cell can hold", () => {
    const anySize = fc.array(fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }), {
      minLength: 1,
      maxLength: 9,
    });
    fc.assert(
      fc.property(typed(-5000, 5000, 2), anySize, (total, list) => {
        fc.pre(list.some((weight) => weight > 0));
        expect(sum(apportion(total, list)).toNumber() + 0).toBe(total + 0);
      }),
      { numRuns: 1000 },
    );
  });

  test("a negative amount is the mirror of the positive one", () => {
    fc.assert(
      fc.property(typed(0.01, 5000, 2), weights, (total, list) => {
        const mirrored = apportion(-total, list).map((part) => decimal(part).negated().toFixed());
        expect(mirrored).toEqual(apportion(total, list).map((part) => decimal(part).toFixed()));
      }),
    );
  });
});

const line = fc.record({
  value: typed(0.01, 20000, 2),
  mass: typed(0.01, 900, 3),
  volume: typed(0.001, 3, 3),
  quantity: fc.integer({ min: 1, max: 9000 }),
});
const charge = fc.record({
  amount: typed(-300, 3000, 3),
  basis: fc.constantFrom("value" as const, "mass" as const, "volume" as const, "quantity" as const, "equal" as const),
});
const shipment = fc.record({
  lines: fc.array(line, { minLength: 1, maxLength: 12 }),
  charges: fc.array(charge, { minLength: 1, maxLength: 6 }),
});

describe("landed cost", () => {
  test("agrees with exact fractions in every cell", () => {
    fc.assert(
      fc.property(shipment, fc.integer({ min: 0, max: 3 }), ({ lines, charges }, places) => {
        const ruled = ruledLanded(lines, charges, places);
        landedCost(lines, charges, places).forEach(({ amounts, total, quantity }, row) => {
          const wanted = (ruled[row] as Fraction[]).map((figure) => figure.toNumber());
          const perUnit = wanted.pop() as number;
          expect([...amounts, total, quantity as Amount].map(plain)).toEqual(wanted);
          const got = quotient(total, quantity as Amount);
          expect(Math.abs(got - perUnit)).toBeLessThanOrEqual(4e-16 * Math.abs(perUnit));
        });
      }),
      { numRuns: 500 },
    );
  });

  test("foots down every column and across every row", () => {
    fc.assert(
      fc.property(shipment, ({ lines, charges }) => {
        const rows = landedCost(lines, charges, 2);
        const [body, totals] = [rows.slice(0, -1), rows[rows.length - 1] as (typeof rows)[0]];
        totals.amounts.forEach((total, column) => {
          expect(written(sum(body.map(({ amounts }) => amounts[column] as Amount)))).toBe(written(total));
        });
        expect(written(sum(body.map(({ total }) => total)))).toBe(written(totals.total));
        for (const { amounts, total } of rows) expect(written(sum(amounts))).toBe(written(total));
      }),
      { numRuns: 2000 },
    );
  });

  test("in a currency of a hundredth the size every figure is a hundredfold", () => {
    fc.assert(
      fc.property(shipment, ({ lines, charges }) => {
        const hundredfold = (money: number): number => Number(Fraction.from(money).times(Fraction.of(100n)).toNumber());
        const once = landedCost(lines, charges, 2);
        const scaled = landedCost(
          lines.map((own) => ({ ...own, value: hundredfold(own.value) })),
          charges.map((own) => ({ ...own, amount: hundredfold(own.amount) })),
          0,
        );
        once.forEach(({ amounts, total }, row) => {
          const got = scaled[row] as (typeof scaled)[0];
          expect([...got.amounts, got.total].map(written)).toEqual(
            [...amounts, total].map((part) => decimal(part).times(100).toFixed()),
          );
        });
      }),
    );
  });
});
