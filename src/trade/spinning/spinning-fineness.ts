/**
 * Diameter at a variation of 24 % that spins like this wool: 0.881·d·√(1 + 5·cv²). 0.881 is the printed constant, and
 * rounds 1/√(1 + 5·0.24²). From memory, verify before use.
 */
export function spinningFineness(micron: number, variation: number): number {
  return 0.881 * micron * Math.sqrt(1 + 5 * variation * variation);
}
