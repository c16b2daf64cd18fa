import { AMBIGUOUS_COUNT_WORDS, COUNT_SYSTEMS, LIKELY_COUNT_WORDS, type CountSystem } from "../tables/count-systems";
import { LENGTHS, MASSES, type Measure } from "../tables/measures";
import { word, type Kind } from "./kinds";
import { vocabulary } from "./words";

/** A count system by its word. */
export const countSystem: Kind<CountSystem> = word({
  ...vocabulary(
    "count system",
    COUNT_SYSTEMS.map((system) => [system.word, system, ...system.aliases] as const),
    AMBIGUOUS_COUNT_WORDS,
  ),
  likely: LIKELY_COUNT_WORDS,
});

function measureWords(of: string, measures: readonly Measure[]): Kind<number> {
  return word(
    vocabulary(
      of,
      measures.map(([unit, size, ...aliases]) => [unit, size.numerator / size.denominator, ...aliases] as const),
    ),
  );
}

/** A unit of length: its size in metres. */
export const lengthUnit = measureWords("unit of length", LENGTHS);
/** A unit of mass: its size in grams. */
export const massUnit = measureWords("unit of mass", MASSES);
