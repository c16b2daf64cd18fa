import type { ChargeBasis, PricedStage } from "../trade/prices/route-cost";
import type { Direction, Stage } from "../trade/route/route";
import type { TableColumns } from "./arguments";
import { anyNumber, blankIs, loss, notNegative, positive, regain, share, text, word, type Kind } from "./kinds";
import { wordsFor } from "./words";

/** Which end of the route the quantity stands at. */
export const routeDirection = word<Direction>(wordsFor("direction", "needed", "made"));

const chargeBasis = word<ChargeBasis>(
  wordsFor("basis", "per in", "per out", "per lot", "per skein", "per hour", "percent"),
);

/** The columns of a route. */
export const STAGE: TableColumns<Stage> = { stage: text, loss, regain_out: regain, by_product: blankIs(share, 0) };

/** The same with what each stage charges. */
export const PRICED_STAGE: TableColumns<PricedStage> = {
  ...STAGE,
  by_product_price: blankIs<number | undefined>(anyNumber, undefined),
  basis: blankOrZero(chargeBasis),
  rate: blankIs<number | undefined>(notNegative, undefined),
  minimum: blankIs(notNegative, 0),
  fixed: blankIs(notNegative, 0),
  actual_out: blankOrZero(positive),
  hours: blankOrZero(positive),
};

/** A column where 0 can only be a blank: desktop Excel hands blank cells of a range over as 0. */
function blankOrZero<T>(kind: Kind<T>): Kind<T | undefined> {
  return blankIs<T | undefined>((cell, argument) => (cell === 0 ? undefined : kind(cell, argument)), undefined);
}
