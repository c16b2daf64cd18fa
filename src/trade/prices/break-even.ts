import { asShown } from "../money";
import { absent, dividedByZero } from "../refusal";
import { wholeUp } from "../whole";

/** Whole units that cover the fixed costs and the profit wanted: (fixed + profit) / (price - variable), rounded up. */
export function breakEvenUnits(fixed: number, price: number, variable: number, profit: number): number {
  // The subtraction must be decimal: 0.3 - 0.2 is under 0.1 in binary, and one unit too many would be the answer.
  const contribution = asShown(price).minus(asShown(variable));
  if (contribution.isZero()) dividedByZero("variable", `${variable}, the same as price`, "must be below price");
  if (contribution.isNegative()) absent("variable", `${variable}, above price ${price}`, "no quantity breaks even");
  return wholeUp(asShown(fixed).plus(asShown(profit)), contribution).toNumber();
}
