import { Decimal, ZERO } from "./money";
import { refuse } from "./refusal";

export type TierMode = "all units" | "incremental" | "next break";

/** The first break is 0, the breaks rise, and every break has its rate. */
export function checkBreaks(breaks: readonly number[], rates: readonly number[]): void {
  if (breaks[0] !== 0) refuse("breaks item 1", String(breaks[0]), "the first break must be 0");
  if (rates.length !== breaks.length) refuse("rates", `${rates.length} items long`, `must have ${breaks.length}`);
  breaks.forEach((value, index) => {
    const before = breaks[index - 1];
    if (before !== undefined && value <= before) {
      refuse(`breaks item ${index + 1}`, String(value), `must be above the ${before} before it`);
    }
  });
}

/** What a quantity costs at rates that change at the breaks. */
export function tieredCost(
  quantity: number,
  breaks: readonly number[],
  rates: readonly number[],
  mode: TierMode,
): Decimal {
  let cost = ZERO;
  breaks.forEach((from, index) => {
    if (quantity < from) return;
    const rate = rates[index] as number;
    if (mode !== "incremental") cost = new Decimal(quantity).times(rate);
    else
      cost = cost.plus(
        Decimal.min(quantity, breaks[index + 1] ?? quantity)
          .minus(from)
          .times(rate),
      );
  });
  if (mode !== "next break") return cost;
  const next = breaks.findIndex((from) => from > quantity);
  return next < 0 ? cost : Decimal.min(cost, new Decimal(breaks[next] as number).times(rates[next] as number));
}
