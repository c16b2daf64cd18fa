import { expectWithin, figure, type Came } from "../plausible";

/*
 * Limits that no machine of the trade passes, common practice without a source: wide on purpose, to catch a figure in
 * another unit or in another's place.
 */

const SMALLEST_ROLL = 5;
const LARGEST_ROLL = 2000;

/** Diameter in metres of a roll, a drum or a package that is wound; the limits are in mm. */
export function expectRoll(argument: string, metres: number): number {
  const allowed = "must be 5 to 2000 mm; check its unit";
  expectWithin(metres * 1000, SMALLEST_ROLL, LARGEST_ROLL, argument, () => `${figure(metres * 1000, 6)} mm`, allowed);
  return metres;
}

/** A friction spindle of false twist; rotors, ring and flyer spindles stay far below. */
const FASTEST_SPINDLE = 2_000_000;

/** Revolutions of a spindle a minute. */
export function expectSpindle(argument: string, came: Came, revolutions: number): number {
  const allowed = (shown: number): string => `a spindle at ${shown} rpm, which none turns; check units and order`;
  return expectWithin(revolutions, 0, FASTEST_SPINDLE, argument, came, allowed);
}

/** Metres a minute through rolls to a spindle, and off any machine; filament winding is the fastest. */
const FASTEST_TO_A_SPINDLE = 500;
const FASTEST_DELIVERY = 10_000;

export function expectFed(argument: string, came: Came, delivery: number): number {
  const allowed = (shown: number): string => `${shown} m/min, above 500, which no spindle takes; check units and order`;
  return expectWithin(delivery, 0, FASTEST_TO_A_SPINDLE, argument, came, allowed);
}

export function expectDelivery(argument: string, delivery: number): number {
  const allowed = "must be at most 10000 m/min; check its unit";
  return expectWithin(delivery, 0, FASTEST_DELIVERY, argument, () => `${delivery} m/min`, allowed);
}

/** Grams of one spindle in an hour, from a fine silk to a roving. */
const LEAST_RATE = 0.1;
const MOST_RATE = 10_000;

export function expectRate(rate: number): number {
  return expectWithin(rate, LEAST_RATE, MOST_RATE, "rate", rate, "must be 0.1 to 10000 g per spindle-hour, not kg");
}

/** Gears of these teeth are cut for change wheels. */
const FEWEST_TEETH = 8;
const MOST_TEETH = 400;

export function expectTeeth(argument: string, came: Came, teeth: number): number {
  const allowed = (shown: number): string => `a wheel of ${shown} teeth, not 8 to 400; swapped, or another unit?`;
  return expectWithin(teeth, FEWEST_TEETH, MOST_TEETH, argument, came, allowed);
}

const LEAST_DRAFT = 0.5;
/** Through all passages together; each alone stays far below. */
const MOST_DRAFT = 1e6;
/** Between two pairs of rollers, a card's feed rollers and doffer among them. */
const MOST_ROLLER_DRAFT = 500;

/** A draft that gives way a little is a tension; one that halves the speed has in and out swapped. */
export function expectDraft(argument: string, came: Came, draft: number, most = MOST_DRAFT): number {
  const allowed = (shown: number): string =>
    `a draft of ${shown}, not ${LEAST_DRAFT} to ${most}; swapped, or another unit?`;
  return expectWithin(draft, LEAST_DRAFT, most, argument, came, allowed);
}

export function expectRollerDraft(argument: string, came: Came, draft: number): number {
  return expectDraft(argument, came, draft, MOST_ROLLER_DRAFT);
}

const MOST_SPINDLES = 1e6;

/** A rate in kilograms instead of grams asks for a thousand times the spindles. */
export function expectSpindles(rate: number, spindles: number): number {
  const allowed = (): string => `${spindles} spindles; it is in g per spindle-hour, check masses and units`;
  return expectWithin(spindles, 0, MOST_SPINDLES, "rate", rate, allowed);
}
