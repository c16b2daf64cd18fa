import { Decimal } from "../money";
import { refuse } from "../refusal";

/** How an ad valorem and a specific duty combine: both, or the higher or the lower of the two. */
export type DutyRule = "sum" | "higher" | "lower";

/** Customs duty on one line; not rounded. */
export function duty(
  value: number,
  quantity: number,
  adValorem: number,
  specific: number | undefined,
  rule: DutyRule,
): Decimal {
  const byValue = new Decimal(value).times(adValorem);
  if (specific === undefined) {
    // The lower of a duty and nothing would be nothing: ask rather than answer 0.
    if (rule !== "sum") refuse("specific", "blank", `rule "${rule}" compares two duties; give it`);
    return byValue;
  }
  const byQuantity = new Decimal(quantity).times(specific);
  if (rule === "sum") return byValue.plus(byQuantity);
  return rule === "higher" ? Decimal.max(byValue, byQuantity) : Decimal.min(byValue, byQuantity);
}
