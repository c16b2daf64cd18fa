import { Decimal } from "../money";
import { impossible } from "../refusal";

/**
 * Premium on cost and freight with an uplift; not rounded. Circular: the insured value holds its own premium,
 * I = (1 + u)·(C + F + P) and P = r·I, so P = (1 + u)·r·(C + F) / (1 - (1 + u)·r).
 */
export function premium(costAndFreight: number, rate: number, uplift: number, circular: boolean): Decimal {
  const onCost = new Decimal(1).plus(uplift).times(rate);
  if (!circular) return onCost.times(costAndFreight);
  const left = new Decimal(1).minus(onCost);
  if (left.lte(0)) impossible("rate", String(rate), "with the uplift it must stay below 1 when circular");
  return onCost.times(costAndFreight).div(left);
}
