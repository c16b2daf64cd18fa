import { expectWithin, figure } from "../plausible";

/** What the longest route from the dirtiest fibre leaves; common practice, no source. Yields among losses leave less. */
const LEAST_LEFT = 0.05;
const ROUNDING = 1e-12;

/** Losses in process order, each a share of what goes into its stage. */
export function expectLosses(argument: string, losses: readonly number[]): void {
  const left = losses.reduce((sofar, loss) => sofar * (1 - loss), 1);
  const came = (): string => `all but ${figure(left * 100)}% together`;
  const allowed = "are these yields? a loss is 1 - yield: 0.03 for a yield of 0.97";
  expectWithin(left, LEAST_LEFT + ROUNDING, Infinity, argument, came, allowed);
}
