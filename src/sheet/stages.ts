import type { QuoteBasis } from "../trade/prices/quotes";
import type { ChargeBasis, PricedStage } from "../trade/prices/route-cost";
import { expectLosses } from "../trade/route/plausible-losses";
import type { Direction, Stage } from "../trade/route/route";
import type { TableColumns } from "./arguments";
import { anyNumber, blankIs, blankOrZero, loss, notNegative, positive, regain, share, text, word } from "./kinds";
import { vocabulary, wordsFor } from "./words";

/** Which end of the route the quantity stands at. */
export const routeDirection = word<Direction>(wordsFor("direction", "needed", "made"));

/** Stages that leave something to sell. */
export function expectRoute(stages: readonly Stage[]): void {
  expectLosses(
    "stages",
    stages.map(({ loss: lost, by_product }) => lost + by_product),
  );
}

/** What every contractor charges by, and what may be meant by a kilogram. */
const BY_THE_BILL = [
  ["per in", "per in", "per kg in"],
  ["per out", "per out", "per kg out"],
  ["per lot", "per lot", "per batch"],
] as const;
const OF_WHICH_MASS = { "per kg": "per in or per out" };

export const quoteBasis = word<QuoteBasis>(vocabulary("basis", BY_THE_BILL, OF_WHICH_MASS));
const chargeBasis = word<ChargeBasis>(
  vocabulary(
    "basis",
    [...BY_THE_BILL, ["per skein", "per skein"], ["per hour", "per hour"], ["percent", "percent", "%"]],
    OF_WHICH_MASS,
  ),
);

/** The columns of a route. */
export const STAGE: TableColumns<Stage> = { stage: text, loss, regain_out: regain, by_product: blankIs(share, 0) };

/** The same with what each stage charges. */
export const PRICED_STAGE: TableColumns<PricedStage> = {
  ...STAGE,
  by_product_price: blankIs<number | undefined>(anyNumber, undefined),
  basis: blankOrZero(chargeBasis, undefined),
  rate: blankIs<number | undefined>(notNegative, undefined),
  minimum: blankIs(notNegative, 0),
  fixed: blankIs(notNegative, 0),
  actual_out: blankOrZero(positive, undefined),
  hours: blankOrZero(positive, undefined),
  lot_size: blankOrZero(positive, undefined),
  currency_rate: blankOrZero(positive, undefined),
};
