import { refuse } from "../refusal";
import { wholeRecipe } from "../whole-recipe";
import { SAME_DEVIATION, searchCreels, type Creel } from "./creel-search";

/** A first passage of which the slivers are drawn to the count of the solid that carries the small ones. */
export interface PreBlend {
  /** Place of the solid that carries the others. */
  readonly carrier: number;
  /** Slivers of each solid creeled up for it. */
  readonly slivers: readonly number[];
  /** Slivers of the pre-blend in the last passage. */
  readonly drawn: number;
}

export interface SliverPlan {
  /** Slivers of each solid in the last passage. */
  readonly slivers: readonly number[];
  readonly preBlend?: PreBlend | undefined;
  readonly wanted: readonly number[];
  readonly made: readonly number[];
}

const MOST_SLIVERS = 60;
const MOST_SOLIDS = 12;

/**
 * The plan of whole slivers that comes nearest to a recipe: the least of the greatest deviations in share, and of those
 * the plan with fewest slivers in all. With a second passage the small solids, of which a full creel would want less
 * than one sliver, may first be blended with one other solid, whichever serves best.
 */
export function sliverPlan(
  shares: readonly number[],
  counts: readonly number[],
  most: number,
  passages: 1 | 2,
): SliverPlan {
  if (shares.length > MOST_SOLIDS) refuse("shares", `${shares.length} solids`, `must be ${MOST_SOLIDS} at most`);
  if (most > MOST_SLIVERS) refuse("slivers", String(most), `must be ${MOST_SLIVERS} at most`);
  const wanted = wholeRecipe("shares", shares);
  const used = wanted.map((_, solid) => solid).filter((solid) => (wanted[solid] as number) > 0);
  const recipe = { wanted, counts, used, most };
  const nearest = new Nearest();
  inOnePassage(recipe, nearest);
  if (passages === 2) inTwoPassages(recipe, nearest);
  const { slivers, preBlend } = nearest;
  return { slivers, preBlend, wanted, made: sharesMade(slivers, counts, preBlend) };
}

interface Recipe {
  readonly wanted: readonly number[];
  readonly counts: readonly number[];
  /** Places of the solids that are wanted at all. */
  readonly used: readonly number[];
  readonly most: number;
}

/** The nearest plan found so far. */
class Nearest {
  off = Infinity;
  inAll = Infinity;
  slivers: readonly number[] = [];
  preBlend: PreBlend | undefined;

  consider(off: number, slivers: readonly number[], preBlend?: PreBlend): void {
    const inAll = added(slivers) + (preBlend === undefined ? 0 : preBlend.drawn + added(preBlend.slivers));
    if (off > this.off + SAME_DEVIATION || (off >= this.off - SAME_DEVIATION && inAll >= this.inAll)) return;
    this.off = Math.min(off, this.off);
    this.inAll = inAll;
    this.slivers = slivers;
    this.preBlend = preBlend;
  }

  /** How many slivers are too many where no plan can be less than `floor` off. */
  tooMany(floor: number): number {
    return this.off <= floor + SAME_DEVIATION ? this.inAll : Infinity;
  }
}

function inOnePassage(recipe: Recipe, nearest: Nearest): void {
  const { wanted, counts, used, most } = recipe;
  const creel: Creel = {
    wanted: used.map((solid) => wanted[solid] as number),
    counts: used.map((solid) => counts[solid] as number),
    latitude: used.map(() => 1),
    least: used.map(() => 0),
    most,
  };
  const visit = (slivers: readonly number[]): void => {
    nearest.consider(greatestOff(creel, slivers), spread(used, slivers, wanted.length));
  };
  const leastPossible = leftOut(creel);
  roundedCreels(creel).forEach(visit);
  searchCreels(creel, { off: () => nearest.off, tooMany: () => nearest.tooMany(leastPossible) }, visit);
}

/** A last passage with slivers of a pre-blend in it, and what the pre-blend is then to come to. */
interface LastPassage {
  readonly carrier: number;
  /** Slivers of each solid, those of the pre-blend not counted. */
  readonly slivers: readonly number[];
  readonly drawn: number;
  /** Places of the carrier and the small solids. */
  readonly group: readonly number[];
  readonly preBlend: Creel;
  /** No pre-blend can make the plan less off than this. */
  readonly floor: number;
}

/** The most hopeful last passages first: most of the others can then be seen to be no better. */
function inTwoPassages(recipe: Recipe, nearest: Nearest): void {
  const passages = ([] as LastPassage[]).concat(
    ...recipe.used.map((carrier) => lastPassages(recipe, carrier, nearest.off)),
  );
  passages.sort((a, b) => a.floor - b.floor);
  for (const { carrier, slivers, drawn, group, preBlend, floor } of passages) {
    if (floor > nearest.off + SAME_DEVIATION) break;
    const visit = (creeled: readonly number[]): void => {
      const made = { carrier, drawn, slivers: spread(group, creeled, slivers.length) };
      nearest.consider(Math.max(floor, greatestOff(preBlend, creeled)), slivers, made);
    };
    const last = added(slivers) + drawn;
    const limits = { off: () => nearest.off, tooMany: () => nearest.tooMany(floor) - last };
    roundedCreels(preBlend).forEach(visit);
    searchCreels(preBlend, limits, visit);
  }
}

/**
 * In the last passage the carrier and the pre-blend are slivers of one count, which together bring the carrier and the
 * small solids. How many of them are pre-blend decides what the pre-blend is to come to.
 */
function lastPassages(recipe: Recipe, carrier: number, off: number): LastPassage[] {
  const { wanted, counts, used, most } = recipe;
  const full = fullCreel(recipe);
  const small = used.filter((solid) => solid !== carrier && (full[solid] as number) < 1);
  if (small.length === 0) return [];
  const group = [carrier, ...small];
  const others = used.filter((solid) => group.indexOf(solid) < 0);
  const of = (solids: readonly number[], values: readonly number[]) => solids.map((solid) => values[solid] as number);
  const creel: Creel = {
    wanted: [...of(others, wanted), added(of(group, wanted))],
    counts: of([...others, carrier], counts),
    // What the group is off by can be shared by all its solids.
    latitude: [...others.map(() => 1), group.length],
    least: [...others.map(() => 0), 1],
    most,
  };
  const found: LastPassage[] = [];
  searchCreels(creel, { off: () => off, tooMany: () => Infinity }, (creeled) => {
    const floor = greatestOff(creel, creeled);
    const whole = massOf(creeled, creel.counts);
    const together = creeled[others.length] as number;
    for (let drawn = 1; drawn <= together; drawn++) {
      const pure = together - drawn;
      const part = (drawn * (counts[carrier] as number)) / whole;
      const pureShare = (pure * (counts[carrier] as number)) / whole;
      const preBlend: Creel = {
        wanted: of(group, wanted).map((share, index) => (share - (index === 0 ? pureShare : 0)) / part),
        counts: of(group, counts),
        latitude: group.map(() => 1 / part),
        least: group.map((_, index) => (index === 0 ? 1 : 0)),
        most,
      };
      const slivers = spread([...others, carrier], [...creeled.slice(0, others.length), pure], wanted.length);
      found.push({
        carrier,
        slivers,
        drawn,
        group,
        preBlend,
        floor: Math.max(floor, leastOff(preBlend) * part),
      });
    }
  });
  return found;
}

/** Shares that are 0 or more and sum to 1 are somewhere off by at least this. */
function leastOff(creel: Creel): number {
  const missing = (1 - added(creel.wanted)) / creel.wanted.length;
  return Math.max(missing, leftOut(creel), ...creel.wanted.map((share) => -share));
}

/** A creel too small for all leaves some out, at best those of which least is wanted. */
function leftOut({ wanted, most }: Creel): number {
  return wanted.slice().sort((a, b) => a - b)[wanted.length - most - 1] ?? 0;
}

/** Creels of every size by rounding: near enough to what is wanted to spare most of the search. */
function roundedCreels({ wanted, counts, least, most }: Creel): number[][] {
  const lengths = wanted.map((share, index) => Math.max(share, 0) / (counts[index] as number));
  const whole = added(lengths);
  return Array.from({ length: most }, (_, index) =>
    lengths.map((length, place) => Math.max(least[place] as number, Math.round((length / whole) * (index + 1)))),
  ).filter((slivers) => added(slivers) > 0 && added(slivers) <= most);
}

/** Slivers of each solid that the recipe would want of a full creel if slivers could be divided. */
function fullCreel({ wanted, counts, most }: Recipe): number[] {
  const lengths = wanted.map((share, solid) => share / (counts[solid] as number));
  const whole = added(lengths);
  return lengths.map((length) => (length / whole) * most);
}

function greatestOff({ wanted, counts, latitude }: Creel, slivers: readonly number[]): number {
  const mass = massOf(slivers, counts);
  return slivers.reduce((greatest, count, index) => {
    const made = (count * (counts[index] as number)) / mass;
    return Math.max(greatest, Math.abs(made - (wanted[index] as number)) / (latitude[index] as number));
  }, 0);
}

/** The share of each solid after the last passage. */
function sharesMade(slivers: readonly number[], counts: readonly number[], preBlend: PreBlend | undefined): number[] {
  const masses = slivers.map((count, solid) => count * (counts[solid] as number));
  if (preBlend !== undefined) {
    const whole = massOf(preBlend.slivers, counts);
    const drawn = preBlend.drawn * (counts[preBlend.carrier] as number);
    preBlend.slivers.forEach((count, solid) => {
      (masses[solid] as number) += (drawn * count * (counts[solid] as number)) / whole;
    });
  }
  const whole = added(masses);
  return masses.map((mass) => mass / whole);
}

function massOf(slivers: readonly number[], counts: readonly number[]): number {
  return slivers.reduce((mass, count, index) => mass + count * (counts[index] as number), 0);
}

function spread(places: readonly number[], values: readonly number[], size: number): number[] {
  const wide = new Array<number>(size).fill(0);
  places.forEach((place, index) => (wide[place] = values[index] as number));
  return wide;
}

function added(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
