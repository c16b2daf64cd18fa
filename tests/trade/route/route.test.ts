import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { massLedger } from "../../../src/trade/route/route";
import { routeCost, type ChargeBasis } from "../../../src/trade/prices/route-cost";
import { LossChain } from "../../../src/trade/route/losses";
import { stageLoss } from "../../../src/trade/route/stage-loss";
import { ruledCosts, ruledMasses } from "../../support/route-rules";
import type { Fraction } from "../../support/fractions";

/** A number with so many decimals, as it is typed in a cell. */
const typed = (least: number, most: number, decimals: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(least * 10 ** decimals), max: Math.round(most * 10 ** decimals) })
    .map((units) => Number(`${units}e-${decimals}`));

const bases: readonly ChargeBasis[] = ["per in", "per out", "per lot", "per skein", "per hour", "percent"];
const stage = fc
  .record({
    loss: typed(-0.1, 0.6, 4),
    regainOut: typed(0, 0.4, 4),
    byProduct: typed(0, 0.3, 3),
    byProductPrice: typed(0, 12, 2),
    basis: fc.constantFrom(...bases),
    rate: typed(0, 9, 3),
    minimum: typed(0, 600, 2),
    fixed: typed(0, 90, 2),
    hours: typed(0, 200, 2),
  })
  .map((priced) => (priced.basis === "percent" ? { ...priced, rate: Number((priced.rate / 100).toFixed(5)) } : priced));
const route = fc.record({
  quantity: typed(0.5, 5000, 2),
  stages: fc.array(stage, { minLength: 1, maxLength: 7 }),
  direction: fc.constantFrom("needed" as const, "made" as const),
  regainStart: typed(0, 0.3, 3),
  startPrice: typed(0, 30, 2),
});
/** Of some stages it is known what really came out. */
const routeAsItWas = fc
  .tuple(route, fc.array(fc.option(typed(0.5, 900, 2), { nil: undefined })))
  .map(([plan, known]) => ({
    ...plan,
    stages: plan.stages.map((one, index) => ({ ...one, actualOut: known[index] })),
  }));

const ours = (stages: readonly { loss: number; regainOut: number; byProduct: number }[]) =>
  stages.map((given, index) => ({
    stage: `stage ${index + 1}`,
    loss: given.loss,
    regain_out: given.regainOut,
    by_product: given.byProduct,
  }));

function expectClose(got: number, wanted: Fraction): void {
  const exact = wanted.toNumber();
  expect(Math.abs(got - exact)).toBeLessThanOrEqual(4e-16 * Math.abs(exact));
}

describe("mass ledger", () => {
  test("agrees with exact fractions in every cell", () => {
    fc.assert(
      fc.property(route, ({ quantity, stages, direction, regainStart }) => {
        const ledger = massLedger(quantity, ours(stages), direction, regainStart);
        const ruled = ruledMasses(quantity, stages, direction, regainStart);
        ledger.forEach((row, index) => {
          const { massIn, dryIn, byProductDry, lossDry, dryOut, massOut } = row;
          const wanted = ruled[index] as Fraction[];
          [massIn, dryIn, byProductDry, lossDry, dryOut].forEach((mass, column) =>
            expectClose(mass.toNumber(), wanted[column] as Fraction),
          );
          expectClose(massOut.toNumber(), wanted[6] as Fraction);
        });
      }),
      { numRuns: 1000 },
    );
  });

  test("closes: dry in is by-product, loss and dry out, and one stage's output is the next one's input", () => {
    fc.assert(
      fc.property(route, ({ quantity, stages, direction, regainStart }) => {
        const ledger = massLedger(quantity, ours(stages), direction, regainStart);
        ledger.forEach(({ dryIn, byProductDry, lossDry, dryOut, massOut }, index) => {
          const [into, beside, gone, out] = [dryIn, byProductDry, lossDry, dryOut].map((mass) => mass.toNumber()) as [
            number,
            number,
            number,
            number,
          ];
          expect(Math.abs(into - beside - gone - out)).toBeLessThanOrEqual(1e-12 * into);
          const next = ledger[index + 1];
          if (next) expect([next.massIn, next.dryIn].map(String)).toEqual([massOut, dryOut].map(String));
        });
      }),
    );
  });

  test('"needed" gives back the quantity asked for, and inverts "made"', () => {
    fc.assert(
      fc.property(route, ({ quantity, stages, regainStart }) => {
        const last = stages.length - 1;
        const needed = massLedger(quantity, ours(stages), "needed", regainStart);
        expect(needed[last]?.massOut.toNumber()).toBe(quantity);
        const input = needed[0]?.massIn.toNumber() as number;
        const made = massLedger(input, ours(stages), "made", regainStart)[last]?.massOut.toNumber() as number;
        expect(Math.abs(made - quantity)).toBeLessThanOrEqual(1e-14 * quantity);
      }),
    );
  });

  test("a stage without loss that only takes up moisture loses nothing", () => {
    const [row] = massLedger(100, [{ stage: "condition", loss: 0, regain_out: 0.1825, by_product: 0 }], "made", 0.1);
    expect(row?.lossDry.toNumber()).toBe(0);
    expect(row?.dryIn.eq(row.dryOut)).toBe(true);
    expect(row?.massOut.gt(row.massIn)).toBe(true);
  });

  test("the loss that was planned is the loss that is measured", () => {
    fc.assert(
      fc.property(route, ({ quantity, stages, regainStart }) => {
        const [first] = stages as [(typeof stages)[0]];
        const [row] = massLedger(quantity, ours([first]), "made", regainStart);
        if (!row) throw new Error("no row");
        const noil = row.byProductDry.times(1 + first.regainOut).toNumber();
        const [massIn, massOut] = [row.massIn.toNumber(), row.massOut.toNumber()];
        const measured = stageLoss(massIn, regainStart, massOut, first.regainOut, noil, undefined).toNumber();
        expect(Math.abs(measured - first.loss)).toBeLessThanOrEqual(1e-14);
      }),
    );
  });
});

describe("losses in a chain", () => {
  const losses = fc.array(typed(-0.5, 0.9, 4), { minLength: 1, maxLength: 8 });

  test("input needed inverts output made, on either basis", () => {
    fc.assert(
      fc.property(
        typed(0.01, 9999, 2),
        losses,
        fc.constantFrom("input" as const, "output" as const),
        (mass, all, basis) => {
          const chain = new LossChain(all);
          expect(
            Math.abs(chain.made(chain.needed(mass, basis).toNumber(), basis).toNumber() - mass),
          ).toBeLessThanOrEqual(1e-14 * mass);
        },
      ),
    );
  });

  test("a loss w on the output is w/(1+w) on the input", () => {
    fc.assert(
      fc.property(typed(0.01, 9999, 2), losses, (mass, all) => {
        const onInput = new LossChain(all.map((loss) => loss / (1 + loss))).made(mass, "input").toNumber();
        const onOutput = new LossChain(all).made(mass, "output").toNumber();
        expect(Math.abs(onInput - onOutput)).toBeLessThanOrEqual(1e-13 * mass);
      }),
    );
  });

  test("more loss never needs less input", () => {
    fc.assert(
      fc.property(losses, fc.nat(7), typed(0, 0.05, 3), (all, place, more) => {
        const worse = all.map((loss, index) => (index === place % all.length ? loss + more : loss));
        const [before, after] = [all, worse].map((list) => new LossChain(list).needed(100, "input")) as [never, never];
        expect(Number(after)).toBeGreaterThanOrEqual(Number(before));
      }),
    );
  });
});

describe("cost ledger", () => {
  const priced = (
    stages: readonly {
      loss: number;
      regainOut: number;
      byProduct: number;
      byProductPrice: number;
      basis: ChargeBasis;
      rate: number;
      minimum: number;
      fixed: number;
      hours?: number | undefined;
      actualOut?: number | undefined;
    }[],
  ) =>
    ours(stages).map((own, index) => {
      const { byProductPrice, basis, rate, minimum, fixed, hours, actualOut } = stages[index] as (typeof stages)[0];
      return {
        ...own,
        by_product_price: byProductPrice,
        basis,
        rate,
        minimum,
        fixed,
        actual_out: actualOut,
        hours,
      };
    });

  test("agrees with exact fractions in every cell, money to the cent", () => {
    fc.assert(
      fc.property(routeAsItWas, ({ quantity, stages, direction, regainStart, startPrice }) => {
        const masses = ruledMasses(quantity, stages, direction, regainStart);
        const ruled = ruledCosts(masses, stages, startPrice, 0.1);
        // What came out is within twenty times of what was expected.
        const isNear = ([massIn, massOut]: readonly Fraction[]): boolean =>
          Math.abs(Math.log((massOut as Fraction).toNumber() / (massIn as Fraction).toNumber())) < 2.99;
        fc.pre(ruled.every(isNear));
        const lines = routeCost(quantity, priced(stages), direction, startPrice, regainStart, 0.1);
        expect(lines.length).toBe(ruled.length);
        lines.forEach(({ massIn, massOut, charge, credit, costSoFar }, index) => {
          const [wantedIn, wantedOut, wantedCharge, wantedCredit, wantedCost] = ruled[index] as [
            Fraction,
            Fraction,
            Fraction,
            Fraction,
            Fraction,
          ];
          expectClose(massIn.toNumber(), wantedIn);
          expectClose(massOut.toNumber(), wantedOut);
          expect([charge, credit, costSoFar].map((money) => money.toNumber())).toEqual(
            [wantedCharge, wantedCredit, wantedCost].map((money) => money.toNumber()),
          );
        });
      }),
      { numRuns: 2000 },
    );
  });

  test("a tie between two cents survives the divisions of a route reckoned backwards", () => {
    // 100 out at 0.12345 are 12.345, and a half goes up, whatever the losses that were divided by on the way.
    for (let percent = 1; percent <= 40; percent++) {
      const plan = { loss: percent / 100, regainOut: 0.1825, byProduct: 0, byProductPrice: 0, minimum: 0, fixed: 0 };
      const stages = priced([
        { ...plan, basis: "per lot", rate: 0 },
        { ...plan, basis: "per out", rate: 0.12345 },
      ]);
      const lines = routeCost(100, stages, "needed", 0, 0.11, undefined);
      expect(lines[2]?.charge.toNumber()).toBe(12.35);
    }
  });

  test("has the masses of the mass ledger", () => {
    fc.assert(
      fc.property(route, ({ quantity, stages, direction, regainStart, startPrice }) => {
        const lines = routeCost(quantity, priced(stages), direction, startPrice, regainStart, 0.1).slice(1);
        const ledger = massLedger(quantity, ours(stages), direction, regainStart);
        expect(lines.map(({ massIn, massOut }) => [massIn, massOut].map(String))).toEqual(
          ledger.map(({ massIn, massOut }) => [massIn, massOut].map(String)),
        );
      }),
    );
  });

  test("in another currency every figure scales, up to the cents that were rounded", () => {
    fc.assert(
      fc.property(
        route,
        fc.constantFrom(2, 10, 100),
        ({ quantity, stages, direction, regainStart, startPrice }, scale) => {
          const dearer = priced(stages).map((row) => ({
            ...row,
            by_product_price: row.by_product_price * scale,
            rate: row.basis === "percent" ? row.rate : row.rate * scale,
            minimum: row.minimum * scale,
            fixed: row.fixed * scale,
          }));
          const once = routeCost(quantity, priced(stages), direction, startPrice, regainStart, 0.1);
          const scaled = routeCost(quantity, dearer, direction, startPrice * scale, regainStart, 0.1);
          // Each line rounds a charge and a credit, and a percentage of the cost so far carries earlier cents on.
          const cents = 0.02 * (scale + 1) * once.length * 1.1 ** once.length;
          once.forEach((line, index) => {
            const other = scaled[index]?.costSoFar.toNumber() as number;
            expect(Math.abs(other - scale * line.costSoFar.toNumber())).toBeLessThanOrEqual(cents);
          });
        },
      ),
    );
  });

  test("whatever really came out, charges less credits foot and the unit cost survives the abnormal loss", () => {
    fc.assert(
      fc.property(route, fc.array(typed(0.5, 1.2, 3), { minLength: 7, maxLength: 7 }), (given, shares) => {
        const { quantity, direction, regainStart, startPrice } = given;
        const plan = massLedger(quantity, ours(given.stages), direction, regainStart);
        const actual = plan.map(({ massOut }, index) =>
          Number((massOut.toNumber() * (shares[index] as number)).toPrecision(6)),
        );
        const stages = priced(given.stages).map((row, index) => ({ ...row, actual_out: actual[index] }));
        const lines = routeCost(quantity, stages, direction, startPrice, regainStart, 0.1);
        expect(lines.length).toBe(1 + 2 * stages.length);
        let cost = 0n;
        lines.forEach(({ charge, credit, costSoFar }) => {
          cost += BigInt(charge.minus(credit).times(100).toFixed());
          expect(costSoFar.times(100).toFixed()).toBe(cost.toString());
        });
        for (let row = 2; row < lines.length; row += 2) {
          const [before, after] = [lines[row - 1], lines[row]] as [(typeof lines)[0], (typeof lines)[0]];
          expect(after.massOut.toNumber()).toBe(actual[row / 2 - 1]);
          // The value that leaves is rounded to the cent, so the unit cost may move by half a cent over the mass.
          const unit = [before, after].map(({ costSoFar, massOut }) => costSoFar.div(massOut).toNumber()) as [
            number,
            number,
          ];
          expect(Math.abs(unit[0] - unit[1])).toBeLessThanOrEqual(
            0.005 / after.massOut.toNumber() + 1e-12 * Math.abs(unit[0]),
          );
          const next = lines[row + 1];
          if (next) expect(next.massIn.toNumber()).toBe(after.massOut.toNumber());
        }
      }),
    );
  });
});
