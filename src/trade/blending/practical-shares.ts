import { asShown, type Decimal, sum } from "../money";
import { handedOut } from "../whole-counts";
import { refuse } from "../refusal";

/**
 * Shares as whole numbers of steps that sum to 1 exactly, as near to the wanted shares as whole steps can be (least
 * sum of squares, which without the rule below is the largest remainder). What is wanted at all keeps one step.
 */
export function practicalShares(shares: readonly number[], step: number): number[] {
  const steps = stepsInWhole(step);
  const shown = shares.map((share) => asShown(share));
  const total = sum(shown);
  // Shares that were each rounded to the step already may miss 1 by half a step each; more is a missing component.
  const wanted = shares.filter((share) => share > 0).length;
  if (
    total
      .minus(1)
      .abs()
      .gt((wanted * step) / 2 + 1e-9)
  ) {
    refuse("shares", `${total.toSignificantDigits(9).toString()} in all`, "must sum to 1 (100%)");
  }
  if (wanted > steps) refuse("step", String(step), `is too coarse for ${wanted} shares; take a finer one`);

  const exact = shown.map((share) => share.times(steps).div(total));
  const given = exact.map((part) => (part.isZero() ? 0 : Math.max(1, part.floor().toNumber())));
  // Cut well above the rounding of the division, so that equal remainders compare as equal and the first goes first.
  const lack = (index: number) => (exact[index] as Decimal).minus(given[index] as number).toDecimalPlaces(20);
  handedOut(steps, given, {
    mayGain: (index) => given[index] !== 0,
    mayLose: (index) => (given[index] as number) > 1,
    lacksMore: (one, other) => lack(one).gt(lack(other)),
  });
  return given.map((part) => part / steps);
}

/** No scale resolves a finer part of a batch, and whole steps must stay countable. */
const FINEST_STEP = 1e-6;

/** How many steps make a whole; refuses a step that does not go into it. */
export function stepsInWhole(step: number): number {
  const steps = Math.round(1 / step);
  if (step < FINEST_STEP) refuse("step", String(step), `must be ${FINEST_STEP.toFixed(6)} or more`);
  if (Math.abs(steps * step - 1) > 1e-9)
    refuse("step", String(step), "must go into 1 a whole number of times: 0.01, 0.05");
  return steps;
}
