import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rankQuotes, type Quote } from "../../../src/trade/prices/quotes";

const plain: Quote = {
  name: "A",
  basis: "per in",
  rate: 2,
  minimum: 0,
  fixed: 0,
  lot_size: undefined,
  lot_fee: 0,
  loss: 0,
  regain: undefined,
};

const quote: fc.Arbitrary<Quote> = fc.record({
  name: fc.constantFrom("A", "B", "C"),
  basis: fc.constantFrom("per in", "per out", "per lot"),
  rate: fc.integer({ min: 0, max: 400 }).map((cents) => cents / 100),
  minimum: fc.integer({ min: 0, max: 300 }),
  fixed: fc.integer({ min: 0, max: 200 }),
  lot_size: fc.option(fc.integer({ min: 20, max: 400 }), { nil: undefined }),
  lot_fee: fc.integer({ min: 0, max: 60 }),
  loss: fc.integer({ min: 0, max: 30 }).map((percent) => percent / 100),
  regain: fc.option(fc.constantFrom(0.1, 0.17, 0.1825), { nil: undefined }),
});

/** What a quote costs with its material, from its words. */
function costOf(quote: Quote, quantity: number, price: number, regain: number): number {
  const dryOut = quantity / (1 + regain);
  const dryIn = dryOut / (1 - quote.loss);
  const billed = 1 + (quote.regain ?? regain);
  const massIn = dryIn * billed;
  const lots = quote.lot_size === undefined ? 1 : Math.ceil(Number((massIn / quote.lot_size).toPrecision(13)));
  const units = { "per in": massIn, "per out": dryOut * billed, "per lot": lots }[quote.basis];
  const charge = Math.max(quote.rate * units, quote.minimum) + quote.fixed + lots * quote.lot_fee;
  return dryIn * (1 + regain) * price + charge;
}

const request = [fc.array(quote, { minLength: 2, maxLength: 4 }), fc.integer({ min: 5, max: 900 })] as const;

describe("quotes on one basis", () => {
  test("are worked out from dry mass, and the cheapest stands first", () => {
    fc.assert(
      fc.property(...request, fc.constantFrom(0, 0.17), (quotes, quantity, regain) => {
        const lines = rankQuotes(quantity, quotes, 9, regain);
        lines.forEach(({ quote: own, perUnit, massIn, material, charge }, rank) => {
          const wanted = costOf(own, quantity, 9, regain);
          expect(perUnit * quantity).toBeCloseTo(wanted, 7);
          expect(material).toBeCloseTo(9 * massIn, 7);
          expect(material + charge).toBeCloseTo(wanted, 7);
          if (rank > 0) expect(perUnit).toBeGreaterThanOrEqual((lines[rank - 1]?.perUnit as number) - 1e-9);
        });
      }),
    );
  });

  test("the order holds up to the turn and changes past it (costs tried from the words, at many quantities)", () => {
    fc.assert(
      fc.property(...request, (quotes, quantity) => {
        const lines = rankQuotes(quantity, quotes, 9, 0);
        lines.slice(1).forEach((line, rank) => {
          const [one, other] = [lines[rank]?.quote as Quote, line.quote];
          const lead = (at: number): number => costOf(other, at, 9, 0) - costOf(one, at, 9, 0);
          const turn = line.turnsAt ?? quantity * 60;
          const distance = Math.abs(turn - quantity);
          for (const share of [0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95, 0.999]) {
            expect(lead(quantity + share * distance)).toBeGreaterThanOrEqual(-1e-6);
            const below = quantity - share * distance;
            if (below > quantity / 99) expect(lead(below)).toBeGreaterThanOrEqual(-1e-6);
          }
          if (line.turnsAt === undefined || distance === 0) return;
          const past = turn + Math.sign(turn - quantity) * turn * 1e-9;
          expect(Math.min(lead(past), lead(turn))).toBeLessThanOrEqual(1e-5);
        });
      }),
      { numRuns: 500 },
    );
  });

  test("a fixed charge against a rate turns where they meet, a lot fee where the next lot begins", () => {
    const flat = { ...plain, name: "B", rate: 1.5, fixed: 100 };
    expect(rankQuotes(100, [flat, plain], 10, 0).map(({ quote: own, turnsAt }) => [own.name, turnsAt])).toEqual([
      ["A", undefined],
      ["B", 200],
    ]);
    const lots = { ...plain, name: "B", rate: 0, lot_size: 150, lot_fee: 190 };
    // One lot costs 190 and is dearer up to 95; a second lot begins past 150, where 380 meet 300.
    expect(rankQuotes(140, [plain, lots], 10, 0)[1]?.turnsAt).toBe(150);
    expect(rankQuotes(100, [plain, lots], 10, 0)[1]?.turnsAt).toBe(95);
    // Full, one lot costs 190 against 300; a little more, and it is 380.
    expect(rankQuotes(150, [plain, lots], 10, 0).map(({ quote: own, turnsAt }) => [own.name, turnsAt])).toEqual([
      ["B", undefined],
      ["A", 150],
    ]);
    // As far from one as from the other it is the larger order.
    expect(rankQuotes(122.5, [plain, lots], 10, 0)[1]?.turnsAt).toBe(150);
  });

  test("a turn is looked for up to a hundred times the quantity, and down to a hundredth", () => {
    const turn = (quantity: number, fixed: number) =>
      rankQuotes(quantity, [plain, { ...plain, name: "B", rate: 1, fixed }], 10, 0)[1]?.turnsAt;
    expect([turn(10, 990), turn(10, 1010)]).toEqual([990, undefined]);
    expect([turn(1000, 11), turn(1000, 9)]).toEqual([11, undefined]);
    const small = (quantity: number, minimum: number) =>
      rankQuotes(
        quantity,
        [
          { ...plain, minimum },
          { ...plain, name: "B", rate: 3 },
        ],
        10,
        0,
      )[1]?.turnsAt;
    // A minimum of 60 against a rate of 3 is met at 20, and from 30 on the rate of 2 is below it.
    expect([small(25, 60), small(19, 60)]).toEqual([20, 20]);
  });

  test("where costs only meet and part again there is no turn", () => {
    // 1 a unit and 100 a lot of 100 are 2 a unit where each lot is full, and more before.
    const lots = { ...plain, name: "B", rate: 1, lot_size: 100, lot_fee: 100 };
    for (const quantity of [50, 150, 250]) expect(rankQuotes(quantity, [lots, plain], 10, 0)).toMatchObject([{ quote: plain }, { turnsAt: undefined }]); // prettier-ignore
    // Crooked figures meet but for their last digits.
    for (const lot_size of [70.7, 133.3, 141.42]) {
      const crooked = { ...plain, name: "B", rate: 100.1, lot_size, lot_fee: 33.3, loss: 0.1 };
      const even = { ...plain, rate: 100.1 + 33.3 / lot_size, loss: 0.1 };
      for (const share of [0.4, 0.7, 1.3]) expect(rankQuotes(share * lot_size, [crooked, even], 0, 0)[1]?.turnsAt).toBe(undefined); // prettier-ignore
    }
    // Both are at their steps at once: lots of 50 and of 100 of which two and one are full.
    const fine = { ...plain, name: "C", rate: 1, lot_size: 50, lot_fee: 50 };
    expect(rankQuotes(120, [fine, lots], 10, 0).map(({ quote: own, turnsAt }) => [own.name, turnsAt])).toEqual([
      ["C", undefined],
      ["B", undefined],
    ]);
  });

  test("quotes that cost the same keep their order, turn at once, and alone there is no turn", () => {
    const [one, other] = [plain, { ...plain, name: "B" }];
    for (const quotes of [
      [one, other],
      [other, one],
    ]) {
      const lines = rankQuotes(100, quotes, 10, 0);
      expect(lines.map(({ quote: own }) => own.name)).toEqual(quotes.map(({ name }) => name));
      expect(lines.map(({ turnsAt }) => turnsAt)).toEqual([undefined, 100]);
    }
    // 0.1 × 3 is 0.3 as cells show it, though the double is above.
    const [three, third] = [0.1 * 3, 0.3].map((rate, place) => ({ ...plain, rate, name: `${place}` })) as [
      Quote,
      Quote,
    ];
    expect(rankQuotes(1, [three, third], 0, 0)).toMatchObject([{ quote: { name: "0" } }, { quote: { name: "1" }, turnsAt: 1 }]); // prettier-ignore
    expect(rankQuotes(100, [plain], 10, 0)).toMatchObject([{ turnsAt: undefined, perUnit: 12, charge: 200 }]);
  });

  test("of many small lots the next few thousand are looked at, on both sides", () => {
    // Lots of 1 at 2 each against 30 once and 1.5 a unit: 116 a little over 57 are the first more than 30 + 1.5·57, and
    // from above 118 at 59 the first less than 30 + 1.5·59.
    const lots = { ...plain, rate: 0, lot_size: 1, lot_fee: 2 };
    const flat = { ...plain, name: "B", rate: 1.5, fixed: 30 };
    expect(rankQuotes(20, [lots, flat], 10, 0)[1]?.turnsAt).toBe(57);
    expect(rankQuotes(200, [lots, flat], 10, 0)[1]?.turnsAt).toBe(59);
    const fine = { ...plain, rate: 0, lot_size: 1, lot_fee: 1 };
    expect(rankQuotes(12_000, [fine, { ...plain, name: "B", rate: 0, fixed: 7500.5 }], 0, 0)[1]?.turnsAt).toBe(7500);
    // Further off than the lots that are looked at nothing is told, also where the other's go further.
    const double = { ...fine, lot_size: 2, lot_fee: 2 };
    expect(rankQuotes(28_000, [double, { ...plain, name: "B", rate: 0, fixed: 15_000.5 }], 0, 0)[1]?.turnsAt).toBe(
      undefined,
    );
    const large = { ...plain, name: "B", rate: 0, fixed: 12_500.5, lot_size: 12_000 };
    expect(rankQuotes(2000, [fine, large], 0, 0)[1]?.turnsAt).toBe(undefined);
    expect(rankQuotes(2000, [fine, { ...plain, name: "B", rate: 0, fixed: 7500.5 }], 0, 0)[1]?.turnsAt).toBe(7500);
    expect(rankQuotes(2000, [fine, { ...plain, name: "B", rate: 0, fixed: 12_500.5 }], 0, 0)[1]?.turnsAt).toBe(
      undefined,
    );
  });
});
