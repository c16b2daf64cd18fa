import { quotient } from "../money";
import { at, refuse } from "../refusal";
import type { Direction } from "../route/route";
import { wholeUp } from "../whole";
import { routeCost, type PricedStage } from "./route-cost";

/** How far each figure of a stage may be off, to either side. */
export interface StageSpread {
  readonly stage: string;
  readonly loss: number;
  readonly regain_out: number;
  readonly by_product: number;
  readonly rate: number;
}

/** An input that is not known exactly, or the cost itself: what the cost per unit is known to because of it. */
export interface CostSpread {
  readonly input: string;
  readonly low: number;
  readonly expected: number;
  readonly high: number;
  /** Of the variance of the cost. */
  readonly part: number;
}

/** A figure with its slope along one input. */
interface Sloped {
  readonly value: number;
  readonly slope: number;
}

const SPREAD_FIELDS = ["loss", "regain_out", "by_product", "rate"] as const;
type SpreadField = (typeof SPREAD_FIELDS)[number];

/** The input along which slopes are taken: a figure of a stage, or the start price. */
type Input = { readonly stage: number; readonly field: SpreadField } | "start price";

const FIELD_WORDS: Readonly<Record<SpreadField, string>> = {
  loss: "loss",
  regain_out: "regain out",
  by_product: "by-product",
  rate: "rate",
};

/**
 * What the cost per unit out of a route is known to. Deviations that have nothing to do with each other combine as the
 * root of the sum of their squares, each times the slope of the cost along its input; slopes are exact, by the rules of
 * sums, products and quotients. A minimum that holds, and whole lots, have no slope.
 */
export function costSpread(
  quantity: number,
  stages: readonly PricedStage[],
  spreads: readonly StageSpread[],
  direction: Direction,
  startPrice: number,
  startSpread: number,
  regainStart: number,
  skeinMass: number | undefined,
): CostSpread[] {
  stages.forEach(({ actual_out }, index) => {
    if (actual_out === undefined) return;
    refuse(at("stages", index, "actual_out"), String(actual_out), "what is known has no spread; leave it blank");
  });
  if (startSpread > startPrice) {
    refuse("start_spread", String(startSpread), `above start_price ${startPrice}; it is money, 8% of 4 is 0.32`);
  }
  const lines = routeCost(quantity, stages, direction, startPrice, regainStart, skeinMass);
  const last = lines[lines.length - 1] as (typeof lines)[0];
  const expected = quotient(last.costSoFar, last.massOut);
  const off = inputsOff(stages, spreads, startSpread).map(({ input, by, words }) => {
    const cost = costPerUnit(quantity, stages, direction, startPrice, regainStart, skeinMass, input);
    return { words, by: Math.abs(cost.slope * by) };
  });
  const variance = off.reduce((sum, { by }) => sum + by * by, 0);
  const known = (input: string, by: number, part: number): CostSpread => ({
    input,
    low: expected - by,
    expected,
    high: expected + by,
    part,
  });
  const parts = off.map(({ words, by }) => known(words, by, variance === 0 ? 0 : (by * by) / variance));
  parts.sort((a, b) => b.part - a.part);
  return [known("cost per unit out", Math.sqrt(variance), variance === 0 ? 0 : 1), ...parts];
}

interface InputOff {
  readonly input: Input;
  readonly by: number;
  readonly words: string;
}

function inputsOff(stages: readonly PricedStage[], spreads: readonly StageSpread[], startSpread: number): InputOff[] {
  const key = (name: string): string => name.trim().toLowerCase();
  const off: InputOff[] = [];
  if (startSpread > 0) off.push({ input: "start price", by: startSpread, words: "start price" });
  spreads.forEach((spread, index) => {
    const found = stages.map((stage, place) => (key(stage.stage) === key(spread.stage) ? place : -1));
    const places = found.filter((place) => place >= 0);
    // Stages of one name follow each other in both tables.
    const before = spreads.slice(0, index).filter((other) => key(other.stage) === key(spread.stage)).length;
    const stage = places[before];
    if (stage === undefined) {
      refuse(at("spreads", index, "stage"), `"${spread.stage.slice(0, 24)}"`, "must be a stage of stages, once");
    }
    for (const field of SPREAD_FIELDS) {
      if (spread[field] === 0) continue;
      off.push({ input: { stage, field }, by: spread[field], words: `${spread.stage}: ${FIELD_WORDS[field]}` });
    }
  });
  return off;
}

function costPerUnit(
  quantity: number,
  stages: readonly PricedStage[],
  direction: Direction,
  startPrice: number,
  regainStart: number,
  skeinMass: number | undefined,
  input: Input,
): Sloped {
  const figure = (stage: number, field: SpreadField): Sloped => ({
    value: (stages[stage] as PricedStage)[field] ?? 0,
    slope: input !== "start price" && input.stage === stage && input.field === field ? 1 : 0,
  });
  const kept = stages.map((_, stage) => minus(minus(known(1), figure(stage, "loss")), figure(stage, "by_product")));
  const wet = stages.map((_, stage) => plus(known(1), figure(stage, "regain_out")));
  const keptInAll = kept.reduce(times, known(1));
  const last = stages.length - 1;
  const dryOutOfAll = times(keptInAll, wet[last] as Sloped);
  const start = direction === "made" ? known(quantity) : over(known(quantity * (1 + regainStart)), dryOutOfAll);
  let dryIn = times(start, known(1 / (1 + regainStart)));
  let massIn = start;
  let cost = times(start, { value: startPrice, slope: input === "start price" ? 1 : 0 });
  stages.forEach((stage, index) => {
    const [moist, rate] = [wet[index] as Sloped, figure(index, "rate")];
    const massOut = times(times(dryIn, kept[index] as Sloped), moist);
    const exchange = known(stage.currency_rate ?? 1);
    const lots = stage.lot_size === undefined ? 1 : wholeUp(massIn.value, stage.lot_size).toNumber();
    const quantities = {
      "per in": massIn,
      "per out": massOut,
      "per lot": known(lots),
      "per skein": over(massOut, known(skeinMass ?? 1)),
      "per hour": known(stage.hours ?? 0),
      percent: over(cost, exchange),
    };
    const atRate = stage.basis === undefined ? known(0) : times(quantities[stage.basis], rate);
    const charge = plus(atRate.value >= stage.minimum ? atRate : known(stage.minimum), known(lots * stage.fixed));
    const byProduct = times(
      times(dryIn, figure(index, "by_product")),
      times(moist, known(stage.by_product_price ?? 0)),
    );
    cost = plus(cost, times(exchange, minus(charge, byProduct)));
    dryIn = times(dryIn, kept[index] as Sloped);
    massIn = massOut;
  });
  return over(cost, massIn);
}

function known(value: number): Sloped {
  return { value, slope: 0 };
}

function plus(a: Sloped, b: Sloped): Sloped {
  return { value: a.value + b.value, slope: a.slope + b.slope };
}

function minus(a: Sloped, b: Sloped): Sloped {
  return { value: a.value - b.value, slope: a.slope - b.slope };
}

function times(a: Sloped, b: Sloped): Sloped {
  return { value: a.value * b.value, slope: a.slope * b.value + a.value * b.slope };
}

function over(a: Sloped, b: Sloped): Sloped {
  return { value: a.value / b.value, slope: (a.slope * b.value - a.value * b.slope) / (b.value * b.value) };
}
