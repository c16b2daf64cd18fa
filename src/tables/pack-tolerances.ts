/** One band of the tolerable negative error of a pack: a share of the nominal quantity, or a fixed number of grams. */
export interface PackTolerance {
  /** The band ends here, grams, this figure included; neighbouring bands agree where they meet. */
  readonly upTo: number;
  readonly share?: number;
  readonly grams?: number;
  /** Key of tables/sources.ts. */
  readonly source: string;
}

/** The smallest and the largest nominal quantity covered, grams. */
export const SMALLEST_PACK = 5;
export const LARGEST_PACK = 10000;

export const PACK_TOLERANCES: readonly PackTolerance[] = [
  { upTo: 50, share: 0.09, source: "EU-76-211" },
  { upTo: 100, grams: 4.5, source: "EU-76-211" },
  { upTo: 200, share: 0.045, source: "EU-76-211" },
  { upTo: 300, grams: 9, source: "EU-76-211" },
  { upTo: 500, share: 0.03, source: "EU-76-211" },
  { upTo: 1000, grams: 15, source: "EU-76-211" },
  { upTo: LARGEST_PACK, share: 0.015, source: "EU-76-211" },
];

/** Of so many packs, one may be short by more than the tolerable error (2.5 %). Source: PACKERS-RULES. */
export const PACKS_FOR_ONE_SHORT = 40;
