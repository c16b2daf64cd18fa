import type { Decimal } from "../money";
import { refuse } from "../refusal";
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
  if (loss.lt(LEAST_LOSS)) {
    refuse(
      "mass_out",
      String(massOut),
      `over half as much again as mass_in ${massIn}, both dry; swapped, or another unit?`,
    );
  }
  if (loss.gt(MOST_LOSS) && massOut > 0) {
    refuse("mass_out", String(massOut), `a loss of ${percentOf(loss)}% of mass_in ${massIn}; are both in one unit?`);
  }
  return loss;
}

function percentOf(share: Decimal): number {
  return Number((share.toNumber() * 100).toPrecision(4));
}
