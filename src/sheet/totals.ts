import { refuse } from "../trade/refusal";

/*
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

/** Amounts: 1, 2, 3 and 6 may be amounts, but figures of some digits do not sum to the last of them by chance. */
export function refuseTotal(name: string, values: readonly number[]): void {
  if (!isTotalOf(values, 3)) return;
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

/** Measurements of one thing: none is as large as all others together. */
export function refuseTotalOfMeasurements(name: string, values: readonly number[]): void {
  if (isTotalOf(values, 2)) refuseLast(name, values);
}

/** Of the mean at the foot of a column, what is shown of it. */
const SHOWN = 0.002;

/** Amounts beside figures of which they are the weights: a total stands beside the mean. */
export function refuseTotalWithMean(name: string, amounts: readonly number[], figures: readonly number[]): void {
  if (!isTotalOf(amounts, 2)) return;
  const others = amounts.slice(0, -1);
  const total = amounts[others.length] as number;
  const mean = others.reduce((sofar, amount, index) => sofar + amount * (figures[index] as number), 0) / total;
  const last = figures[others.length] as number;
  if (Math.abs(mean - last) <= SHOWN * Math.abs(last)) refuseLast(name, amounts);
}

/** Two columns of amounts that both end in their sums. */
export function refuseTotalInBoth(name: string, values: readonly number[], beside: readonly number[]): void {
  if (isTotalOf(values, 2) && isTotalOf(beside, 2)) refuseLast(name, values);
}
