import { COUNT_SYSTEMS, type CountSystem } from "./count-systems";
import { TURNS_PER_CENTIMETRE, TURNS_PER_INCH, TURNS_PER_METRE, type TwistUnit } from "./twist-units";

/**
 * A convention for the twist factor: which twist and which count it is made of. With an indirect count the factor is
 * twist / √count, with tex it is twist × √tex; either way it is the same for yarns of the same twist angle.
 */
export interface TwistConvention {
  /** The word a person writes in a cell. */
  readonly word: string;
  readonly meaning: string;
  readonly unit: TwistUnit;
  readonly system: CountSystem;
  /** Key of tables/sources.ts. */
  readonly source: string;
  readonly aliases: readonly string[];
}

type Row = readonly [
  word: string,
  meaning: string,
  unit: TwistUnit,
  system: string,
  source: string,
  ...aliases: string[],
];

const ROWS: readonly Row[] = [
  ["metric", "turns per metre / √Nm", TURNS_PER_METRE, "Nm", "RIETER", "alpha m"],
  ["tex tpcm", "turns per centimetre × √tex", TURNS_PER_CENTIMETRE, "tex", "DEFINITION", "tpcm tex"],
  ["tex tpm", "turns per metre × √tex", TURNS_PER_METRE, "tex", "EXAM", "tpm tex"],
  ["cotton", "turns per inch / √NeC", TURNS_PER_INCH, "NeC", "RIETER"],
  ["worsted", "turns per inch / √NeW", TURNS_PER_INCH, "NeW", "DEFINITION"],
  ["run", "turns per inch / √run", TURNS_PER_INCH, "run", "DEFINITION"],
  ["YSW", "turns per inch / √YSW", TURNS_PER_INCH, "YSW", "DEFINITION"],
  ["Galashiels", "turns per inch / √Galashiels", TURNS_PER_INCH, "Galashiels", "DEFINITION"],
];

export const TWIST_CONVENTIONS: readonly TwistConvention[] = ROWS.map(
  ([word, meaning, unit, system, source, ...aliases]) => ({
    word,
    meaning,
    unit,
    system: COUNT_SYSTEMS.find((entry) => entry.word === system) as CountSystem,
    source,
    aliases,
  }),
);

const WITH_INCHES = "cotton, worsted, run, YSW or Galashiels";
const ALL = `metric, tex tpcm, tex tpm, ${WITH_INCHES}`;

/** Names that handbooks use for factors of different size: the same yarn has 4, 38 or 3800 under them. */
export const AMBIGUOUS_CONVENTION_WORDS: Readonly<Record<string, string>> = {
  alpha: ALL,
  α: ALL,
  TF: ALL,
  K: ALL,
  factor: ALL,
  tex: "tex tpcm or tex tpm",
  "alpha tex": "tex tpcm or tex tpm",
  "alpha e": "cotton or worsted",
  English: WITH_INCHES,
  TM: WITH_INCHES,
  multiplier: WITH_INCHES,
};
