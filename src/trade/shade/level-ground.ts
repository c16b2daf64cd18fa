import { solveInPlace } from "../solvers/linear-equations";
import type { ShadeObjective } from "./shade-objective";
import { AT_LIMIT, costOf, errorOf, mixed, pullsAt, type Guess } from "./shade-refinement";

/** Newton's steps to level ground, and what a share moves by to see how the slope bends. */
const MOST_LEVELLINGS = 16;
const BEND = 1e-4;
/** What the error may seem to have risen by, relative to it, where it stands still. */
const SAME_ERROR = 1e-9;

/**
 * From where a search ended to where the slope is nothing, among the shares that no limit holds: Newton's steps, each as
 * far as the limits let it go. Comparing errors cannot tell places closer than the root of their last digit, and that
 * digit is another in another runtime; the slope tells them to all digits. With costs, what a share costs is added to the
 * error.
 */
export function levelled(
  objective: ShadeObjective,
  columns: readonly Float64Array[],
  start: Guess,
  least: number,
  most?: ArrayLike<number>,
  costs?: ArrayLike<number>,
): Guess {
  const shares = start.shares.slice();
  const blend = objective.at(mixed(columns, shares, objective.room), true);
  const pulls = new Float64Array(columns.length);
  const mostOf = (index: number): number => (most ? most[index]! : 1);
  let moving: string | undefined;
  let bends: Float64Array[] = [];
  let last = Infinity;
  for (let round = 0; round < MOST_LEVELLINGS; round++) {
    const free = Array.from(shares.keys())
      .filter((index) => shares[index]! > least + AT_LIMIT && shares[index]! < mostOf(index) - AT_LIMIT)
      .sort((a, b) => shares[b]! - shares[a]!);
    const [giver = 0, ...takers] = free;
    const shift = (taker: number, by: number): void => {
      shares[taker]! += by;
      shares[giver]! -= by;
    };
    const slopes = (): Float64Array => {
      blend.become(mixed(columns, shares, objective.room));
      pullsAt(blend, columns, pulls);
      const pullOf = (index: number): number => pulls[index]! - (costs ? costs[index]! / 2 : 0);
      return Float64Array.from(takers, (taker) => pullOf(taker) - pullOf(giver));
    };
    // After a step as small as these the ground bends as it did.
    if (last > BEND || moving !== free.join()) {
      moving = free.join();
      bends = takers.map((taker) => {
        shift(taker, BEND);
        const beyond = slopes();
        shift(taker, -2 * BEND);
        const before = slopes();
        shift(taker, BEND);
        return before.map((slope, index) => (slope - beyond[index]!) / (2 * BEND));
      });
    }
    const here = slopes();
    const steps = here.slice();
    const rows = bends.map((bend) => bend.slice());
    if (!solveInPlace(rows, steps)) break;
    const gain = steps.reduce((sum, step, index) => sum + step * here[index]!, 0);
    // Where the ground bends the other way, level is above.
    const way = gain < 0 ? -1 : 1;
    const moves = [-steps.reduce((sum, step) => sum + step, 0), ...steps].map((step) => way * step);
    const roomOf = (index: number, move: number): number =>
      (move < 0 ? shares[index]! - least : mostOf(index) - shares[index]!) / Math.abs(move);
    const part = Math.min(1, ...free.map((index, place) => roomOf(index, moves[place]!)));
    takers.forEach((taker, place) => shift(taker, part * moves[place + 1]!));
    const size = steps.reduce((most, step) => Math.max(most, Math.abs(step)), 0);
    // What no longer halves is the last digits moving.
    if (last < BEND && size >= last / 2) break;
    last = size;
  }
  const error = errorOf(objective, columns, shares);
  const before = start.error + costOf(start.shares, costs);
  return error + costOf(shares, costs) <= before + SAME_ERROR * Math.abs(before) ? { shares, error } : start;
}
