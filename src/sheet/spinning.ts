import { AMBIGUOUS_CONVENTION_WORDS, TWIST_CONVENTIONS, type TwistConvention } from "../tables/twist-conventions";
import { TWIST_UNITS, type TwistUnit } from "../tables/twist-units";
import { canBePlies, MOST_PLIES } from "../trade/counts/plausible-fold";
import type { PlyDirection, PlyRule } from "../trade/spinning/ply-twist";
import type { TakeUpModel } from "../trade/spinning/take-up";
import { fraction, numberOr, numberThat, wholeThat, word, type Kind } from "./kinds";
import { vocabulary, wordsFor } from "./words";

/** A unit of twist by its word. */
export const unitOfTwist: Kind<TwistUnit> = word(
  vocabulary(
    "unit of twist",
    TWIST_UNITS.map((unit) => [unit.word, unit, ...unit.aliases] as const),
  ),
);

/** A convention for the twist factor by its word. */
export const twistConvention: Kind<TwistConvention> = word(
  vocabulary(
    "twist-factor convention",
    TWIST_CONVENTIONS.map((convention) => [convention.word, convention, ...convention.aliases] as const),
    AMBIGUOUS_CONVENTION_WORDS,
  ),
);

export const takeUpModel: Kind<TakeUpModel> = word(wordsFor("model", "ideal", "staple"));

export const plyDirection: Kind<PlyDirection> = word(wordsFor("direction", "opposite", "same"));

/** A rule for the ply twist by its word, or the ratio itself. */
export const plyRule: Kind<PlyRule | number> = numberOr(
  numberThat("must be a ratio above 0 and at most 5, such as 0.67", (value) => value > 0 && value <= 5),
  word(wordsFor("rule", "two-thirds", "n/(n+1)", "axial")),
);

/** Strands of a plied yarn. */
export const strands = wholeThat(
  `must be a whole number from 2 to ${MOST_PLIES}, as yarns are plied`,
  (value) => value >= 2 && canBePlies(value),
);

/** Plies of a yarn; a larger number is a count in the wrong place. */
export const foldedPlies = wholeThat(`must be a whole number from 1 to ${MOST_PLIES}, as yarns are plied`, canBePlies);

/** Share of the mass that a drafting machine loses, a comb at the most, or a treatment before an analysis, boiling off silk; common practice, no source. 0.5 is 0.5% typed whole. */
export const machineWaste = fraction(0, 0.4, "must be 0 to 0.4 (40%); 0.5% is 0.005");

/** Running time over working time; below a twentieth is a fraction with a percent sign. Common practice, no source. */
export const efficiencyShare = fraction(0.05, 1, "must be 0.05 to 1 (5% to 100%)");
