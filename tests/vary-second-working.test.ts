import { expect, test } from "vitest";
import { evaluate } from "../src/recalculate/engine";
import type { Figures, Limit } from "../src/recalculate/figures";
import { rangesInText } from "../src/recalculate/ranges";
import { blockOf, blocksIn, planFor } from "../src/recalculate/sampling";
import { toldOf, type Told } from "../src/recalculate/variation";
import { settleVariation, workVariation } from "../src/recalculate/vary-tasks";
import { bundledFunctions } from "./support/functions";
import { partsOf, rows, written } from "./support/workbooks";

/** A route of two stages in cells; its price, a regain, two losses and a rate have ranges. */
const BOOK = rows(
  [6.5, 0.15],
  ['="card"', 0.03, 0.1825, 0.01, 2, '="per in"', 0.95, 0, 25],
  ['="spin"', 0.02, 0.1825, 0, 0, '="per out"', 5.8, 350, 40],
  ['=INDEX(YARN.ROUTECOST(100,A2:I3,"made",A1,B1),4,7)'],
);

const RANGES = {
  price: ["Cost!A1", 6, 6.5, 7.4],
  regain: ["Cost!B1", 0.13, 0.15, 0.18],
  cardLoss: ["Cost!B2", 0.02, 0.03, 0.05],
  spinLoss: ["Cost!B3", 0.01, 0.02, 0.04],
  rate: ["Cost!G3", 5.5, 5.8, 6.5],
} as const;

type Name = keyof typeof RANGES;
type Values = Record<Name, number>;

/** Cost of a kilogram spun, worked again from the rule of the function in plain numbers. */
function spun({ price, regain, cardLoss, spinLoss, rate }: Values): number {
  const cents = (amount: number) => Math.round(100 * amount) / 100;
  const dry = 100 / (1 + regain);
  const material = cents(100 * price);
  const carding = cents(0.95 * 100 + 25);
  const noils = cents(0.01 * dry * 1.1825 * 2);
  const yarn = dry * (1 - cardLoss - 0.01) * (1 - spinLoss) * 1.1825;
  const spinning = cents(Math.max(rate * yarn, 350) + 40);
  return (material + carding - noils + spinning) / yarn;
}

/** The minimal standard generator: S. K. Park, K. W. Miller, Communications of the ACM 31 (1988). */
function random(seed: number): () => number {
  let state = seed;
  return () => (state = (16807 * state) % 2147483647) / 2147483647;
}

/** A value of a triangle: of two even draws, one moves the place between low or high and the top of the other. */
function triangle(next: () => number, low: number, likely: number, high: number): number {
  // The larger of two even numbers has a density that rises in a straight line from 0.
  const rising = Math.max(next(), next());
  return next() * (high - low) < likely - low ? low + rising * (likely - low) : high - rising * (high - likely);
}

/** The figures of Cost!A4 of a workbook with this one sheet. */
function varied(sheet: string, ranges: readonly string[], runs: number, ...limits: Limit[]): Told {
  const file = written("route.xlsx", partsOf({ Cost: sheet }));
  const read = rangesInText(["input,low,likely,high,shape", ...ranges].join("\n"), "ranges.csv");
  const answer = settleVariation({ file, called: "route.xlsx", ranges: read, of: "Cost!A4", also: [] });
  if ("error" in answer) throw new Error(answer.error);
  const setting = answer.result;
  const plan = planFor(runs, 1);
  const shows = new Map(
    blocksIn(plan).map((block) => {
      const shown = workVariation({ setting, points: blockOf(plan, block, setting.inputs) });
      return [block, "result" in shown ? shown.result : []] as const;
    }),
  );
  return toldOf(setting, plan, shows, new Map([[0, limits]]))[0] as Told;
}

test("the cost of a route is known to what a second working, drawn 100,000 times otherwise, knows it to", () => {
  const lines = Object.values(RANGES).map((range) => range.join(","));
  const told = varied(BOOK, lines, 1000, { relation: "<", value: 14.5 });
  const { mean, deviation, percentiles, chances, parts } = told.figures as Figures;

  // Run by run the workbook gives what the second working gives.
  for (const { inputs, value } of told.sound.slice(0, 100)) {
    const names = Object.keys(RANGES) as Name[];
    const values = Object.fromEntries(names.map((name, index) => [name, inputs[index]])) as Values;
    expect(value / spun(values)).toBeCloseTo(1, 12);
  }

  const draws = 100_000;
  const next = random(20261127);
  const drawn = Array.from({ length: draws }, () => {
    const values = {} as Values;
    for (const name of Object.keys(RANGES) as Name[]) {
      const [, low, likely, high] = RANGES[name];
      values[name] = triangle(next, low, likely, high);
    }
    return { values, cost: spun(values) };
  });
  const costs = drawn.map(({ cost }) => cost).sort((a, b) => a - b);
  const truth = costs.reduce((sum, cost) => sum + cost, 0) / draws;
  const spread = Math.sqrt(costs.reduce((sum, cost) => sum + (cost - truth) ** 2, 0) / draws);

  // The standard errors of a plain sample stand beside those that are told (of a large sample, from memory).
  const near = (found: { value: number; error: number }, other: number, error: number) =>
    expect(Math.abs(found.value - other)).toBeLessThan(4 * Math.hypot(found.error, error));
  near(mean, truth, spread / Math.sqrt(draws));
  near(deviation, spread, spread / Math.sqrt(2 * draws));
  for (const [percent, figure] of percentiles) {
    const at = (share: number) => costs[Math.round(share * draws)] as number;
    const share = percent / 100;
    const step = Math.sqrt((share * (1 - share)) / draws);
    near(figure, at(share), (at(share + step) - at(share - step)) / 2);
  }
  const below = costs.filter((cost) => cost < 14.5).length / draws;
  expect(below).toBeGreaterThan(0.1);
  expect(below).toBeLessThan(0.9);
  near(chances[0] as never, below, Math.sqrt((below * (1 - below)) / draws));
  // The cost is nearly straight in every input: the part of each is its squared correlation.
  (Object.keys(RANGES) as Name[]).forEach((name, index) => {
    const centre = drawn.reduce((sum, { values }) => sum + values[name], 0) / draws;
    const [together, own] = drawn.reduce(
      ([both, alone], { values, cost }) => [
        both + (values[name] - centre) * (cost - truth),
        alone + (values[name] - centre) ** 2,
      ],
      [0, 0],
    );
    const part = together ** 2 / own / (spread ** 2 * draws);
    expect(Math.abs((parts[index]?.value as number) - part)).toBeLessThan(0.02);
  });
});

test("small spreads through a pure route are those of the propagation rule, as COSTSPREAD works them out", () => {
  // So large a mass that cents do not count; standard deviations, which a normal by 5 and 95 % gives here.
  const spreads = { price: 0.02, cardLoss: 0.002, spinLoss: 0.003, spinRate: 0.03 };
  const stages = '{"card",0.03,0.1825,0.01,2,"per in",0.95,0,25;"spin",0.02,0.1825,0,0,"per out",5.8,0,40}';
  const off = `{"card",${spreads.cardLoss},0,0,0;"spin",${spreads.spinLoss},0,0,${spreads.spinRate}}`;
  const formula = `=YARN.COSTSPREAD(100000,${stages},${off},"made",6.5,${spreads.price},0.15)`;
  const [, whole, ...inputs] = evaluate([formula], bundledFunctions())[0] as [string, number, number, number, number][];
  const [, low, expected, high] = whole as [string, number, number, number, number];

  const sheet = rows(
    [6.5, 0.15],
    ['="card"', 0.03, 0.1825, 0.01, 2, '="per in"', 0.95, 0, 25],
    ['="spin"', 0.02, 0.1825, 0, 0, '="per out"', 5.8, 0, 40],
    ['=INDEX(YARN.ROUTECOST(100000,A2:I3,"made",A1,B1),4,7)'],
  );
  const at95 = 1.6448536269514722;
  const range = (cell: string, middle: number, deviation: number) =>
    `Cost!${cell},${middle - at95 * deviation},,${middle + at95 * deviation},normal`;
  const { figures } = varied(
    sheet,
    [
      range("A1", 6.5, spreads.price),
      range("B2", 0.03, spreads.cardLoss),
      range("B3", 0.02, spreads.spinLoss),
      range("G3", 5.8, spreads.spinRate),
    ],
    1000,
  );
  const { mean, deviation, parts } = figures as Figures;
  expect(Math.abs(deviation.value - (high - low) / 2)).toBeLessThan(4 * deviation.error + 1e-3 * (high - low));
  expect(Math.abs(mean.value - expected)).toBeLessThan(0.02 * (high - low));
  const named = (name: RegExp) => inputs.find(([input]) => name.test(input))?.[4] as number;
  [/price/i, /card.*loss/i, /spin.*loss/i, /spin.*rate/i].forEach((name, index) => {
    expect(Math.abs((parts[index]?.value as number) - named(name)), String(name)).toBeLessThan(0.02);
  });
});
