import { describe, expect, test } from "vitest";
import { costSpread, type StageSpread } from "../../../src/trade/prices/cost-spread";
import { routeCost, type PricedStage } from "../../../src/trade/prices/route-cost";
import { expectClose } from "../../support/closeness";
import { cases } from "../../support/random-cases";
import { refusalOf } from "../../support/refusals";

const stage = (name: string, figures: Partial<PricedStage>): PricedStage => ({
  stage: name,
  loss: 0,
  regain_out: 0,
  by_product: 0,
  by_product_price: undefined,
  basis: undefined,
  rate: undefined,
  minimum: 0,
  fixed: 0,
  actual_out: undefined,
  hours: undefined,
  ...figures,
});
const spread = (name: string, figures: Partial<StageSpread>): StageSpread => ({
  stage: name,
  loss: 0,
  regain_out: 0,
  by_product: 0,
  rate: 0,
  ...figures,
});

const ROUTE = [
  stage("scour", { loss: 0.42, regain_out: 0.16, basis: "per in", rate: 0.9 }),
  stage("comb", {
    loss: 0.03,
    regain_out: 0.1825,
    by_product: 0.08,
    by_product_price: 3.2,
    basis: "per out",
    rate: 2.1,
    fixed: 120,
  }),
  stage("dye", { loss: 0.01, regain_out: 0.17, basis: "per lot", rate: 300, lot_size: 350, currency_rate: 1.15 }),
  stage("spin", { loss: 0.05, regain_out: 0.17, basis: "per out", rate: 4.4, minimum: 500 }),
  stage("insure", { basis: "percent", rate: 0.012, regain_out: 0.17 }),
];
const SPREADS = [
  spread("scour", { loss: 0.02, regain_out: 0.01 }),
  spread("comb", { by_product: 0.01, rate: 0.15 }),
  spread("spin", { loss: 0.01, rate: 0.2 }),
];

/** Numbers of a normal distribution, the same in every run: a linear congruential generator and two at a time. */
function normals(seed: number): () => number {
  let state = BigInt(seed);
  const uniform = (): number => {
    state = (state * 6364136223846793005n + 1442695040888963407n) & 0xffffffffffffffffn;
    return (Number(state >> 11n) + 0.5) / 2 ** 53;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** The cost per unit out of the route above, "made" from 2,000, written from the words of ROUTECOST without its cents. */
function perUnit(price: number, stages: readonly PricedStage[]): number {
  let [mass, dry, cost] = [2000, 2000, 2000 * price];
  for (const {
    loss,
    regain_out,
    by_product,
    by_product_price,
    basis,
    rate,
    minimum,
    fixed,
    lot_size,
    ...own
  } of stages) {
    const dryOut = dry * (1 - loss - by_product);
    const out = dryOut * (1 + regain_out);
    const exchange = own.currency_rate ?? 1;
    const units = {
      "per in": mass,
      "per out": out,
      "per lot": Math.ceil(mass / (lot_size ?? Infinity)),
      percent: cost / exchange,
      "per skein": 0,
      "per hour": 0,
    };
    const charge = Math.max(basis === undefined ? 0 : units[basis] * (rate ?? 0), minimum) + fixed;
    cost += exchange * (charge - dry * by_product * (1 + regain_out) * (by_product_price ?? 0));
    [mass, dry] = [out, dryOut];
  }
  return cost / mass;
}

describe("what the cost per unit is known to", () => {
  test("the spread is that of seeded draws", () => {
    const normal = normals(20_261_127);
    let [sum, squares] = [0, 0];
    const draws = cases(100_000);
    for (let draw = 0; draw < draws; draw++) {
      const drawn = ROUTE.map((one) => {
        const by = SPREADS.find(({ stage: name }) => name === one.stage);
        if (by === undefined) return one;
        return {
          ...one,
          loss: one.loss + by.loss * normal(),
          regain_out: one.regain_out + by.regain_out * normal(),
          by_product: one.by_product + by.by_product * normal(),
          rate: (one.rate as number) + by.rate * normal(),
        };
      });
      const cost = perUnit(4.2 + 0.25 * normal(), drawn);
      sum += cost;
      squares += cost * cost;
    }
    const mean = sum / draws;
    const deviation = Math.sqrt(squares / draws - mean * mean);
    const [cost] = costSpread(2000, ROUTE, SPREADS, "made", 4.2, 0.25, 0, undefined);
    const { low, expected, high } = cost as NonNullable<typeof cost>;
    // The draws know a deviation to 1 / √(2 × draws), 0.2 % of 100,000; the slopes are those at the expected figures.
    expect(Math.abs((high - low) / 2 / deviation - 1)).toBeLessThan(4.5 / Math.sqrt(2 * draws));
    expect(Math.abs(expected / mean - 1)).toBeLessThan(0.005);
  });

  test("the expected cost is that of the route, and the parts of the variance sum to 1, the widest first", () => {
    for (const direction of ["made", "needed"] as const) {
      const [cost, ...parts] = costSpread(2000, ROUTE, SPREADS, direction, 4.2, 0.25, 0, undefined);
      const last = routeCost(2000, ROUTE, direction, 4.2, 0, undefined).slice(-1)[0];
      expect(cost?.expected).toBe(last?.costSoFar.div(last.massOut).toNumber());
      expect(parts.reduce((sum, { part }) => sum + part, 0)).toBeCloseTo(1, 12);
      const sorted = parts.map(({ part }) => part);
      expect(sorted).toEqual([...sorted].sort((a, b) => b - a));
    }
  });

  test("each input alone has the slope that a small change of it shows", () => {
    const [, ...parts] = costSpread(2000, ROUTE, SPREADS, "made", 4.2, 0.25, 0, undefined);
    const change = (of: string, field: "loss" | "regain_out" | "by_product" | "rate", by: number): number => {
      const moved = (sign: number) =>
        ROUTE.map((one) => (one.stage === of ? { ...one, [field]: (one[field] as number) + sign * by } : one));
      return Math.abs(perUnit(4.2, moved(1)) - perUnit(4.2, moved(-1))) / (2 * by);
    };
    for (const { stage: of, ...figures } of SPREADS) {
      for (const field of ["loss", "regain_out", "by_product", "rate"] as const) {
        if (figures[field] === 0) continue;
        const found = parts.find(
          ({ input }) => input === `${of}: ${field.replace("_", field === "by_product" ? "-" : " ")}`,
        );
        const half = ((found?.high as number) - (found?.low as number)) / 2;
        expect(half).toBeCloseTo(figures[field] * change(of, field, 1e-6), 6);
      }
    }
  });

  test("every input, of every basis and in both directions, moves the cost as the route itself with that input moved", () => {
    // A large quantity, so that the route's cents do not show in its differences.
    const quantity = 2e6;
    const route = [
      stage("scour", {
        loss: 0.4,
        regain_out: 0.16,
        basis: "per in",
        rate: 0.9,
        by_product: 0.02,
        by_product_price: 1.5,
      }),
      stage("card", { loss: 0.05, regain_out: 0.17, basis: "per hour", rate: 80, hours: 9000, minimum: 100, fixed: 7 }),
      stage("comb", {
        ...{ loss: 0.03, regain_out: 0.1825, basis: "per out", rate: 2.1, fixed: 120, currency_rate: 1.15 },
        ...{ by_product: 0.08, by_product_price: 3.2, lot_size: 300_000 },
      }),
      stage("dye", { loss: 0.01, regain_out: 0.17, basis: "per lot", rate: 300, lot_size: 250_000, minimum: 5 }),
      stage("reel", { loss: 0.01, regain_out: 0.15, basis: "per skein", rate: 0.02, minimum: 100 }),
      stage("pack", { regain_out: 0.14, minimum: 40_000 }),
      stage("insure", { basis: "percent", rate: 0.012, regain_out: 0.17, currency_rate: 0.9 }),
    ];
    const fields = ["loss", "regain_out", "by_product", "rate"] as const;
    for (const direction of ["made", "needed"] as const) {
      const costOf = (price: number, stages: readonly PricedStage[]): number => {
        const last = routeCost(quantity, stages, direction, price, 0.12, 0.01).slice(-1)[0]!;
        return last.costSoFar.div(last.massOut).toNumber();
      };
      const spreads = route.map((one) =>
        spread(
          one.stage,
          Object.fromEntries(
            fields
              .filter((field) => one[field] !== undefined && (one[field] !== 0 || field === "loss"))
              .map((field) => [field, 0.001]),
          ),
        ),
      );
      const [, ...parts] = costSpread(quantity, route, spreads, direction, 4.2, 0.25, 0.12, 0.01);
      const halfOf = (input: string): number => {
        const found = parts.find((part) => part.input === input)!;
        return (found.high - found.low) / 2;
      };
      expectClose(halfOf("start price"), Math.abs(costOf(4.45, route) - costOf(3.95, route)) / 2, 1e-4);
      route.forEach((one, place) => {
        for (const field of fields) {
          if (spreads[place]![field] === 0) continue;
          const moved = (by: number) =>
            route.map((other, index) => (index === place ? { ...other, [field]: (other[field] ?? 0) + by } : other));
          // Lots are whole: a step between them is no slope.
          const by = 1e-4;
          const slope = (costOf(4.2, moved(by)) - costOf(4.2, moved(-by))) / (2 * by);
          const words = { loss: "loss", regain_out: "regain out", by_product: "by-product", rate: "rate" }[field];
          expect(Math.abs(halfOf(`${one.stage}: ${words}`) - Math.abs(0.001 * slope))).toBeLessThan(2e-6);
        }
      });
    }
  });

  test("for a price over a yield, relative spreads add as squares (rule of quotients)", () => {
    const [cost] = costSpread(
      10,
      [stage("scour", { loss: 0.4 })],
      [spread("scour", { loss: 0.03 })],
      "needed",
      6,
      0.3,
      0,
      undefined,
    );
    const { low, high } = cost as NonNullable<typeof cost>;
    expect((high - low) / 2 / 10).toBeCloseTo(Math.hypot(0.3 / 6, 0.03 / 0.6), 12);
  });

  test("a minimum that holds has no slope, and nothing uncertain is a spread of nothing", () => {
    const held = [stage("spin", { basis: "per out", rate: 1, minimum: 900 })];
    expect(costSpread(100, held, [spread("spin", { rate: 0.2 })], "made", 5, 0, 0, undefined)).toEqual([
      { input: "cost per unit out", low: 14, expected: 14, high: 14, part: 0 },
      { input: "spin: rate", low: 14, expected: 14, high: 14, part: 0 },
    ]);
  });

  test("stages of one name follow each other in both tables, whatever their spaces and capitals", () => {
    const route = [stage("Card ", { loss: 0.1 }), stage("spin", {}), stage("card", { loss: 0.2 })];
    const [cost, wide, narrow] = costSpread(
      100,
      route,
      [spread("card", { loss: 0.01 }), spread(" CARD", { loss: 0.02 })],
      ...(["made", 5, 0, 0, undefined] as const),
    );
    // 5 over 0.9 × 0.8; of a quotient the relative spreads are 0.01/0.9 and 0.02/0.8.
    const expected = 5 / 0.72;
    expectClose(cost!.expected, expected, 1e-12);
    expect([wide!.input, narrow!.input]).toEqual([" CARD: loss", "card: loss"]);
    expectClose(wide!.high - expected, (expected * 0.02) / 0.8, 1e-9);
    expectClose(expected - narrow!.low, (expected * 0.01) / 0.9, 1e-9);
    expectClose(wide!.part, 0.025 ** 2 / (0.025 ** 2 + (0.01 / 0.9) ** 2), 1e-9);
  });

  test("a spread of the start price is money and not more than the price", () => {
    const of = (startSpread: number) => () =>
      costSpread(100, [stage("spin", {})], [], "made", 4, startSpread, 0, undefined);
    expect(of(4)()[1]).toEqual({ input: "start price", low: 0, expected: 4, high: 8, part: 1 });
    expect(of(0)()).toHaveLength(1);
    expect(refusalOf(of(8))).toBe("#VALUE! start_spread is 8; above start_price 4; it is money, 8% of 4 is 0.32");
  });

  test("a stage that is none, or whose output is known, is refused", () => {
    const refused = (stages: PricedStage[], spreads: StageSpread[]) =>
      refusalOf(() => costSpread(100, stages, spreads, "made", 5, 0, 0, undefined));
    expect(refused([stage("spin", {})], [spread("spinn", {})])).toContain('spreads row 1, stage, is "spinn"');
    expect(refused([stage("spin", {})], [spread("spin", {}), spread("spin", {})])).toContain(
      "must be a stage of stages, once",
    );
    expect(refused([stage("spin", {})], [spread("x".repeat(30), {})])).toContain(`"${"x".repeat(24)}"; must be`);
    expect(refused([stage("card", {}), stage("spin", { actual_out: 90 })], [])).toBe(
      "#VALUE! stages row 2, actual out, is 90; what is known has no spread; leave it blank",
    );
  });
});
