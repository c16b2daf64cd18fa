import type { CountSystem } from "../../tables/count-systems";
import { absent, impossible } from "../refusal";
import { figure } from "../plausible";

/**
 * Folding adds masses a unit of length, never indirect counts (BROOKS: 40s and 20s fold to 13⅓, not 15). In an
 * indirect system the masses are taken against the finest component, as the handbooks do: 60s with 40s is 1 and 1½,
 * and 60 / 2½ is 24 without a rounding.
 */
class Masses {
  private readonly finest: number;
  readonly each: readonly number[];
  readonly all: number;

  constructor(
    counts: readonly number[],
    private readonly system: CountSystem,
    feeds?: readonly number[],
  ) {
    this.finest = system.direct ? 1 : counts.reduce((most, count) => Math.max(most, count), 0);
    this.each = counts.map((count, index) => this.of(count) * (feeds === undefined ? 1 : (feeds[index] as number)));
    this.all = this.each.reduce((sum, mass) => sum + mass, 0);
    if (!Number.isFinite(this.all)) impossible("counts", "beyond any yarn together", "check them");
  }

  of(count: number): number {
    return this.system.direct ? count : this.finest / count;
  }

  countOf(mass: number): number {
    return this.system.direct ? mass : this.finest / mass;
  }
}

/**
 * Count of unlike components folded together. A feed is the length of a component for each unit of length of the
 * yarn before its common take-up; the take-up is a fraction of that length.
 */
export function fold(
  counts: readonly number[],
  system: CountSystem,
  takeUp: number,
  feeds: readonly number[] | undefined,
): number {
  const masses = new Masses(counts, system, feeds);
  return masses.countOf(masses.all / (1 - takeUp));
}

/** Share of the mass that each component makes up. A common take-up changes no share. */
export function foldShares(
  counts: readonly number[],
  system: CountSystem,
  feeds: readonly number[] | undefined,
): number[] {
  const { each, all } = new Masses(counts, system, feeds);
  return each.map((mass) => mass / all);
}

/** A difference this small against the sum is what rounding leaves of nothing. */
const NOTHING = 1e-14;

/** Count of the one component that, folded with those given, makes a resultant. */
export function foldMissing(counts: readonly number[], system: CountSystem): (resultant: number) => number {
  const masses = new Masses(counts, system);
  return (resultant) => {
    const missing = masses.of(resultant) - masses.all;
    if (missing <= masses.all * NOTHING) {
      const folded = figure(masses.countOf(masses.all), 6);
      absent("resultant", String(resultant), `the counts alone fold to ${folded}: nothing is missing`);
    }
    if (!Number.isFinite(missing)) impossible("resultant", String(resultant), "no yarn is like that");
    return masses.countOf(missing);
  };
}
