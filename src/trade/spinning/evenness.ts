import { expectWithin, figure } from "../plausible";

/**
 * Limiting irregularity: the CV of mass per length of a yarn whose fibres lie wholly at random, √(1 + 4·cv²)/√n with
 * the variation of diameter (a diameter's variation counts twice in its area). Sources: RIETER, NPTEL-32.
 */
export function limitingVariation(fibres: number, diameterVariation: number): number {
  return Math.sqrt((1 + 4 * diameterVariation * diameterVariation) / fibres);
}

/** Measuring may fall short of the limit by a little, and no yarn is more even by more; common practice, no source. */
const LEAST_INDEX = 0.8;

/** Measured over limiting CV: 1 is as even as random fibres can be. */
export function indexOfIrregularity(measured: number, fibres: number, diameterVariation: number): number {
  const limit = limitingVariation(fibres, diameterVariation);
  const allowed = (): string => `below the limit of ${figure(limit)} for ${fibres} fibres; check both`;
  return expectWithin(measured / limit, LEAST_INDEX, Infinity, "cv_measured", measured, allowed);
}

/** CV after doubling strands that vary independently, with what the machine adds. */
export function doubledVariation(variation: number, doublings: number, added: number): number {
  return Math.sqrt((variation * variation) / doublings + added * added);
}
