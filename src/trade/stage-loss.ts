import { Decimal } from "./money";
import { wet } from "./route";

/** Share of the dry input that is gone: neither in the output nor in the by-product. Negative when something was taken up. */
export function stageLoss(
  massIn: number,
  regainIn: number,
  massOut: number,
  regainOut: number,
  byProductMass: number,
  byProductRegain: number | undefined,
): Decimal {
  const dryIn = new Decimal(massIn).div(wet(regainIn));
  const dryOut = new Decimal(massOut).div(wet(regainOut));
  // The by-product lies in the same room as the output, so without a figure of its own it holds the same moisture.
  const byProductDry = new Decimal(byProductMass).div(wet(byProductRegain ?? regainOut));
  return dryIn.minus(dryOut).minus(byProductDry).div(dryIn);
}
