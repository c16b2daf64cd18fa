/** What a creel is to come to: whole slivers of each solid, whose shares by mass come near to those wanted. */
export interface Creel {
  /** Share wanted of each; in a pre-blend one may lie outside 0 to 1. */
  readonly wanted: readonly number[];
  /** Mass of a length of one sliver of each. */
  readonly counts: readonly number[];
  /** How far the share of each may be off for one unit of what the creel is judged by. */
  readonly latitude: readonly number[];
  /** Fewest slivers of each. */
  readonly least: readonly number[];
  /** Most slivers in all. */
  readonly most: number;
}

/** Decides ties: what differs by less is the same deviation. */
export const SAME_DEVIATION = 1e-12;

/** What a creel must keep to be of use; it changes while better ones are found. */
export interface CreelLimits {
  /** The furthest that shares may be off. */
  off(): number;
  /** The number of slivers that is too many. */
  tooMany(): number;
}

/** Creels between a least and a greatest number of slivers of each solid, and between two masses of them all. */
interface Box {
  readonly least: number[];
  readonly greatest: number[];
  lightest: number;
  heaviest: number;
}

/**
 * Visits every creel that may keep the limits and hardly any other. Branch and bound: in a box the mass of the creel
 * bounds each share and the shares bound the mass, again and again, until the box is empty, one creel or cut in two,
 * by its mass as long as that tells little, then by the solid of which least is known. Light creels come first.
 */
export function searchCreels(creel: Creel, limits: CreelLimits, visit: (slivers: readonly number[]) => void): void {
  const finest = Math.min(...creel.counts) / 2;
  const explore = (box: Box): void => {
    if (!narrowed(creel, limits.off() + SAME_DEVIATION, limits.tooMany(), box)) return;
    const { least, greatest, lightest, heaviest } = box;
    const widest = widestOf(least, greatest);
    const [from, to] = [least[widest] as number, greatest[widest] as number];
    if (from === to) {
      if (least.some((slivers) => slivers > 0)) visit(least);
    } else if (heaviest - lightest > finest) {
      const middle = (lightest + heaviest) / 2;
      explore({ least: least.slice(), greatest: greatest.slice(), lightest, heaviest: middle });
      explore({ least, greatest, lightest: middle, heaviest });
    } else {
      const middle = Math.floor((from + to) / 2);
      explore({ least: least.slice(), greatest: replaced(greatest, widest, middle), lightest, heaviest });
      explore({ least: replaced(least, widest, middle + 1), greatest, lightest, heaviest });
    }
  };
  const greatest = creel.least.map(() => creel.most);
  const heaviest = creel.most * Math.max(...creel.counts);
  explore({ least: creel.least.slice(), greatest, lightest: 0, heaviest });
}

function widestOf(least: readonly number[], greatest: readonly number[]): number {
  let [widest, width] = [0, -1];
  for (let index = 0; index < least.length; index++) {
    const own = (greatest[index] as number) - (least[index] as number);
    if (own > width) [widest, width] = [index, own];
  }
  return widest;
}

function replaced(values: readonly number[], place: number, value: number): number[] {
  const copy = values.slice();
  copy[place] = value;
  return copy;
}

/** Takes from the box what cannot keep the limits; false when nothing is left of it. */
function narrowed({ wanted, counts, latitude, most }: Creel, off: number, tooMany: number, box: Box): boolean {
  const { least, greatest } = box;
  const allowed = Math.min(most, tooMany - 1);
  for (let changed = true; changed;) {
    changed = false;
    let [slivers, lightest, heaviest] = [0, 0, 0];
    for (let index = 0; index < counts.length; index++) {
      slivers += least[index] as number;
      lightest += (least[index] as number) * (counts[index] as number);
      heaviest += (greatest[index] as number) * (counts[index] as number);
    }
    box.lightest = Math.max(box.lightest, lightest);
    box.heaviest = Math.min(box.heaviest, heaviest);
    for (let index = 0; index < counts.length; index++) {
      const count = counts[index] as number;
      const [from, to] = [least[index] as number, greatest[index] as number];
      const under = (wanted[index] as number) - (latitude[index] as number) * off;
      const over = (wanted[index] as number) + (latitude[index] as number) * off;
      // What the shares allow of this solid, and what the others leave to it.
      const lightestOfIt = Math.max(under * box.lightest, box.lightest - (heaviest - to * count));
      const heaviestOfIt = Math.min(over * box.heaviest, box.heaviest - (lightest - from * count));
      const fewest = Math.ceil(lightestOfIt / count - ROUNDING);
      const mostOfIt = Math.min(from + allowed - slivers, Math.floor(heaviestOfIt / count + ROUNDING));
      if (fewest > from) {
        least[index] = fewest;
        changed = true;
      }
      if (mostOfIt < to) {
        greatest[index] = mostOfIt;
        changed = true;
      }
      if ((least[index] as number) > (greatest[index] as number)) return false;
      if (under > 0) box.heaviest = Math.min(box.heaviest, ((greatest[index] as number) * count) / under);
      if (over > 0) box.lightest = Math.max(box.lightest, ((least[index] as number) * count) / over);
    }
  }
  return true;
}

/** Binary arithmetic may put a whole number a trace beside itself. */
const ROUNDING = 1e-9;
