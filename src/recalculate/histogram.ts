export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

const MOST_BINS = 24;

/**
 * Counts in equal steps of a round width (1, 2 or 5 times a power of ten), each from its start to below its end; the
 * width follows D. Freedman and P. Diaconis (1981), as far as it leaves no more bins than can be read.
 */
export function histogramOf(values: readonly number[]): Bin[] {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[0] as number, sorted[sorted.length - 1] as number];
  if (!(high > low)) return [{ from: low, to: high, count: sorted.length }];
  const quarter = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] as number;
  const wanted = (2 * (quarter(0.75) - quarter(0.25))) / Math.cbrt(sorted.length);
  const width = roundWidth(Math.max(wanted, (high - low) / MOST_BINS));
  const first = Math.floor(low / width);
  const bins = Math.floor(high / width) - first + 1;
  const counts = new Array<number>(bins).fill(0);
  for (const value of sorted) {
    const bin = Math.min(bins - 1, Math.floor(value / width) - first);
    counts[bin] = (counts[bin] as number) + 1;
  }
  return counts.map((count, bin) => ({ from: (first + bin) * width, to: (first + bin + 1) * width, count }));
}

/** The next 1, 2 or 5 times a power of ten. */
export function roundWidth(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5].find((step) => step * power >= least * (1 - 1e-9)) ?? 10) * power;
}
