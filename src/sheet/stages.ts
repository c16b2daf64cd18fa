import type { ChargeBasis, PricedStage } from "../trade/prices/route-cost";
import { expectLosses } from "../trade/route/plausible-losses";
import type { Direction, Stage } from "../trade/route/route";
import type { TableColumns } from "./arguments";
import { anyNumber, blankIs, blankOrZero, loss, notNegative, positive, regain, share, text, word } from "./kinds";
import { wordsFor } from "./words";

/** Which end of the route the quantity stands at. */
export const routeDirection = word<Direction>(wordsFor("direction", "needed", "made"));

/** Stages that leave something to sell. */
export function expectRoute(stages: readonly Stage[]): void {
  expectLosses(
    "stages",
    stages.map(({ loss: lost, by_product }) => lost + by_product),
  );
}

const chargeBasis = word<ChargeBasis>(
  wordsFor("basis", "per in", "per out", "per lot", "per skein", "per hour", "percent"),
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
