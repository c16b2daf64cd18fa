import { numberBetween, numberThat, type Kind } from "./kinds";

/*
 * Limits that no fibre of the trade passes, common practice without a source. They are wide on purpose: they judge no
 * wool, they catch a figure in another unit or in another argument's place.
 */

const FINEST_WOOL = 8;
const COARSEST_WOOL = 60;

/** Mean diameter of wool or hair, micron; `advice` says what else the figure may be. */
export function woolMicronOr(advice: string): Kind<number> {
  return numberBetween(
    FINEST_WOOL,
    COARSEST_WOOL,
    `must be ${FINEST_WOOL} to ${COARSEST_WOOL} micron, as wool and hair are${advice}`,
  );
}

export const woolMicron = woolMicronOr("");

/** Mean diameter of any fibre that is spun, microfibre and horsehair among them. */
export const fibreMicron = numberBetween(4, 150, "must be 4 to 150 micron, as fibres are");

/** From polypropylene to glass. */
export const fibreDensity = numberBetween(0.8, 3, "must be 0.8 to 3 g/cm³, as fibres are");

export const stapleLength = numberBetween(20, 400, "must be 20 to 400 mm, as staples are");
export const stapleStrength = numberBetween(5, 70, "must be 5 to 70 N/ktex, as staples are; swapped with staple_mm?");

/** Merino to fine crossbred: the equations for tops were fitted to no coarser wool. */
export const combedMicron = numberBetween(12, 32, "must be 12 to 32 micron, as the forecast's wools are; strength?");

/** A standard deviation of diameter; a blank that arrives as 0 is one that is not stated. */
export const micronDeviation = numberThat(
  "must be 1 to 30 micron (micron × CV), or 0",
  (value) => value === 0 || (value >= 1 && value <= 30),
);

/** Fibres in a section: a share of a fibre is no yarn. */
export const fibresInYarn = numberBetween(1, Number.MAX_VALUE, "must be a number of fibres, 1 or more");

/** No yarn of wool holds with fewer, and a colour yarn of thousands is a sliver. */
export const leastFibres = numberBetween(25, 5000, "must be 25 to 5000 fibres; swapped with micron?");

/** From solid fibre to a high bulk yarn, cm³/g. */
export const specificVolume = numberBetween(0.5, 20, "must be 0.5 to 20 cm³/g, 1 over the density in g/cm³");

/** Top for one of noil; a romaine stays below it. */
export const tearOfTop = numberBetween(
  1,
  Number.MAX_VALUE,
  "must be 1 or more, top for one of noil; TEAR takes romaine",
);

/** Normal deviate, two-sided 68 % and beyond; a confidence stays below it. */
export const normalDeviate = numberBetween(1, 10, "must be 1 to 10, such as 1.96 for 95%");
