import { ratio, YARD_IN_TENTHS_OF_MM, type Ratio } from "./exact";

/** A unit of twist: its word, its exact size in turns per metre, further spellings. */
export interface TwistUnit {
  readonly word: string;
  readonly meaning: string;
  readonly size: Ratio;
  /** Key of tables/sources.ts. */
  readonly source: string;
  readonly aliases: readonly string[];
  /** Place in the table, for looking up a pair of units. */
  readonly index: number;
}

export const TURNS_PER_METRE: TwistUnit = {
  word: "tpm",
  meaning: "turns per metre",
  size: ratio([1], [1]),
  source: "ISO-2061",
  aliases: ["t/m", "turns/m", "turns per metre", "turns per meter"],
  index: 0,
};

export const TURNS_PER_INCH: TwistUnit = {
  word: "tpi",
  meaning: "turns per inch",
  // A metre holds 36 × 10000 / 9144 inches, exactly.
  size: ratio([36, 10000], [YARD_IN_TENTHS_OF_MM]),
  source: "NIST-YD-LB",
  aliases: ["t/in", "turns/in", "turns per inch"],
  index: 1,
};

export const TURNS_PER_CENTIMETRE: TwistUnit = {
  word: "tpcm",
  meaning: "turns per centimetre",
  size: ratio([100], [1]),
  source: "ISO-2061",
  aliases: ["t/cm", "turns/cm", "turns per centimetre", "turns per centimeter"],
  index: 2,
};

export const TWIST_UNITS: readonly TwistUnit[] = [TURNS_PER_METRE, TURNS_PER_INCH, TURNS_PER_CENTIMETRE];
