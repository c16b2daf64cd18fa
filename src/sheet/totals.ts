import { refuse } from "../trade/refusal";

/*
 * What slips into a list and only its figures can tell: a total, or a point that stands wrong.
 *
 * A total at the foot of a column, marked along with the items, counts everything twice. In a table its name or two
 * columns tell; in a list only the figures can. What may as well be an item is never refused.
 */

const ROUNDING = 1e-9;

function isTotalOf(values: readonly number[], fewest: number): boolean {
  const others = values.slice(0, -1);
  const last = values[others.length];
  if (others.length < fewest || last === undefined || last === 0) return false;
  const sum = others.reduce((sofar, value) => sofar + value, 0);
  return Math.abs(sum - last) <= ROUNDING * Math.abs(last);
}

function refuseLast(name: string, values: readonly number[]): never {
  return refuse(`${name} item ${values.length}`, "the sum of the items above", "leave the total out, or list it first");
}

/**
 * Amounts: 1, 2, 3 and 6 may be amounts, but figures of some digits do not sum to the last of them by chance. What adds
 * up may be another figure than what is written, as the masses behind counts do.
 */
export function refuseTotal(name: string, values: readonly number[], adding = values): void {
  if (!isTotalOf(adding, 3)) return;
  const digits = values.slice(0, -1).reduce((sofar, value) => sofar + digitsOf(value), 0);
  if (digits >= 2 * (values.length - 1)) refuseLast(name, values);
}

function digitsOf(value: number): number {
  return value
    .toPrecision(15)
    .replace(/e.*$/, "")
    .replace(/[-.]/g, "")
    .replace(/^0+|0+$/g, "").length;
}

/** Losses one after the other, of which the last may be what all others come to: 5% and 3% are 7.85%, not by chance. */
export function refuseTotalLoss(name: string, losses: readonly number[]): void {
  refuseTotal(name, losses);
  const others = losses.slice(0, -1);
  const last = losses[others.length] as number;
  const together = 1 - others.reduce((left, loss) => left * (1 - loss), 1);
  if (others.length > 1 && digitsOf(last) > 2 && Math.abs(together - last) <= ROUNDING) refuseLast(name, losses);
}

/** Measurements of one thing: none is as large as all others together. */
export function refuseTotalOfMeasurements(name: string, values: readonly number[]): void {
  if (isTotalOf(values, 2)) refuseLast(name, values);
}

/** Measurements within a factor of 2 of each other, but for one that is 5 times off: its point slipped. */
const ALIKE = 2;
const SLIPPED = 5;

export function refuseSlippedPoint(name: string, values: readonly number[]): void {
  if (values.length < 3) return;
  const sorted = [...values].sort((a, b) => a - b);
  const least = sorted[0] as number;
  const second = sorted[1] as number;
  const [lastButOne, most] = sorted.slice(-2) as [number, number];
  const odd =
    second >= SLIPPED * least && most <= ALIKE * second
      ? least
      : most >= SLIPPED * lastButOne && lastButOne <= ALIKE * least
        ? most
        : undefined;
  if (odd === undefined) return;
  const usual = sorted[sorted.length >> 1] as number;
  const place = `${name} item ${values.indexOf(odd) + 1}`;
  refuse(place, String(odd), `far from the others, which lie about ${usual}; check its point`);
}

/** Of the mean at the foot of a column, what is shown of it. */
const SHOWN = 0.002;

/** Amounts beside figures of which they are the weights: a total stands beside the mean. */
export function refuseTotalWithMean(
  name: string,
  amounts: readonly number[],
  figures: readonly number[],
  meanOf = (rows: readonly number[]): number => weightedMean(rows, amounts, figures),
): void {
  refuseTotal(name, amounts);
  // Figures that are all alike are their own mean, and tell nothing.
  if (!isTotalOf(amounts, 2) || figures.every((figure) => figure === figures[0])) return;
  const mean = meanOf(amounts.slice(0, -1).map((_, row) => row));
  const last = figures[amounts.length - 1] as number;
  if (Math.abs(mean - last) <= SHOWN * Math.abs(last)) refuseLast(name, amounts);
}

function weightedMean(rows: readonly number[], amounts: readonly number[], figures: readonly number[]): number {
  const total = rows.reduce((sofar, row) => sofar + (amounts[row] as number), 0);
  return rows.reduce((sofar, row) => sofar + (amounts[row] as number) * (figures[row] as number), 0) / total;
}

/** Two columns of amounts that both end in their sums. */
export function refuseTotalInBoth(name: string, values: readonly number[], beside: readonly number[]): void {
  if (isTotalOf(values, 2) && isTotalOf(beside, 2)) refuseLast(name, values);
}
