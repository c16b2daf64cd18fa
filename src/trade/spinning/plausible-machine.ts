import { refuse } from "../refusal";

/*
 * Limits that no machine of the trade passes, common practice without a source: wide on purpose, to catch a figure in
 * another unit or in another's place.
 */

const SMALLEST_ROLL = 0.005;
const LARGEST_ROLL = 2;

/** Diameter in metres of a roll, a drum or a package that is wound. */
export function expectRoll(argument: string, metres: number): number {
  if ((metres >= SMALLEST_ROLL && metres <= LARGEST_ROLL) || !Number.isFinite(metres * 1000)) return metres;
  return refuse(argument, `${Number((metres * 1000).toPrecision(6))} mm`, "must be 5 to 2000 mm; check its unit");
}

/** A friction spindle of false twist; rotors, ring and flyer spindles stay far below. */
const FASTEST_SPINDLE = 2_000_000;

/** Revolutions of a spindle a minute. */
export function expectSpindle(argument: string, came: string, revolutions: number): number {
  if (revolutions <= FASTEST_SPINDLE || !Number.isFinite(revolutions)) return revolutions;
  return refuse(argument, came, `a spindle at ${shortly(revolutions)} rpm, which none turns; check units and order`);
}

/** Metres a minute through rolls to a spindle, and off any machine; filament winding is the fastest. */
const FASTEST_TO_A_SPINDLE = 500;
const FASTEST_DELIVERY = 10_000;

export function expectSpun(argument: string, came: string, delivery: number): number {
  if (delivery <= FASTEST_TO_A_SPINDLE || !Number.isFinite(delivery)) return delivery;
  return refuse(argument, came, `${shortly(delivery)} m/min, above 500, which no spindle takes; check units and order`);
}

export function expectDelivery(argument: string, delivery: number): number {
  if (delivery <= FASTEST_DELIVERY || !Number.isFinite(delivery)) return delivery;
  return refuse(argument, `${delivery} m/min`, "must be at most 10000 m/min, as machines deliver; check its unit");
}

/** From a fine silk to a roving. */
const LEAST_RATE = 0.1;
const MOST_RATE = 10_000;

/** Grams of one spindle in an hour. */
export function expectRate(argument: string, rate: number): number {
  if ((rate >= LEAST_RATE && rate <= MOST_RATE) || !Number.isFinite(rate)) return rate;
  return refuse(argument, String(rate), "must be 0.1 to 10000 g per spindle-hour, as SPINRATE gives; not kg");
}

/** Gears of these teeth are cut for change wheels. */
const FEWEST_TEETH = 8;
const MOST_TEETH = 400;

export function expectTeeth(argument: string, came: string, teeth: number): number {
  if ((teeth >= FEWEST_TEETH && teeth <= MOST_TEETH) || !Number.isFinite(teeth)) return teeth;
  return refuse(argument, came, `a wheel of ${shortly(teeth)} teeth, not 8 to 400; another unit, or swapped?`);
}

const LEAST_DRAFT = 0.5;
/** Through all passages together; each alone stays far below. */
const MOST_DRAFT = 1e6;
/** Between two pairs of rollers, a card's feed rollers and doffer among them. */
const MOST_ROLLER_DRAFT = 500;

/** A draft that gives way a little is a tension; one that halves the speed has in and out swapped. */
export function expectDraft(argument: string, came: string, draft: number, most = MOST_DRAFT): number {
  if ((draft >= LEAST_DRAFT && draft <= most) || !Number.isFinite(draft)) return draft;
  const allowed = `not ${LEAST_DRAFT} to ${most}; swapped, or another unit?`;
  return refuse(argument, came, `a draft of ${shortly(draft)}, ${allowed}`);
}

export function expectRollerDraft(argument: string, came: string, draft: number): number {
  return expectDraft(argument, came, draft, MOST_ROLLER_DRAFT);
}

const MOST_SPINDLES = 1e6;

/** A rate in kilograms instead of grams asks for a thousand times the spindles. */
export function expectSpindles(rate: number, spindles: number): number {
  if (spindles <= MOST_SPINDLES || !Number.isFinite(spindles)) return spindles;
  return refuse("rate", String(rate), `${spindles} spindles; it is in g per spindle-hour, check masses and units`);
}

function shortly(value: number): number {
  return Number(value.toPrecision(4));
}
