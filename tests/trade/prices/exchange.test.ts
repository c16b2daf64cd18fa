import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayShown } from "../../../src/trade/calendar";
import { RateTable, type QuotedRate } from "../../../src/trade/prices/exchange";
import { refusalOf } from "../../support/refusals";

const quote = (date: number, from: string, to: string, rate: number): QuotedRate => ({ date, from, to, rate });

/** Rates of one pair on different days. */
const history = fc
  .uniqueArray(fc.integer({ min: 40000, max: 40400 }), { minLength: 1, maxLength: 40 })
  .chain((dates) =>
    fc
      .array(fc.integer({ min: 1, max: 99999 }), { minLength: dates.length, maxLength: dates.length })
      .map((rates) => dates.map((date, index) => quote(date, "EUR", "USD", (rates[index] as number) / 10000))),
  );

describe("exchange", () => {
  test("takes the latest rate on or before the date, whatever the order of the table", () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 39990, max: 40410 }), (quotes, date) => {
        const known = quotes.filter((own) => own.date <= date);
        const table = new RateTable(quotes);
        if (known.length === 0) {
          expect(() => table.exchange(1, "EUR", "USD", date)).toThrow(
            `date is ${dayShown(date)}, before the first rate`,
          );
        } else {
          const newest = known.reduce((best, own) => (own.date > best.date ? own : best));
          expect(table.exchange(1000, "EUR", "USD", date).toNumber()).toBe(Math.round(newest.rate * 10000) / 10);
        }
      }),
      { numRuns: 1000 },
    );
  });

  test("there and back gives the amount again", () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 1, max: 1000000 }), (quotes, cents) => {
        const table = new RateTable(quotes);
        const there = table.exchange(cents / 100, "EUR", "USD", 50000).toNumber();
        const back = table.exchange(there, "USD", "EUR", 50000).toNumber();
        expect(Math.abs(back - cents / 100)).toBeLessThanOrEqual((1e-14 * cents) / 100);
      }),
    );
  });

  test("crosses by one third currency, in either direction of either leg", () => {
    const pounds = [quote(1, "USD", "GBP", 0.8), quote(1, "GBP", "USD", 1.25)];
    const euros = [quote(1, "EUR", "USD", 1.1), quote(1, "USD", "EUR", 1 / 1.1)];
    for (const pound of pounds) {
      for (const euro of euros) {
        // 100 EUR are 110 USD, and those 88 GBP.
        expect(new RateTable([pound, euro]).exchange(100, "EUR", "GBP", 1).toNumber()).toBeCloseTo(88, 12);
      }
    }
  });

  test("does not cross twice", () => {
    const chain = [quote(1, "A", "B", 2), quote(1, "B", "C", 2), quote(1, "C", "D", 2)];
    expect(new RateTable(chain).exchange(1, "A", "C", 1).toNumber()).toBe(4);
    expect(() => new RateTable(chain).exchange(1, "A", "D", 1)).toThrow("without a way from A to D");
  });

  test("takes the newer of a direct and an inverse rate, and of one day the direct", () => {
    const table = new RateTable([
      quote(1, "EUR", "USD", 1.1),
      quote(5, "USD", "EUR", 0.8),
      quote(9, "EUR", "USD", 1.3),
      quote(9, "USD", "EUR", 0.75),
    ]);
    expect([1, 5, 9].map((day) => table.exchange(1, "EUR", "USD", day).toNumber())).toEqual([1.1, 1.25, 1.3]);
    expect(table.exchange(1, "USD", "EUR", 9).toNumber()).toBe(0.75);
  });

  test("of several crosses takes the one whose older leg is the newest", () => {
    const table = new RateTable([
      ...[quote(1, "A", "X", 2), quote(9, "X", "B", 10)],
      ...[quote(4, "A", "Y", 3), quote(5, "Y", "B", 10)],
    ]);
    expect(table.exchange(1, "A", "B", 9).toNumber()).toBe(30);
    const even = [quote(1, "A", "X", 2), quote(1, "X", "B", 10), quote(1, "A", "Y", 3), quote(1, "Y", "B", 10)];
    expect(new RateTable(even).exchange(1, "A", "B", 9).toNumber()).toBe(20);
  });

  test("one currency is itself, in any case of letters", () => {
    const table = new RateTable([quote(10, "EUR", "USD", 1.1)]);
    expect(table.exchange(5, "usd ", "USD", 1).toNumber()).toBe(5);
    expect(table.exchange(5, "eur", "Usd", 10).toNumber()).toBe(5.5);
  });

  test("says what it does not know", () => {
    const table = new RateTable([quote(10, "EUR", "USD", 1.1)]);
    expect(() => table.exchange(1, "EUR", "CHF", 20)).toThrow(
      'to is "CHF"; rates has no such currency; it has EUR, USD',
    );
    expect(() => table.exchange(1, "EUR", "USD", 9)).toThrow("rates has one from 1900-01-10 on");
    expect(() => new RateTable([quote(10, "EUR", "EUR", 1)])).toThrow("rates[0].to is EUR like from");
  });

  test("says since when there is a rate, whatever the order of the table", () => {
    const table = new RateTable([
      quote(20, "EUR", "USD", 1.1),
      quote(30, "USD", "GBP", 0.8),
      quote(10, "USD", "CHF", 1),
    ]);
    const asked = (to: string) => (): unknown => table.exchange(1, "EUR", to, 5);
    expect(asked("USD")).toThrow(
      "date is 1900-01-05, before the first rate from EUR to USD; rates has one from 1900-01-20 on",
    );
    // A cross is there from the day of its later leg.
    expect(asked("GBP")).toThrow("rates has one from 1900-01-30 on");
    expect(asked("CHF")).toThrow("rates has one from 1900-01-20 on");
    expect(() => table.exchange(1, "SEK", "EUR", 50)).toThrow('from is "SEK"; rates has no such currency');
  });

  test("refuses two rates of one pair on one date, and allows its inverse", () => {
    const twice = [quote(10, "EUR", "USD", 1.1), quote(11, "EUR", "USD", 1.2), quote(10, "eur", "usd", 1.3)];
    expect(() => new RateTable(twice)).toThrow("rates[2].date is 1900-01-10, as in rates[0] for EUR to USD");
    expect(() => new RateTable([quote(10, "EUR", "USD", 1.1), quote(10, "USD", "EUR", 0.9)])).not.toThrow();
  });

  test("refuses the two directions of one day that differ by over 5 %, and no closer ones", () => {
    const upsideDown = [quote(45000, "EUR", "USD", 1.25), quote(45000, "USD", "EUR", 1.25)];
    expect(() => new RateTable(upsideDown)).toThrow(
      "rates[1].rate is 1.25; must be near 0.8: rates[0] has 1.25 back on 2023-03-15",
    );
    const spread = (back: number) => () => new RateTable([quote(9, "A", "B", 1.25), quote(9, "B", "A", back)]);
    expect(spread(0.84)).not.toThrow();
    expect(spread(0.8401)).toThrow("must be near 0.8");
    expect(spread(0.762)).not.toThrow();
    expect(spread(0.7619)).toThrow("must be near 0.8");
    expect(() => new RateTable([quote(8, "A", "B", 1.25), quote(9, "B", "A", 1.25)])).not.toThrow();
  });

  test("a rate older than the greatest age does not count", () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 40000, max: 40410 }), fc.nat({ max: 40 }), (quotes, date, age) => {
        const fresh = quotes.filter((own) => own.date <= date && date - own.date <= age);
        const table = new RateTable(quotes);
        const asked = () => table.exchange(1000, "EUR", "USD", date, age).toNumber();
        if (fresh.length === 0) expect(asked).toThrow(/^(max_age is|date is .* before the first rate)/);
        else expect(asked()).toBe(new RateTable(fresh).exchange(1000, "EUR", "USD", date).toNumber());
      }),
      { numRuns: 1000 },
    );
  });

  test("the greatest age holds for both legs of a cross, and a fresh cross for a stale pair", () => {
    const table = new RateTable([
      ...[quote(45000, "EUR", "USD", 1.1), quote(45020, "USD", "GBP", 0.8)],
      ...[quote(45020, "EUR", "CHF", 1), quote(45020, "CHF", "USD", 1.2)],
    ]);
    expect(table.exchange(100, "EUR", "USD", 45020).toNumber()).toBe(110);
    expect(table.exchange(100, "EUR", "USD", 45020, 20).toNumber()).toBe(110);
    expect(table.exchange(100, "EUR", "USD", 45020, 19).toNumber()).toBe(120);
    expect(table.exchange(100, "EUR", "GBP", 45020, 20).toNumber()).toBe(88);
    expect(() => table.exchange(100, "EUR", "GBP", 45020, 19)).toThrow(
      "max_age is 19; the rate from EUR to GBP is of 2023-03-15, 20 days before 2023-04-04",
    );
  });

  test("a currency that is in no table is not even itself", () => {
    const table = new RateTable([quote(10, "EUR", "USD", 1.1)]);
    expect(() => table.exchange(5, "ERU", "ERU", 10)).toThrow('from is "ERU"; rates has no such currency');
  });
});

describe("days of the sheet", () => {
  // ECMA-376 part 1, 18.17.4.1: serial 1 is 1 January 1900, 60 the 29 February that never was, 2958465 the last day.
  test("read as dates", () => {
    expect([1, 59, 60, 61, 45352, 2958465].map(dayShown)).toEqual([
      ...["1900-01-01", "1900-02-28", "1900-02-29", "1900-03-01"],
      ...["2024-03-01", "9999-12-31"],
    ]);
  });
});

describe("rates of neighbouring days", () => {
  const steady = (...rates: readonly (readonly [date: number, rate: number])[]) =>
    new RateTable(rates.map(([date, rate]) => quote(date, "EUR", "USD", rate))).expectSteady();

  test("may be five times as much in a month, and anything after it", () => {
    for (const later of [5, 0.2, 1.3]) expect(() => steady([45000, 1], [45031, later])).not.toThrow();
    expect(() => steady([45000, 1], [45032, 100])).not.toThrow();
    expect(() => steady([45000, 100])).not.toThrow();
  });

  test("beyond that are for 100 units, or have a slipped point", () => {
    const refused = (...rates: readonly (readonly [number, number])[]) => refusalOf(() => steady(...rates));
    expect(refused([45000, 1.1], [45031, 110])).toBe(
      `#VALUE! rates row 2, rate, is 110; item 1 has 1.1 on ${dayShown(45000)}: for 100 units, or a slipped point?`,
    );
    // By date, whatever the order of the table.
    expect(refused([45010, 0.11], [45000, 1.1])).toContain("rates row 1, rate, is 0.11; item 2 has 1.1 on ");
    expect(refused([45000, 1], [45010, 1], [45020, 0.19])).toContain("rates row 3, rate, is 0.19; item 2 has 1 on ");
    expect(refused([45000, 1], [45001, 5.01])).toContain("is 5.01");
  });

  test("and a pair that nothing quotes, or the same currency twice, is told how to mend", () => {
    const table = new RateTable([quote(45000, "EUR", "USD", 1.1), quote(45000, "GBP", "SEK", 13)]);
    expect(refusalOf(() => table.exchange(1, "EUR", "SEK", 45000))).toMatch(
      /^#N\/A rates .*; quote the pair, or both against one third currency$/,
    );
    expect(refusalOf(() => new RateTable([quote(45000, "EUR", "EUR", 1)]))).toContain("must be another currency");
    // A third currency that is quoted against one of the two only makes no way.
    const half = new RateTable([quote(45000, "EUR", "USD", 1.1), quote(45000, "EUR", "GBP", 0.9), quote(45000, "SEK", "CHF", 0.1)]); // prettier-ignore
    expect(half.exchange(90, "GBP", "USD", 45000).toNumber()).toBe(110);
    expect(refusalOf(() => half.exchange(1, "GBP", "CHF", 45000))).toContain("quote the pair");
  });
});
