import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  materialVariances,
  totalOf,
  type Material,
  type MixMethod,
  type Variances,
} from "../../../src/trade/prices/variances";
import { Decimal } from "../../../src/trade/money";
import { Fraction, totalOf as sumOf } from "../../support/fractions";
import { decimals } from "../../support/money-arbitraries";

const material: fc.Arbitrary<Material> = fc.record({
  standardQuantity: decimals(0.001, 50000, 3),
  actualQuantity: decimals(0, 50000, 3),
  standardPrice: decimals(0, 900, 4),
  actualPrice: decimals(0, 900, 4),
});
const mixes = fc.array(material, { minLength: 1, maxLength: 8 });
const methods = fc.constantFrom<MixMethod>("individual", "average");
const KEYS = ["price", "mix", "yield", "usage", "total"] as const;

/** The definitions in exact fractions: catalogue words only, no step shared with the library. */
function byDefinition(materials: readonly Material[], method: MixMethod): Record<keyof Variances, Fraction>[] {
  const read = materials.map((each) => ({
    sq: Fraction.from(each.standardQuantity),
    aq: Fraction.from(each.actualQuantity),
    sp: Fraction.from(each.standardPrice),
    ap: Fraction.from(each.actualPrice),
  }));
  const sq = sumOf(read.map((each) => each.sq));
  const aq = sumOf(read.map((each) => each.aq));
  const average = sumOf(read.map((each) => each.sq.times(each.sp))).over(sq);
  return read.map((each) => {
    const atStandardMix = aq.times(each.sq).over(sq);
    const worth = method === "individual" ? each.sp : each.sp.minus(average);
    const mix = atStandardMix.minus(each.aq).times(worth);
    const usage = each.sq.minus(each.aq).times(each.sp);
    // Individual: what is left of the usage is the change of the total input at the standard mix and price.
    const rest = each.sq.minus(atStandardMix).times(each.sp);
    return {
      price: each.sp.minus(each.ap).times(each.aq),
      mix,
      yield: method === "individual" ? rest : rest.plus(atStandardMix.minus(each.aq).times(average)),
      usage,
      total: each.sq.times(each.sp).minus(each.aq.times(each.ap)),
    };
  });
}

/** Exactly equal but for the 24 decimals that a repeating quotient is cut to. */
function expectSame(got: Decimal, wanted: Fraction, rows: number): void {
  const difference = new Decimal(wanted.numerator.toString())
    .div(new Decimal(wanted.denominator.toString()))
    .minus(got)
    .abs();
  expect(difference.toNumber(), `${got.toString()} against ${wanted.toNumber()}`).toBeLessThan(1e-22 * rows);
}

describe("material variances", () => {
  test("price + mix + yield = total and mix + yield = usage, to the last digit, in every row and in all", () => {
    fc.assert(
      fc.property(mixes, methods, (materials, method) => {
        const each = materialVariances(materials, method);
        for (const row of each.concat(totalOf(each))) {
          expect(row.price.plus(row.mix).plus(row.yield).eq(row.total)).toBe(true);
          expect(row.mix.plus(row.yield).eq(row.usage)).toBe(true);
          expect(row.price.plus(row.usage).eq(row.total)).toBe(true);
        }
      }),
    );
  });

  test("every figure is what exact fractions give from the definitions, rows and totals", () => {
    fc.assert(
      fc.property(mixes, methods, (materials, method) => {
        const each = materialVariances(materials, method);
        const wanted = byDefinition(materials, method);
        const total = totalOf(each);
        for (const key of KEYS) {
          each.forEach((row, index) => expectSame(row[key], (wanted[index] as (typeof wanted)[0])[key], 1));
          expectSame(total[key], sumOf(wanted.map((row) => row[key])), each.length);
        }
      }),
    );
  });

  test("both methods agree in total, and on price, usage and total in every row", () => {
    fc.assert(
      fc.property(mixes, (materials) => {
        const [individual, average] = [
          materialVariances(materials, "individual"),
          materialVariances(materials, "average"),
        ];
        for (const key of ["price", "usage", "total"] as const) {
          average.forEach((row, index) => expect(row[key].eq((individual[index] as Variances)[key])).toBe(true));
        }
        const [one, other] = [totalOf(individual), totalOf(average)];
        expect(one.mix.minus(other.mix).abs().toNumber()).toBeLessThan(1e-20);
        expect(one.yield.minus(other.yield).abs().toNumber()).toBeLessThan(1e-20);
      }),
    );
  });

  test("no mix variance when the standard mix is kept, whatever the quantity", () => {
    fc.assert(
      fc.property(mixes, methods, fc.integer({ min: 1, max: 9 }), (materials, method, times) => {
        const kept = materials.map((each) => ({
          ...each,
          actualQuantity: (Math.round(each.standardQuantity * 1000) * times) / 1000,
        }));
        for (const { mix } of materialVariances(kept, method)) expect(mix.abs().toNumber()).toBeLessThan(1e-20);
      }),
    );
  });

  test("scaling the currency scales every variance", () => {
    fc.assert(
      fc.property(mixes, methods, fc.constantFrom(10, 1000), (materials, method, scale) => {
        const scaled = materials.map((each) => ({
          ...each,
          standardPrice: new Decimal(each.standardPrice).times(scale).toNumber(),
          actualPrice: new Decimal(each.actualPrice).times(scale).toNumber(),
        }));
        const [plain, bigger] = [materialVariances(materials, method), materialVariances(scaled, method)];
        bigger.forEach((row, index) => {
          for (const key of KEYS) {
            const wanted = (plain[index] as Variances)[key].times(scale);
            expect(row[key].minus(wanted).abs().toNumber()).toBeLessThan(1e-18);
          }
        });
      }),
    );
  });
});
