/**
 * Limiting irregularity: the CV of mass per length of a yarn whose fibres lie wholly at random, √(1 + 4·cv²)/√n with
 * the variation of diameter (a diameter's variation counts twice in its area). Sources: RIETER, NPTEL-32.
 */
export function limitingVariation(fibres: number, diameterVariation: number): number {
  return Math.sqrt((1 + 4 * diameterVariation * diameterVariation) / fibres);
}

/** Measured over limiting CV: 1 is as even as random fibres can be. */
export function indexOfIrregularity(measured: number, fibres: number, diameterVariation: number): number {
  return measured / limitingVariation(fibres, diameterVariation);
}

/** CV after doubling strands that vary independently, with what the machine adds. */
export function doubledVariation(variation: number, doublings: number, added: number): number {
  return Math.sqrt((variation * variation) / doublings + added * added);
}
