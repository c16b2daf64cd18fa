/** What may become of the counts, and which of two lacks more of its exact share. */
export interface HandingOut {
  readonly mayGain: (index: number) => boolean;
  readonly mayLose: (index: number) => boolean;
  readonly lacksMore: (one: number, other: number) => boolean;
}

/**
 * Brings whole counts to a sum, in place: what is missing goes one by one to the count that lacks most, what is too
 * much comes from the one that lacks least, the first of equals first. Undefined where the limits leave no such counts.
 * For many counts without limits largest-remainder.ts does the same by sorting once.
 */
export function handedOut(
  units: number,
  counts: number[],
  { mayGain, mayLose, lacksMore }: HandingOut,
): number[] | undefined {
  for (let left = units - counts.reduce((sum, count) => sum + count, 0); left !== 0; left -= Math.sign(left)) {
    const gains = left > 0;
    let chosen = -1;
    for (let index = 0; index < counts.length; index++) {
      if (!(gains ? mayGain(index) : mayLose(index))) continue;
      if (chosen < 0 || (gains ? lacksMore(index, chosen) : lacksMore(chosen, index))) chosen = index;
    }
    if (chosen < 0) return undefined;
    counts[chosen]! += Math.sign(left);
  }
  return counts;
}
