import type { CountSystem } from "../../tables/count-systems";
import { dayShown } from "../calendar";
import { expectWithin, figure } from "../plausible";
import { refuse } from "../refusal";
import { texOf } from "./counts";

/*
 * Limits that nothing of the trade passes, common practice without a source: wide on purpose, to catch a count in
 * another unit or in another's place, and a ply such as 2/28 that the sheet took for a date.
 */

/** 1 January 2000 and the end of 2059, as the sheet counts days. */
const FIRST_DATE = 36526;
const LAST_DATE = 58440;

/** A number as the sheet stores the dates of these years. */
export function canBeDate(value: number): boolean {
  return value >= FIRST_DATE && value <= LAST_DATE && Number.isInteger(value);
}

/** No indirect count is so high: Nm 36526 is a tenth of the finest fibre. A direct one may be, 40000 tex is a top. */
export function expectNoDate(argument: string, count: number, system: CountSystem): number {
  if (system.direct || !canBeDate(count)) return count;
  return refuse(argument, `${count}, the date ${dayShown(count)}`, "a ply such as 2/28 is text; DESIGNATION reads it");
}

/** In tex: a microfibre, and the finest that is counted by length; a lap of a kilogram a metre. */
const FINEST_DIRECT = 0.01;
const FINEST_INDIRECT = 0.1;
const COARSEST = 1e6;

/** The count of anything spun, drawn or extruded. */
export function expectCount(argument: string, count: number, system: CountSystem): number {
  const tex = texOf(expectNoDate(argument, count, system), system) || COARSEST;
  const finest = system.direct ? FINEST_DIRECT : FINEST_INDIRECT;
  if (tex < finest || tex > COARSEST) {
    const allowed = (shown: number): string => `${shown} tex, which nothing spun has; check unit and order`;
    expectWithin(tex, finest, COARSEST, argument, () => `${count} ${system.word}`, allowed);
  }
  return count;
}

/** From a raw silk of 4.5 denier to the heaviest carded sliver, in tex. */
const FINEST_REELED = 0.5;
const COARSEST_REELED = 2e5;

/** Tex of a length that was measured off and weighed. */
export function expectReeled(metres: number, grams: number): void {
  const came = (): string => `${figure(metres)} m beside ${figure(grams)} g`;
  const tex = (grams * 1000) / metres || COARSEST_REELED;
  expectWithin(
    tex,
    FINEST_REELED,
    COARSEST_REELED,
    "length",
    came,
    (shown) => `${shown} tex, which no yarn has; check both units`,
  );
}

/** The thickest that is spun, in tex; what is thicker is a sliver, which is not as dense as a spun yarn. */
const THICKEST_SPUN = 1e4;

/** The count of a yarn to which the density of a worsted yarn is applied because no other was given. */
export function expectSpun(argument: string, count: number, system: CountSystem): number {
  if (texOf(expectCount(argument, count, system), system) <= THICKEST_SPUN) return count;
  return refuse(
    argument,
    `${count} ${system.word}`,
    "no spun yarn: check the unit, or give a sliver's specific_volume",
  );
}
