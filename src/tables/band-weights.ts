/** The bands of a measured reflectance, in nm. */
const FIRST_BAND = 400;
const LAST_BAND = 700;
const BAND_STEP = 10;

/**
 * What each band of a reflectance counts for where a light shines with `power` and an eye answers by `curve`, both
 * sampled from `first` nm at equal steps: the sum over the samples with the reflectance between its bands by Lagrange's
 * polynomials of four bands, of three at the ends of the range. What falls on bands outside 400 to 700 nm counts for
 * the first or the last. Source: CIE-15, which leaves the interpolation open.
 */
export function bandWeights(
  power: readonly number[],
  curve: readonly number[],
  { first, step }: { readonly first: number; readonly step: number },
): number[] {
  const weights = new Array<number>((LAST_BAND - FIRST_BAND) / BAND_STEP + 1).fill(0);
  const last = ((power.length - 1) * step) / BAND_STEP;
  const lead = (FIRST_BAND - first) / BAND_STEP;
  power.forEach((value, sample) => {
    const at = (sample * step) / BAND_STEP;
    const interval = Math.min(Math.floor(at), last - 1);
    const [from, to] = [Math.max(interval - 1, 0), Math.min(interval + 2, last)];
    for (let band = from; band <= to; band++) {
      let part = value * curve[sample]!;
      for (let other = from; other <= to; other++) if (other !== band) part *= (at - other) / (band - other);
      weights[Math.min(Math.max(band - lead, 0), weights.length - 1)]! += part;
    }
  });
  return weights;
}
