import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { charge } from "../../../src/trade/prices/charge";
import { chargeableMass } from "../../../src/trade/prices/chargeable-mass";
import { duty } from "../../../src/trade/prices/duty";
import { dyeLots } from "../../../src/trade/route/dye-lots";
import { fee } from "../../../src/trade/prices/fee";
import { premium } from "../../../src/trade/prices/insurance";
import { roundCash } from "../../../src/trade/rounding";
import { checkBreaks, PriceList, type TierMode } from "../../../src/trade/prices/tiers";
import { Fraction } from "../../support/fractions";
import { refusalOf } from "../../support/refusals";

const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

/** A price list: breaks from 0 upwards, rates that fall. */
const priceList = fc
  .record({
    steps: fc.array(typed(1, 200, 1), { minLength: 0, maxLength: 6 }),
    cuts: fc.array(typed(0, 2, 2), { minLength: 6, maxLength: 6 }),
    first: typed(12, 20, 2),
  })
  .map(({ steps, cuts, first }) => {
    const breaks = [0];
    const rates = [first];
    steps.forEach((step, index) => {
      breaks.push(Number(((breaks[index] as number) + step).toFixed(1)));
      rates.push(Number(((rates[index] as number) - (cuts[index] as number)).toFixed(2)));
    });
    return { breaks, rates };
  });
const quantities = fc
  .tuple(typed(0, 1500, 1), typed(0, 1500, 1))
  .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);
const cost = (quantity: number, list: { breaks: number[]; rates: number[] }, mode: TierMode): number =>
  new PriceList(list.breaks, list.rates).cost(quantity, mode).toNumber();

describe("tiers", () => {
  test('"incremental" and "next break" never charge less for more', () => {
    fc.assert(
      fc.property(
        priceList,
        quantities,
        fc.constantFrom("incremental" as const, "next break" as const),
        (list, [less, more], mode) => {
          checkBreaks(list.breaks, list.rates);
          expect(cost(less, list, mode)).toBeLessThanOrEqual(cost(more, list, mode));
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('"all units" rises within a tier and dips at a break where the rate falls', () => {
    fc.assert(
      fc.property(priceList, ({ breaks, rates }) => {
        breaks.slice(1).forEach((start, index) => {
          const [before, after] = [rates[index], rates[index + 1]] as [number, number];
          const justBelow = start - 1e-6;
          const dips = new PriceList(breaks, rates)
            .cost(start, "all units")
            .lt(new PriceList(breaks, rates).cost(justBelow, "all units"));
          expect(dips).toBe(before > after);
          const middle = ((breaks[index] as number) + start) / 2;
          expect(cost(middle, { breaks, rates }, "all units")).toBeLessThanOrEqual(
            cost(justBelow, { breaks, rates }, "all units"),
          );
        });
      }),
    );
  });

  test('"next break" is the least that any quantity at or above costs by "all units"', () => {
    fc.assert(
      fc.property(priceList, typed(0, 1500, 1), (list, quantity) => {
        const candidates = [quantity, ...list.breaks.filter((start) => start > quantity)];
        const least = Math.min(...candidates.map((amount) => cost(amount, list, "all units")));
        expect(cost(quantity, list, "next break")).toBe(least);
      }),
    );
  });

  test("in another currency the cost scales", () => {
    fc.assert(
      fc.property(
        priceList,
        typed(0, 1500, 1),
        fc.constantFrom<TierMode>("all units", "incremental", "next break"),
        (list, quantity, mode) => {
          const once = new PriceList(list.breaks, list.rates).cost(quantity, mode);
          const hundredfold = list.rates.map((rate) => Math.round(rate * 100));
          expect(new PriceList(list.breaks, hundredfold).cost(quantity, mode).toFixed()).toBe(
            once.times(100).toFixed(),
          );
        },
      ),
    );
  });

  test.each([
    [[1, 5], [3, 2], "breaks[0] is 1; the first break must be 0"],
    [[0, 50, 50], [3, 2, 1], "breaks[2] is 50; must be above breaks[1], which is 50"],
    [[0, 50, 20], [3, 2, 1], "breaks[2] is 20; must be above breaks[1], which is 50"],
    [[0, 50], [3], "rates[1] is missing; give one rate for each of the 2 breaks"],
    [[0], [3, 2], "breaks[1] is missing; give one break for each of the 2 rates"],
  ])("breaks %j with rates %j: %s", (breaks, rates, message) => {
    expect(() => checkBreaks(breaks, rates)).toThrow(message);
  });
});

describe("rounding", () => {
  // The sheet's own ROUND rounds the decimal a person sees; half even as in IEEE 754.
  test.each([
    [1.005, 2, 1.01, 1],
    [2.675, 2, 2.68, 2.68],
    [-2.5, 0, -3, -2],
    [2.5, 0, 3, 2],
    [0.125, 2, 0.13, 0.12],
    [1250, -2, 1300, 1200],
    [-0.005, 2, -0.01, 0],
  ])("%d to %d decimals is %d, half even %d", (value, decimals, away, even) => {
    expect(roundCash(value, decimals, "half away").toNumber()).toBe(away);
    expect(Math.abs(roundCash(value, decimals, "half even").toNumber())).toBe(Math.abs(even));
  });

  test("half away agrees with exact fractions of the fifteen digits in the cell", () => {
    fc.assert(
      fc.property(
        fc.oneof(typed(-100, 100, 3), fc.double({ min: -1e9, max: 1e9, noNaN: true })),
        fc.integer({ min: -3, max: 6 }),
        (value, decimals) => {
          const wanted = Fraction.from(Number(value.toPrecision(15)))
            .rounded(decimals)
            .toNumber();
          expect(roundCash(value, decimals, "half away").toNumber() + 0).toBe(wanted + 0);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("down, the two halves and up never pass one another", () => {
    fc.assert(
      fc.property(typed(-100, 100, 4), fc.integer({ min: 0, max: 3 }), (value, decimals) => {
        const [down, even, away, up] = (["down", "half even", "half away", "up"] as const).map((mode) =>
          roundCash(value, decimals, mode).abs().toNumber(),
        ) as [number, number, number, number];
        expect(down).toBeLessThanOrEqual(even);
        expect(even).toBeLessThanOrEqual(away);
        expect(away).toBeLessThanOrEqual(up);
        expect(Number(((up - down) * 10 ** decimals).toFixed(6)) <= 1).toBe(true);
      }),
    );
  });
});

describe("charges", () => {
  const terms = { minimum: 0, lotSize: undefined, lotFee: 0, below: undefined, surcharge: 0 };

  test("each part acts on all that comes before it", () => {
    // 250 kg at 2.00 is 500, the minimum 600, three lots of 100 kg at 30 make 690, and 10 % on it 759.
    expect(charge(250, 2, { minimum: 600, lotSize: 100, lotFee: 30, below: 300, surcharge: 0.1 }).toNumber()).toBe(759);
  });

  test("the surcharge is for every quantity where it has no bound", () => {
    for (const quantity of [0.5, 100, 1e6]) {
      expect(charge(quantity, 2, { ...terms, surcharge: 0.25 }).toNumber()).toBe(quantity * 2.5);
    }
  });

  test("the surcharge is for less than its bound", () => {
    const small = { ...terms, below: 300, surcharge: 0.1 };
    expect([299.99, 300].map((kg) => charge(kg, 1, small).toNumber())).toEqual([329.989, 300]);
  });

  test("a quantity that fills its lots to the last digit of a double begins no other", () => {
    const lots = { ...terms, lotSize: 1.1, lotFee: 1 };
    expect(charge(3 * 1.1, 0, lots).toNumber()).toBe(3);
    expect(charge(3.31, 0, lots).toNumber()).toBe(4);
  });

  test("a fee stays between its floor and its cap", () => {
    fc.assert(
      fc.property(typed(0, 1e6, 2), typed(0, 0.01, 6), (value, rate) => {
        const charged = fee(value, rate, 33.58, 651.5).toNumber();
        expect(charged).toBeGreaterThanOrEqual(33.58);
        expect(charged).toBeLessThanOrEqual(651.5);
        if (charged > 33.58 && charged < 651.5) {
          expect(charged).toBe(Fraction.from(value).times(Fraction.from(rate)).toNumber());
        }
      }),
    );
  });

  test("the sum of two duties is the higher and the lower together", () => {
    fc.assert(
      fc.property(typed(0, 9999, 2), typed(0, 999, 1), typed(0, 0.5, 3), typed(0, 9, 2), (value, kg, share, perKg) => {
        const [all, higher, lower] = (["sum", "higher", "lower"] as const).map((rule) =>
          duty(value, kg, share, perKg, rule),
        );
        expect(higher?.plus(lower as never).toFixed()).toBe(all?.toFixed());
      }),
    );
  });

  test("the circular premium is its rate of the value that holds it", () => {
    fc.assert(
      fc.property(typed(1, 99999, 2), typed(0.0001, 0.05, 4), typed(0, 0.5, 2), (amount, rate, uplift) => {
        const circular = premium(amount, rate, uplift, true);
        const onIts = premium(circular.plus(amount).toNumber(), rate, uplift, false).toNumber();
        expect(Math.abs(circular.toNumber() - onIts)).toBeLessThanOrEqual(1e-12 * onIts);
        expect(circular.gt(premium(amount, rate, uplift, false))).toBe(true);
      }),
    );
  });

  test("the chargeable mass is never below the gross mass, and the step is the least that holds it", () => {
    fc.assert(
      fc.property(typed(0, 900, 2), typed(0, 6, 3), fc.constantFrom(0.1, 0.5, 1), (gross, volume, step) => {
        const exact = chargeableMass(gross, volume, 167, undefined).toNumber();
        const stepped = chargeableMass(gross, volume, 167, step).toNumber();
        expect(exact).toBeGreaterThanOrEqual(gross);
        expect(stepped).toBeGreaterThanOrEqual(exact - 1e-9);
        expect(stepped).toBeLessThan(exact + step);
      }),
    );
  });
});

describe("dye lots", () => {
  test("a minimum may be all the vessel takes, and every lot is then a full one", () => {
    const { lots, lotMass, lotSurplus } = dyeLots(150, 100, 100);
    expect([lots, lotMass.toNumber(), lotSurplus.toNumber()]).toEqual([2, 100, 25]);
  });

  test("ten thousand lots are still counted", () => {
    expect(dyeLots(10_000, 1, 0).lots).toBe(10_000);
    expect(refusalOf(() => dyeLots(10_001, 1, 0))).toBe(
      "#VALUE! mass is 10001 lots; must need at most 10000; check the units",
    );
  });

  test("are the fewest that fit, and hold the mass", () => {
    fc.assert(
      fc.property(typed(0.1, 900, 1), typed(5, 120, 1), typed(0, 1, 2), (mass, capacity, part) => {
        const minimum = capacity * part;
        const { lots, lotMass, lotSurplus } = dyeLots(mass, capacity, minimum);
        expect(lotMass.toNumber()).toBeLessThanOrEqual(capacity * (1 + 1e-11));
        expect(lotMass.toNumber()).toBeGreaterThanOrEqual(minimum);
        expect((lots - 1) * capacity).toBeLessThan(mass);
        expect(Math.abs(lotMass.minus(lotSurplus).times(lots).toNumber() - mass)).toBeLessThanOrEqual(1e-12 * mass);
        if (lotSurplus.gt(0)) expect(lotMass.toNumber()).toBe(minimum);
      }),
    );
  });
});
