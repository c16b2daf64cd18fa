import type { Decimal } from "../money";
import { expectWithin } from "../plausible";
import { wet } from "./route";

/** No oil, dye or finish adds so much, and no stage that delivers anything loses so much; common practice, no source. */
const LEAST_LOSS = -0.5;
const MOST_LOSS = 0.95;

/** Share of the dry input that is gone: neither in the output nor in the by-product. Negative when something was taken up. */
export function stageLoss(
  massIn: number,
  regainIn: number,
  massOut: number,
  regainOut: number,
  byProductMass: number,
  byProductRegain: number | undefined,
): Decimal {
  // The by-product lies in the same room as the output, so without a figure of its own it holds the same moisture.
  const [start, end, beside] = [wet(regainIn), wet(regainOut), wet(byProductRegain ?? regainOut)];
  // Over one denominator: dry masses divided one by one leave a crumb where the loss is exactly 0.
  const input = end.times(beside).times(massIn);
  const output = start.times(beside).times(massOut);
  const byProduct = start.times(end).times(byProductMass);
  const loss = input.minus(output).minus(byProduct).div(input);
  const allowed = (shown: number): string => `a loss of ${shown} beside mass_in ${massIn}; swapped, or another unit?`;
  expectWithin(loss.toNumber(), LEAST_LOSS, massOut > 0 ? MOST_LOSS : 1, "mass_out", massOut, allowed);
  return loss;
}
