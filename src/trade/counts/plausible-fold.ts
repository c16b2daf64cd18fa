/**
 * What a fold can be at all, common practice without a source: whole, 1 to 12. Thicker folds are not written as plies,
 * so a larger number is a count or filaments.
 */
export const MOST_PLIES = 12;

export function canBePlies(number: number): boolean {
  return Number.isInteger(number) && number >= 1 && number <= MOST_PLIES;
}

/** Wording of what is allowed, for the reader and the writer of designations. */
export const PLIES_ALLOWED = `plies must be a whole number from 1 to ${MOST_PLIES}`;

// Twisting takes up a few percent and may lengthen by as much; a hard cable takes up more.
const LEAST_RESULTANT = 0.9;
const MOST_RESULTANT = 1.25;

export const RESULTANT_ALLOWED = `R is ${LEAST_RESULTANT} to ${MOST_RESULTANT} × plies × single in any yarn`;

/** Can a resultant be that of so many plies of a single, or is one of the three mistyped? */
export function canBeResultant(resultant: number, single: number, plies: number): boolean {
  const ratio = resultant / (single * plies);
  return ratio >= LEAST_RESULTANT && ratio <= MOST_RESULTANT;
}
