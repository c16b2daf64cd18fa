import { asShown, Decimal } from "../money";
import { refuse } from "../refusal";

/** A fee as a share of a value, with a floor and a cap; not rounded. */
export function fee(value: number, rate: number, minimum: number, maximum: number | undefined): Decimal {
  const atLeast = Decimal.max(new Decimal(value).times(rate), minimum);
  if (maximum === undefined) return atLeast;
  if (asShown(maximum).lt(asShown(minimum)))
    refuse("maximum", String(maximum), `must not be below minimum, which is ${minimum}`);
  return Decimal.min(atLeast, maximum);
}
