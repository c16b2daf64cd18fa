/** Standard deviation of one colour's share of the fibres, by number, in the section of a yarn of randomly placed fibres (binomial law). */
export function shareDeviation(share: number, fibres: number): number {
  return Math.sqrt((share * (1 - share)) / fibres);
}
