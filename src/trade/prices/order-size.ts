import { asShown, Decimal } from "../money";
import { proportion } from "../proportion";
import { PriceList } from "./tiers";

/** One quantity that could be ordered to cover a need. */
export interface OrderChoice {
  readonly order: string;
  readonly quantity: number;
  /** None when so small an order is not taken. */
  readonly costs: OrderCosts | undefined;
}

export interface OrderCosts {
  readonly cost: Decimal;
  readonly surplus: Decimal;
  readonly holding: Decimal;
  /** Per unit of the need: its part of the order's cost and all of the holding. */
  readonly perUnit: Decimal;
}

/** The need itself, the least order taken, and each break that is above both; an order below the need covers nothing. */
export function orderChoices(
  needed: number,
  givenBreaks: readonly number[],
  rates: readonly number[],
  holding: number,
  leastTaken: number,
): OrderChoice[] {
  // Compared as their cells show them: a need of 0.7 + 0.1 reaches a minimum of 0.8.
  const [need, minimum] = [asShown(needed).toNumber(), asShown(leastTaken).toNumber()];
  const breaks = givenBreaks.map((from) => asShown(from).toNumber());
  const prices = new PriceList(breaks, rates);
  const choice = (order: string, quantity: number): OrderChoice => ({
    order,
    quantity,
    costs: costsOf(quantity, need, prices.cost(quantity, "all units"), holding),
  });
  const least = Math.max(need, minimum);
  const smallest: OrderChoice[] =
    minimum > need
      ? [{ order: "need (below the minimum)", quantity: need, costs: undefined }, choice("minimum", minimum)]
      : [choice("need", need)];
  return smallest.concat(breaks.filter((from) => from > least).map((from) => choice(`break at ${from}`, from)));
}

function costsOf(quantity: number, need: number, cost: Decimal, holding: number): OrderCosts {
  const surplus = new Decimal(quantity).minus(need);
  const costOfSurplus = proportion(cost, surplus, new Decimal(quantity));
  const held = costOfSurplus.times(holding);
  // What the surplus cost stays in stock and is not the need's to bear; what holding it costs is.
  return { cost, surplus, holding: held, perUnit: cost.minus(costOfSurplus).plus(held).div(need) };
}
