/**
 * Which part of the variance each input brings in by itself (the first-order part): the outcome is fitted by a sum of
 * functions of one input each, polynomials that are orthogonal over the drawn values, and the variance of each
 * function is set against the sum of all of them and of what the fit leaves. What the fit owes to chance is taken off, so that an input that does
 * nothing has 0 on average. For a straight dependence this is the squared correlation.
 */
export interface Effects {
  readonly all: readonly number[];
  /** With one group after the other left out. */
  readonly without: readonly (readonly number[])[];
  /** By how much the fit moves the outcome in the tenth of the runs in which the input is lowest, and highest. */
  readonly ends: readonly { readonly low: number; readonly high: number }[];
}

interface Drawn {
  readonly inputs: readonly number[];
  readonly value: number;
}

const HIGHEST_POWER = 8;
/** A coefficient wants so many runs. */
const RUNS_A_COEFFICIENT = 10;

export function effectsOf(groups: readonly (readonly Drawn[])[], moving: readonly number[]): Effects {
  const runs = groups.flat();
  const most = Math.floor(runs.length / RUNS_A_COEFFICIENT / Math.max(1, moving.length));
  const power = Math.max(1, Math.min(HIGHEST_POWER, most));
  const columns = moving.map((input) =>
    polynomials(
      runs.map(({ inputs }) => inputs[input] as number),
      power,
    ),
  );
  const values = runs.map(({ value }) => value);
  const spans: { from: number; to: number }[] = [];
  let width = 1;
  for (const { length } of columns) spans.push({ from: width, to: (width += length) });
  const design = columns.flat();

  let at = 0;
  const sums = groups.map(({ length }) => sumsOver(design, values, at, (at += length)));
  const whole = sums.reduce((one, other) => combined(one, other, 1));
  const parts = (of: Sums) => partsIn(of, spans);
  const weights = fitted(whole)?.weights ?? [];
  return {
    all: parts(whole),
    without: groups.length < 2 ? [] : sums.map((one) => parts(combined(whole, one, -1))),
    ends: moving.map((input, place) => {
      const { from, to } = spans[place] as { from: number; to: number };
      const effect = (run: number) => {
        let sum = 0;
        for (let at = from; at < to; at++) sum += (weights[at] ?? 0) * ((design[at - 1] as number[])[run] as number);
        return sum;
      };
      const by = [...runs.keys()].sort(
        (a, b) => (runs[a]?.inputs[input] as number) - (runs[b]?.inputs[input] as number),
      );
      const tenth = Math.max(1, Math.round(by.length / 10));
      const mean = (some: number[]) => some.reduce((sum, run) => sum + effect(run), 0) / some.length;
      return { low: mean(by.slice(0, tenth)), high: mean(by.slice(-tenth)) };
    }),
  };
}

/** Powers of a variable, each freed of those before it over the given values; those that have nothing left are left out. */
function polynomials(values: readonly number[], power: number): number[][] {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const centred = values.map((value) => value - mean);
  const size = Math.max(...centred.map(Math.abs));
  if (!(size > 0)) return [];
  const base = centred.map((value) => value / size);
  const found: number[][] = [];
  let last = base.map(() => 1);
  for (let exponent = 1; exponent <= power; exponent++) {
    let next = last.map((value, row) => value * (base[row] as number));
    const before = lengthOf(next);
    // Twice is enough: what rounding leaves of the lower powers goes in the second round.
    for (let round = 0; round < 2; round++) {
      const middle = next.reduce((sum, value) => sum + value, 0) / count;
      next = next.map((value) => value - middle);
      for (const lower of found) {
        const share = product(next, lower) / count;
        next = next.map((value, row) => value - share * (lower[row] as number));
      }
    }
    const length = lengthOf(next);
    if (!(length > 1e-9 * before)) break;
    const scale = Math.sqrt(count) / length;
    last = next.map((value) => value * scale);
    found.push(last);
  }
  return found;
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, row) => sum + value * (other[row] as number), 0);
}

function lengthOf(column: readonly number[]): number {
  return Math.sqrt(product(column, column));
}

/** The sums of products that a fit is made of: columns with columns (the first is 1), columns with the outcome. */
interface Sums {
  readonly count: number;
  readonly cross: readonly Float64Array[];
  readonly toValue: Float64Array;
  readonly squares: number;
}

function sumsOver(design: readonly number[][], values: readonly number[], from: number, to: number): Sums {
  const width = design.length + 1;
  const cross = Array.from({ length: width }, () => new Float64Array(width));
  const toValue = new Float64Array(width);
  // Around one value, so that the squares lose no digits.
  const origin = values[0] ?? 0;
  let squares = 0;
  const row = new Float64Array(width);
  for (let at = from; at < to; at++) {
    row[0] = 1;
    for (let column = 1; column < width; column++) row[column] = (design[column - 1] as number[])[at] as number;
    const value = (values[at] as number) - origin;
    squares += value * value;
    for (let i = 0; i < width; i++) {
      const mine = row[i] as number;
      const line = cross[i] as Float64Array;
      for (let j = 0; j <= i; j++) line[j] = (line[j] as number) + mine * (row[j] as number);
      toValue[i] = (toValue[i] as number) + mine * value;
    }
  }
  return { count: to - from, cross, toValue, squares };
}

function combined(one: Sums, other: Sums, sign: 1 | -1): Sums {
  const added = (a: Float64Array, b: Float64Array) => a.map((value, index) => value + sign * (b[index] as number));
  return {
    count: one.count + sign * other.count,
    cross: one.cross.map((line, index) => added(line, other.cross[index] as Float64Array)),
    toValue: added(one.toValue, other.toValue),
    squares: one.squares + sign * other.squares,
  };
}

interface Fit {
  readonly weights: readonly number[];
  readonly inverse: readonly Float64Array[];
  /** The variance of what the fit leaves. */
  readonly noise: number;
}

function fitted({ count, cross, toValue, squares }: Sums): Fit | undefined {
  const width = toValue.length;
  const inverse = count > width ? inverseOf(cross) : undefined;
  if (inverse === undefined) return undefined;
  const weights = Array.from(toValue, (_, i) => toValue.reduce((sum, value, j) => sum + at(inverse, i, j) * value, 0));
  const explained = weights.reduce((sum, weight, index) => sum + weight * (toValue[index] as number), 0);
  return { weights, inverse, noise: Math.max(0, squares - explained) / (count - width) };
}

function partsIn(sums: Sums, spans: readonly { from: number; to: number }[]): number[] {
  const fit = fitted(sums);
  if (fit === undefined) return spans.map(() => 0);
  const { count, cross } = sums;
  const { weights, inverse, noise } = fit;
  const own = spans.map(({ from, to }) => {
    let variance = 0;
    for (let i = from; i < to; i++) {
      for (let j = from; j < to; j++) {
        const together = (at(cross, i, j) - (at(cross, i, 0) * at(cross, j, 0)) / count) / count;
        variance += together * ((weights[i] as number) * (weights[j] as number) - noise * at(inverse, i, j));
      }
    }
    return variance;
  });
  // Inputs that happen to go together in these runs make the spread of the outcome larger or smaller; the sum has none of that.
  const total = own.reduce((sum, variance) => sum + variance, 0) + noise;
  return own.map((variance) => (total > 0 ? variance / total : 0));
}

/** Of a symmetric matrix, of which the lower half is given. */
function at(matrix: readonly Float64Array[], row: number, column: number): number {
  return (row >= column ? matrix[row]?.[column] : matrix[column]?.[row]) as number;
}

/** The inverse of a symmetric matrix by its square root (Cholesky), lower half; nothing where it has none. */
function inverseOf(matrix: readonly Float64Array[]): Float64Array[] | undefined {
  const width = matrix.length;
  const root = matrix.map((line) => line.slice());
  for (let i = 0; i < width; i++) {
    const line = root[i] as Float64Array;
    for (let j = 0; j <= i; j++) {
      const other = root[j] as Float64Array;
      let rest = line[j] as number;
      for (let k = 0; k < j; k++) rest -= (line[k] as number) * (other[k] as number);
      if (i === j) {
        if (!(rest > 1e-10 * at(matrix, i, i))) return undefined;
        line[i] = Math.sqrt(rest);
      } else line[j] = rest / (other[j] as number);
    }
  }
  // The inverse of the root, column by column, and then its square.
  const back = Array.from({ length: width }, () => new Float64Array(width));
  for (let column = 0; column < width; column++) {
    for (let i = column; i < width; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = column; k < i; k++) sum -= at(root, i, k) * ((back[k] as Float64Array)[column] as number);
      (back[i] as Float64Array)[column] = sum / at(root, i, i);
    }
  }
  return Array.from({ length: width }, (_, i) => {
    const line = new Float64Array(width);
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = i; k < width; k++)
        sum += ((back[k] as Float64Array)[i] as number) * ((back[k] as Float64Array)[j] as number);
      line[j] = sum;
    }
    return line;
  });
}
