import { expectWithin, figure } from "../plausible";

/** What the longest route from the dirtiest fibre leaves; common practice, no source. Yields among losses leave less. */
const LEAST_LEFT = 0.05;
const ROUNDING = 1e-12;
/** A million millionth, or as many times as much: no chain of mills leaves so little, and none makes so much. */
const MOST_TIMES = 1e12;

/** Losses in process order, each a share of what goes into its stage. */
export function expectLosses(argument: string, losses: readonly number[]): void {
  const left = losses.reduce((sofar, loss) => sofar * (1 - loss), 1);
  const came = (): string => `all but ${figure(left * 100)}% together`;
  const allowed = "are these yields? a loss is 1 - yield: 0.03 for a yield of 0.97";
  expectWithin(left, LEAST_LEFT + ROUNDING, MOST_TIMES, argument, came, allowed);
}

/** Losses on the output, by what all of them leave of 1. */
export function expectLossesOnOutput(argument: string, losses: readonly number[]): void {
  // What takes up more than there is has no such number, and is refused by its place.
  const left = losses.reduce((sofar, loss) => (loss > -1 ? sofar / (1 + loss) : NaN), 1);
  const came = (): string => `such that 1 becomes ${figure(left)} in all`;
  expectWithin(left, 1 / MOST_TIMES, MOST_TIMES, argument, came, "give each stage's loss once");
}
