import { dividedByZero } from "../refusal";
import { apportion } from "../largest-remainder";
import { Decimal, quotient, sum } from "../money";

/**
 * Composition as a label states it, from the dry masses that an analysis found: P ∝ d·(1 + a + b), a the agreed
 * allowance, b the loss of mass in the pre-treatment. Source: EU-1007-2011, Annex VIII. With decimals (of the
 * percentage) the shares foot to 100 % by largest remainder, where plain rounding may give 99.9 or 100.1.
 */
export function labelShares(
  dryMasses: readonly number[],
  allowances: readonly number[],
  losses: readonly number[] | undefined,
  decimals: number | undefined,
): number[] {
  const weights = dryMasses.map((mass, index) =>
    new Decimal(1)
      .plus(allowances[index] as number)
      .plus(losses ? (losses[index] as number) : 0)
      .times(mass),
  );
  const total = sum(weights);
  if (total.isZero()) dividedByZero("dry_masses", "0 in all", "must not sum to 0");
  if (decimals === undefined) return weights.map((weight) => quotient(weight, total));
  return apportion(1, weights, decimals + 2).map(Number);
}
