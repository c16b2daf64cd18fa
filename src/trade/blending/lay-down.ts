import { largestRemainder } from "../largest-remainder";
import { Decimal, decimal, roundHalfAway, sum } from "../money";
import { at, refuse } from "../refusal";
import { wholeRecipe } from "../whole-recipe";

/** What one component, or all of them, comes to on the scale. */
export interface Weighing {
  readonly perSection: Decimal;
  readonly inAll: Decimal;
  /** Of the dry mass where regains are given, of the mass otherwise. */
  readonly realisedShare: number;
  /** What is weighed beyond (or, negative, short of) the wanted mass: it goes into the next batch's account. */
  readonly carry: Decimal;
}

export interface WeighUp {
  readonly components: readonly Weighing[];
  readonly total: Weighing;
}

/**
 * The weigh-up of a batch laid down in sections. Each section is weighed alike, in whole steps of the scale by largest
 * remainder on the section's total, so that every section has the same shares and the whole has them too. Components
 * weighed as they lie: m = share × dry batch × (1 + regain).
 */
export function weighUp(
  batch: number,
  shares: readonly number[],
  sections: number,
  step: number,
  regains: readonly number[],
): WeighUp {
  const wanted = wholeRecipe("shares", shares).map((share, index) =>
    new Decimal(share).times(batch).times(new Decimal(1).plus(regains[index] as number)),
  );
  const inSteps = roundHalfAway(sum(wanted).div(sections).div(step), 0);
  const units = largestRemainder(inSteps, wanted.map(Number), "shares").map(decimal);
  units.forEach((count, index) => {
    if (count.isZero() && (shares[index] as number) > 0) {
      const mass = (wanted[index] as Decimal).div(sections).toSignificantDigits(6).toNumber();
      const advice = `too little for a step of ${step}: pre-blend it, or fewer sections`;
      refuse(at("shares", index), `${mass} kg a section`, advice);
    }
  });
  const perSection = units.map((count) => count.times(step));
  const dry = perSection.map((mass, index) => mass.div(new Decimal(1).plus(regains[index] as number)));
  const dryTotal = sum(dry);
  const weighing = (mass: Decimal, share: number, goal: Decimal): Weighing => ({
    perSection: mass,
    inAll: mass.times(sections),
    realisedShare: share,
    carry: mass.times(sections).minus(goal),
  });
  return {
    components: perSection.map((mass, index) =>
      weighing(mass, (dry[index] as Decimal).div(dryTotal).toNumber(), wanted[index] as Decimal),
    ),
    total: weighing(sum(perSection), 1, sum(wanted)),
  };
}
