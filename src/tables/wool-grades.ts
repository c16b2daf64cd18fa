/** A grade of grease wool by average fibre diameter. */
export interface WoolGrade {
  readonly word: string;
  /** The finest average diameter of the grade, micron, in hundredths as the table is written. */
  readonly from: number;
  /** The greatest standard deviation of diameter the grade admits, micron; none for the coarsest. */
  readonly deviation: number;
  /** Key of tables/sources.ts. */
  readonly source: string;
}

type Row = readonly [word: string, from: number, deviation: number, source?: string];

const ROWS: readonly Row[] = [
  ["Finer than 80s", 0, 3.59],
  ["80s", 17.7, 4.09],
  ["70s", 19.15, 4.59],
  ["64s", 20.6, 5.19],
  ["62s", 22.05, 5.89],
  ["60s", 23.5, 6.49],
  ["58s", 24.95, 7.09],
  ["56s", 26.4, 7.59],
  ["54s", 27.85, 8.19],
  ["50s", 29.3, 8.69],
  ["48s", 31, 9.09],
  ["46s", 32.7, 9.59],
  ["44s", 34.4, 10.09],
  ["40s", 36.2, 10.69],
  ["36s", 38.1, 11.19, "MEMORY"],
  ["Coarser than 36s", 40.21, Infinity, "MEMORY"],
];

/** Finest first. */
export const WOOL_GRADES: readonly WoolGrade[] = ROWS.map(([word, from, deviation, source = "USDA-GRADES"]) => ({
  word,
  from,
  deviation,
  source,
}));
