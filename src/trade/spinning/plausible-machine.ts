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

const LEAST_DRAFT = 0.5;
/** Through all passages together; each alone stays far below. */
const MOST_DRAFT = 1e6;

/** A draft that gives way a little is a tension; one that halves the speed has in and out swapped. */
export function expectDraft(argument: string, came: string, draft: number): number {
  if ((draft >= LEAST_DRAFT && draft <= MOST_DRAFT) || !Number.isFinite(draft)) return draft;
  const shown = Number(draft.toPrecision(4));
  return refuse(argument, came, `a draft of ${shown}, not ${LEAST_DRAFT} to ${MOST_DRAFT}; swapped, or another unit?`);
}

const MOST_SPINDLES = 1e6;

/** A rate in kilograms instead of grams asks for a thousand times the spindles. */
export function expectSpindles(rate: number, spindles: number): number {
  if (spindles <= MOST_SPINDLES || !Number.isFinite(spindles)) return spindles;
  return refuse("rate", String(rate), `${spindles} spindles; it is in g per spindle-hour, check masses and units`);
}
