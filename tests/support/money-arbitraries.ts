import fc from "fast-check";

/** Amounts as people write them: so many decimals, so that exact sums exist. */
export function decimals(least: number, most: number, places: number): fc.Arbitrary<number> {
  const unit = 10 ** places;
  return fc.integer({ min: Math.round(least * unit), max: Math.round(most * unit) }).map((units) => units / unit);
}
