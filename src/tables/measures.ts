import {
  type Ratio,
  ratio,
  DRAMS_IN_POUND,
  GRAINS_IN_POUND,
  OUNCES_IN_POUND,
  POUND_IN_HUNDREDTHS_OF_MG,
  YARD_IN_TENTHS_OF_MM,
} from "./exact";

/** A unit of length or mass: the word, further spellings, and its exact size in the base unit. */
export type Measure = readonly [word: string, size: Ratio, ...aliases: string[]];

const TENTHS_OF_MM_IN_METRE = 10000;
const HUNDREDTHS_OF_MG_IN_GRAM = 100000;

/** Base unit: metre. Source: NIST-YD-LB. */
export const LENGTHS: readonly Measure[] = [
  ["m", ratio([1], [1]), "metre", "meter", "metres", "meters"],
  ["mm", ratio([1], [1000]), "millimetre", "millimeter"],
  ["cm", ratio([1], [100]), "centimetre", "centimeter"],
  ["km", ratio([1000], [1]), "kilometre", "kilometer"],
  ["in", ratio([YARD_IN_TENTHS_OF_MM], [36, TENTHS_OF_MM_IN_METRE]), "inch", "inches"],
  ["ft", ratio([YARD_IN_TENTHS_OF_MM], [3, TENTHS_OF_MM_IN_METRE]), "foot", "feet"],
  ["yd", ratio([YARD_IN_TENTHS_OF_MM], [TENTHS_OF_MM_IN_METRE]), "yard", "yards", "yds"],
];

/** Base unit: gram. Source: NIST-YD-LB. */
export const MASSES: readonly Measure[] = [
  ["g", ratio([1], [1]), "gram", "grams", "gramme"],
  ["mg", ratio([1], [1000]), "milligram"],
  ["kg", ratio([1000], [1]), "kilogram", "kilo"],
  ["t", ratio([1000000], [1]), "tonne"],
  ["gr", ratio([POUND_IN_HUNDREDTHS_OF_MG], [GRAINS_IN_POUND, HUNDREDTHS_OF_MG_IN_GRAM]), "grain", "grains"],
  ["dram", ratio([POUND_IN_HUNDREDTHS_OF_MG], [DRAMS_IN_POUND, HUNDREDTHS_OF_MG_IN_GRAM]), "drams", "dr"],
  ["oz", ratio([POUND_IN_HUNDREDTHS_OF_MG], [OUNCES_IN_POUND, HUNDREDTHS_OF_MG_IN_GRAM]), "ounce", "ounces"],
  ["lb", ratio([POUND_IN_HUNDREDTHS_OF_MG], [HUNDREDTHS_OF_MG_IN_GRAM]), "lbs", "pound", "pounds"],
];
