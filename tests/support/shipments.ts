import { Fraction, power, totalOf } from "./fractions";

/** The rules of sharing charges out, written again from their words in exact fractions. */

export interface RuledCharge {
  readonly amount: number;
  readonly basis: "value" | "mass" | "volume" | "quantity" | "equal";
}

export interface RuledLine {
  readonly value: number;
  readonly mass: number;
  readonly volume: number;
  readonly quantity: number;
}

/** Whole units by largest remainder, the first of equals first. */
export function ruledShares(total: number, weights: readonly number[], decimals: number): Fraction[] {
  const units = Fraction.from(total).rounded(decimals).times(power(decimals));
  const exact = exactShares(units.abs(), weights);
  const whole = exact.map((share) => share.floor());
  let left = Number(units.abs().floor() - whole.reduce((sofar, part) => sofar + part, 0n));
  while (left > 0) {
    let next = -1;
    exact.forEach((share, index) => {
      const remainder = share.minus(Fraction.of(whole[index] as bigint));
      // A part that has had its unit has a remainder below 0.
      if (remainder.numerator < 0n) return;
      if (next < 0 || remainder.compare((exact[next] as Fraction).minus(Fraction.of(whole[next] as bigint))) > 0) {
        next = index;
      }
    });
    whole[next] = (whole[next] as bigint) + 1n;
    left--;
  }
  const sign = units.numerator < 0n ? -1n : 1n;
  return whole.map((part) => Fraction.of(sign * part).over(power(decimals)));
}

export function exactShares(total: Fraction, weights: readonly number[]): Fraction[] {
  const exact = weights.map(Fraction.from);
  const all = totalOf(exact);
  return exact.map((weight) => total.times(weight).over(all));
}

/** The table without its header: lines, then totals; the last column is the landed cost per unit. */
export function ruledLanded(
  lines: readonly RuledLine[],
  charges: readonly RuledCharge[],
  decimals: number,
): Fraction[][] {
  const parts = charges.map(({ amount, basis }) =>
    ruledShares(
      amount,
      lines.map((line) => (basis === "equal" ? 1 : line[basis])),
      decimals,
    ),
  );
  const rows = lines.map(({ value, quantity }, row) => {
    const own = parts.map((part) => part[row] as Fraction);
    return finished(Fraction.from(value), own, Fraction.from(quantity));
  });
  const totals = finished(
    totalOf(lines.map(({ value }) => Fraction.from(value))),
    charges.map(({ amount }) => Fraction.from(amount).rounded(decimals)),
    totalOf(lines.map(({ quantity }) => Fraction.from(quantity))),
  );
  return [...rows, totals];
}

function finished(value: Fraction, charges: readonly Fraction[], quantity: Fraction): Fraction[] {
  const landed = value.plus(totalOf(charges));
  return [value, ...charges, landed, quantity, landed.over(quantity)];
}
