import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  stockLedger,
  type LedgerLine,
  type LedgerMethod,
  type ValueChange,
} from "../../../src/trade/prices/stock-ledger";
import type { Refusal } from "../../../src/trade/refusal";
import { Fraction } from "../../support/fractions";
import { decimals } from "../../support/money-arbitraries";
import { refusalOf } from "../../support/refusals";

type Event = readonly [quantity: number, unitCost?: number];

function enterAll(method: LedgerMethod, events: readonly Event[]): LedgerLine[] {
  const enter = stockLedger(method);
  return events.map(([quantity, unitCost], index) => enter(quantity, unitCost, index));
}

/** Receipts and issues that never ask for more than is there: an issue is a share of the stock. */
function ledgers(unit: number, costs: fc.Arbitrary<number>): fc.Arbitrary<Event[]> {
  const receipt = fc.record({ units: fc.integer({ min: 1, max: 60 }), cost: costs });
  const issue = fc.record({ share: fc.constantFrom(0.1, 0.3, 0.5, 0.9, 1) });
  return fc.array(fc.oneof(receipt, issue), { minLength: 1, maxLength: 25 }).map((steps) => {
    let stock = 0;
    const events: Event[] = [];
    for (const step of steps) {
      if ("cost" in step) {
        stock += step.units;
        events.push([step.units / unit, step.cost]);
      } else {
        const units = Math.ceil(stock * step.share);
        stock -= units;
        if (units > 0) events.push([-units / unit]);
      }
    }
    return events;
  });
}

const costs = decimals(0.01, 400, 2);
const methods = fc.constantFrom<LedgerMethod>("fifo", "average");

/** The catalogue's rule in exact fractions: quantity, value, cost of issue after each event. */
function byDefinition(method: LedgerMethod, events: readonly Event[]): [Fraction, Fraction, Fraction][] {
  let quantity = Fraction.from(0);
  let value = Fraction.from(0);
  let lots: { left: Fraction; cost: Fraction }[] = [];
  return events.map(([moved, unitCost]) => {
    const amount = Fraction.from(Math.abs(moved));
    let issued = Fraction.from(0);
    if (moved > 0) {
      const cost = Fraction.from(unitCost as number);
      lots = [...lots, { left: amount, cost }];
      quantity = quantity.plus(amount);
      value = value.plus(amount.times(cost));
    } else {
      if (method === "average") issued = value.times(amount).over(quantity);
      let wanted = amount;
      lots = lots.flatMap(({ left, cost }) => {
        const taken = left.compare(wanted) < 0 ? left : wanted;
        wanted = wanted.minus(taken);
        if (method === "fifo") issued = issued.plus(taken.times(cost));
        return left.equals(taken) ? [] : [{ left: left.minus(taken), cost }];
      });
      quantity = quantity.minus(amount);
      value = value.minus(issued);
    }
    return [quantity, value, issued];
  });
}

describe("stock ledger", () => {
  test("fifo is a queue of single units", () => {
    fc.assert(
      fc.property(ledgers(1, fc.integer({ min: 1, max: 999 })), (events) => {
        const queue: number[] = [];
        enterAll("fifo", events).forEach((line, index) => {
          const [moved, unitCost] = events[index] as Event;
          let issued = 0;
          for (let unit = 0; unit < moved; unit++) queue.push(unitCost as number);
          for (let unit = 0; unit > moved; unit--) issued += queue.shift() as number;
          expect(line.costOfIssue.toNumber()).toBe(issued);
          expect(line.quantity.toNumber()).toBe(queue.length);
          expect(line.value.toNumber()).toBe(queue.reduce((total, cost) => total + cost, 0));
        });
      }),
    );
  });

  test("the moving average is the value over the quantity, kept unit by unit", () => {
    fc.assert(
      fc.property(ledgers(1, fc.integer({ min: 1, max: 999 })), (events) => {
        let average = Fraction.from(0);
        let units = 0;
        enterAll("average", events).forEach((line, index) => {
          const [moved, unitCost] = events[index] as Event;
          // Taking units out leaves the average; putting one in moves it by (cost - average) / (units + 1).
          for (let unit = 0; unit < moved; unit++) {
            units++;
            average = average.plus(
              Fraction.from(unitCost as number)
                .minus(average)
                .over(Fraction.from(units)),
            );
          }
          if (moved < 0) units += moved;
          expect(line.averageCost?.toNumber()).toBe(units === 0 ? undefined : average.toNumber());
          if (moved < 0) expect(line.costOfIssue.toNumber()).toBe(average.times(Fraction.from(-moved)).toNumber());
        });
      }),
      { numRuns: 60 },
    );
  });

  test("every figure is what exact fractions give from the rule", () => {
    fc.assert(
      fc.property(ledgers(1000, costs), methods, (events, method) => {
        const wanted = byDefinition(method, events);
        enterAll(method, events).forEach((line, index) => {
          const [quantity, value, issued] = wanted[index] as [Fraction, Fraction, Fraction];
          expect(line.quantity.toNumber()).toBe(quantity.toNumber());
          expect(line.value.toNumber()).toBe(value.toNumber());
          expect(line.costOfIssue.toNumber()).toBe(issued.toNumber());
        });
      }),
    );
  });

  test("opening + in - out = closing, in quantity and in value, to the last digit", () => {
    fc.assert(
      fc.property(ledgers(1000, costs), methods, (events, method) => {
        const lines = enterAll(method, events);
        let quantity = Fraction.from(0);
        let value = Fraction.from(0);
        lines.forEach((line, index) => {
          const [moved, unitCost] = events[index] as Event;
          quantity = quantity.plus(Fraction.from(moved));
          if (moved > 0) value = value.plus(Fraction.from(moved).times(Fraction.from(unitCost as number)));
          const [whole, decimalPart = ""] = line.costOfIssue.toFixed().split(".");
          value = value.minus(Fraction.of(BigInt(`${whole}${decimalPart}`), 10n ** BigInt(decimalPart.length)));
          const [units, rest = ""] = line.value.toFixed().split(".");
          expect(Fraction.of(BigInt(`${units}${rest}`), 10n ** BigInt(rest.length)).equals(value)).toBe(true);
          expect(Fraction.from(line.quantity.toNumber()).equals(quantity)).toBe(true);
        });
      }),
    );
  });

  test("an emptied stock is worth exactly nothing, however crooked the average was", () => {
    fc.assert(
      fc.property(ledgers(1000, costs), methods, (events, method) => {
        const enter = stockLedger(method);
        events.forEach(([quantity, unitCost]) => enter(quantity, unitCost, 0));
        const before = enter(0, undefined, 1);
        const after = enter(-before.quantity.toNumber(), undefined, 2);
        expect([after.quantity.toNumber(), after.value.toNumber(), after.averageCost]).toEqual([0, 0, undefined]);
        expect(after.costOfIssue.eq(before.value)).toBe(true);
      }),
    );
  });

  test("so is one of quantities and costs with all the digits a cell can hold", () => {
    for (const method of ["fifo", "average"] as const) {
      const last = enterAll(method, [[1 / 3, 1 / 7], [2 / 3, 1 / 11], [-0.9999999999999999]])[2] as LedgerLine;
      expect([last.quantity.toNumber(), last.value.toNumber(), last.averageCost]).toEqual([0, 0, undefined]);
    }
  });

  test("scaling the currency scales value, average and cost of issue, and no quantity", () => {
    fc.assert(
      fc.property(ledgers(10, fc.integer({ min: 1, max: 999 })), methods, (events, method) => {
        const plain = enterAll(method, events);
        const scaled = enterAll(
          method,
          events.map(([quantity, unitCost]): Event => [quantity, unitCost === undefined ? undefined : unitCost * 100]),
        );
        scaled.forEach((line, index) => {
          const { quantity, value, averageCost, costOfIssue } = plain[index] as LedgerLine;
          expect(line.quantity.eq(quantity)).toBe(true);
          expect(line.value.minus(value.times(100)).abs().toNumber()).toBeLessThan(1e-17);
          expect(line.costOfIssue.minus(costOfIssue.times(100)).abs().toNumber()).toBeLessThan(1e-17);
          if (averageCost) expect(line.averageCost?.minus(averageCost.times(100)).abs().toNumber()).toBeLessThan(1e-17);
        });
      }),
    );
  });

  test("tenths of a kilogram are tenths: 0.1 + 0.2 - 0.3 leaves nothing and is not refused", () => {
    const last = enterAll("fifo", [[0.1, 5], [0.2, 5], [-0.3]])[2] as LedgerLine;
    expect([last.quantity.toNumber(), last.value.toNumber(), last.costOfIssue.toNumber()]).toEqual([0, 0, 1.5]);
  });

  test("a refused event leaves the stock as it was", () => {
    const enter = stockLedger("fifo");
    enter(5, 2, 0);
    expect(() => enter(-6, undefined, 1)).toThrow(
      expect.objectContaining({ message: "events[1].quantity is -6; only 5 is in stock" }) as Refusal,
    );
    expect(enter(0, undefined, 2).value.toNumber()).toBe(10);
  });
});

describe("a value alone", () => {
  type Event = [moved: number, unitCost?: number, changed?: number, change?: ValueChange];
  const entered = (method: LedgerMethod, events: readonly Event[]): LedgerLine[] => {
    const enter = stockLedger(method);
    return events.map(([moved, unitCost, changed, change], index) => enter(moved, unitCost, index, changed, change));
  };
  const values = (events: readonly Event[]): number[] =>
    entered("average", events).map(({ value }) => value.toNumber());

  // IAS 2, paragraphs 9 and 33: the lower of cost and net realisable value, and a reversal limited to the write-down.
  test("written down to what it would bring, and never above its cost again", () => {
    const realisable: Event[] = [
      [100, 7.2],
      [0, undefined, 690, "net realisable"],
      [0, undefined, 760, "net realisable"],
    ];
    expect(values(realisable)).toEqual([720, 690, 720]);
    expect(
      values([
        [100, 7.2],
        [0, undefined, -30, "write-down"],
        [0, undefined, 30, "reversal"],
      ]),
    ).toEqual([720, 690, 720]);
    expect(
      values([
        [100, 7.2],
        [0, undefined, -30],
        [0, undefined, 30],
      ]),
    ).toEqual([720, 690, 720]);
  });

  test("what the whole would bring is not what one unit would", () => {
    const brought = (quantity: number, value: number) => (): number[] =>
      values([
        [quantity, 7],
        [0, undefined, value, "net realisable"],
      ]);
    for (const value of [2.4, 6, 9.9]) {
      expect(refusalOf(brought(100, value))).toBe(
        `#VALUE! events row 2, value, is ${value}; must be what the whole stock would bring`,
      );
    }
    // Worthless, nearly so, or a handful of units, of which one may be what is left.
    for (const [quantity, value] of [
      [100, 0],
      [100, 1],
      [100, 30],
      [30, 6],
      [2, 6],
    ] as const) {
      expect(brought(quantity, value)()).toEqual([quantity * 7, value]);
    }
  });

  test("a late charge and a credit note change the cost, shared by it over the oldest and the newest", () => {
    const events: Event[] = [[10, 2], [10, 4], [0, undefined, 30], [-10], [0, undefined, -12, "credit note"], [-10]];
    // 30 on 20 and 40 of cost: 10 and 20.
    expect(entered("fifo", events).map(({ costOfIssue }) => costOfIssue.toNumber())).toEqual([0, 0, 0, 30, 0, 48]);
    expect(entered("average", events).map(({ costOfIssue }) => costOfIssue.toNumber())).toEqual([0, 0, 0, 45, 0, 33]);
  });

  test("what goes in and what changes is what goes out and what is left, whatever happens (money is kept)", () => {
    const event: fc.Arbitrary<Event> = fc.oneof(
      fc
        .tuple(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 900 }))
        .map(([moved, cost]): Event => [moved, cost / 100]),
      fc.integer({ min: 1, max: 60 }).map((moved): Event => [-moved]),
      fc
        .tuple(
          fc.integer({ min: -20000, max: 20000 }),
          fc.constantFrom<ValueChange>("late charge", "credit note", "write-down", "reversal", "net realisable"),
        )
        .map(([changed, change]): Event => [0, undefined, changed / 100, change]),
    );
    fc.assert(
      fc.property(
        fc.array(event, { maxLength: 25 }),
        fc.constantFrom<LedgerMethod>("fifo", "average"),
        (events, method) => {
          const enter = stockLedger(method);
          let [gone, come, value, ceiling] = [0, 0, 0, 0];
          events.forEach(([moved, unitCost, changed, change], index) => {
            let line: LedgerLine;
            try {
              line = enter(moved, unitCost, index, changed, change);
            } catch {
              // A refused event leaves the stock as it was.
              expect(enter(0, undefined, index).value.toNumber()).toBe(value);
              return;
            }
            const now = line.value.toNumber();
            gone += line.costOfIssue.toNumber();
            if (moved > 0) come += moved * (unitCost as number);
            else if (change === "net realisable") {
              come += now - value;
              expect(now).toBeLessThanOrEqual((changed as number) + 1e-9);
            } else if (moved === 0) come += changed as number;
            value = now;
            if (change === "late charge" || change === "credit note") ceiling += changed as number;
            if (moved > 0) ceiling += moved * (unitCost as number);
            expect(now).toBeGreaterThanOrEqual(-1e-9);
            expect(now).toBeLessThanOrEqual(ceiling + 1e-9);
            expect(gone + now).toBeCloseTo(come, 8);
          });
        },
      ),
      { numRuns: 400 },
    );
  });

  test("is refused where it would do what nobody meant", () => {
    const refused = (...events: Event[]) => refusalOf(() => entered("fifo", events));
    const stock: Event = [10, 5];
    expect(refused([0, undefined, 5])).toContain("events row 1, value, is 5; nothing is in stock");
    expect(refused(stock, [5, 2, 3])).toContain("events row 2, value, is 3; a value alone has no quantity");
    expect(refused(stock, [0, undefined, -60])).toContain("is -60; the stock would be worth less than nothing");
    expect(refused(stock, [0, undefined, -10], [0, undefined, 11])).toContain(
      "only 10 is written down; say in a column",
    );
    expect(refused(stock, [0, undefined, -10], [0, undefined, 11, "reversal"])).toContain("only 10 is written down");
    expect(refused(stock, [0, undefined, 10, "credit note"])).toContain("a credit note must be below 0");
    expect(refused(stock, [0, undefined, -10, "late charge"])).toContain("a late charge must be above 0");
    expect(refused(stock, [0, undefined, -1, "net realisable"])).toContain("what the whole stock would bring");
    expect(refused(stock, [-1, undefined, undefined, "write-down"])).toContain(
      "kind, is write-down; its row has no value",
    );
  });
});

describe("values alone, by hand", () => {
  test.each(["fifo", "average"] as const)(
    "%s: what is written down leaves with what is issued, and comes back no further",
    (method) => {
      const enter = stockLedger(method);
      const of = ({ value, costOfIssue }: LedgerLine) => [value.toNumber(), costOfIssue.toNumber()];
      expect(of(enter(10, 4, 0, 0))).toEqual([40, 0]);
      expect(of(enter(0, undefined, 1, -10))).toEqual([30, 0]);
      expect(of(enter(-5, undefined, 2))).toEqual([15, 15]);
      expect(refusalOf(() => enter(0, undefined, 3, 6, "reversal"))).toBe(
        "#VALUE! events row 4, value, is 6; only 5 is written down",
      );
      expect(refusalOf(() => enter(0, undefined, 3, 6))).toBe(
        '#VALUE! events row 4, value, is 6; only 5 is written down; say in a column "kind" what it is',
      );
      expect(of(enter(0, undefined, 3, 2, "reversal"))).toEqual([17, 0]);
      expect(of(enter(0, undefined, 4, 3))).toEqual([20, 0]);
      expect(of(enter(0, undefined, 5, 5, "late charge"))).toEqual([25, 0]);
      expect(of(enter(0, undefined, 6, -5, "write-down"))).toEqual([20, 0]);
      // All that is left takes all that is written down with it.
      expect(of(enter(-5, undefined, 7))).toEqual([0, 20]);
      expect(of(enter(2, 4, 8))).toEqual([8, 0]);
    },
  );

  test("what the stock would bring may be nothing, and a kind needs a value", () => {
    const enter = stockLedger("fifo");
    enter(10, 4, 0);
    expect(enter(0, undefined, 1, 0, "net realisable").value.toNumber()).toBe(0);
    expect(enter(0, undefined, 2, 60, "net realisable").value.toNumber()).toBe(40);
    expect(refusalOf(() => enter(0, undefined, 3, undefined, "write-down"))).toBe(
      "#VALUE! events row 4, kind, is write-down; its row has no value",
    );
    expect(refusalOf(() => enter(0, undefined, 3, 0, "write-down"))).toContain("its row has no value");
  });
});
