/**
 * How an input is spread over its range, as the value below which a given share of all cases lies. All of it is exact
 * formulas of plus, minus, times, divided and root, which give the same bits on every machine.
 */
export type Shape =
  | { readonly kind: "triangle"; readonly low: number; readonly likely: number; readonly high: number }
  /** Low and high are the values below which 5 and 95 % of the cases lie. */
  | { readonly kind: "normal"; readonly low: number; readonly high: number }
  | { readonly kind: "even"; readonly low: number; readonly high: number }
  /** Each value is as likely as the others. */
  | { readonly kind: "list"; readonly values: readonly number[] };

/** The value below which this share of the cases lies; the share is between 0 and 1. */
export function valueAt(shape: Shape, share: number): number {
  switch (shape.kind) {
    case "triangle":
      return triangleAt(shape, share);
    case "normal": {
      const middle = (shape.low + shape.high) / 2;
      return middle + (((shape.high - shape.low) / 2) * normalAt(share)) / NORMAL_AT_95;
    }
    case "even":
      return shape.low + share * (shape.high - shape.low);
    case "list":
      return shape.values[Math.min(shape.values.length - 1, Math.floor(share * shape.values.length))] as number;
  }
}

/** The low or the high of a range as it is given. */
export function endOf(shape: Shape, end: "low" | "high"): number {
  if (shape.kind !== "list") return shape[end];
  return end === "low" ? Math.min(...shape.values) : Math.max(...shape.values);
}

/** The share of the cases that lies below that end; for a list the middle of the share of that value. */
export function shareAt(shape: Shape, end: "low" | "high"): number {
  switch (shape.kind) {
    case "normal":
      return end === "low" ? 0.05 : 0.95;
    case "list":
      return (shape.values.indexOf(endOf(shape, end)) + 0.5) / shape.values.length;
    default:
      return end === "low" ? 0 : 1;
  }
}

function triangleAt({ low, likely, high }: { low: number; likely: number; high: number }, share: number): number {
  const width = high - low;
  if (width === 0) return low;
  return share * width < likely - low
    ? low + Math.sqrt(share * width * (likely - low))
    : high - Math.sqrt((1 - share) * width * (high - likely));
}

/**
 * The standard normal value below which a share lies: M. J. Wichura, "Algorithm AS 241: The Percentage Points of the
 * Normal Distribution", Applied Statistics 37 (1988), PPND16, right to about 1 part in 10^16.
 */
export function normalAt(share: number): number {
  const q = share - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return q * ratio(MIDDLE, r);
  }
  const r = Math.sqrt(-logarithm(q < 0 ? share : 1 - share));
  const value = r <= 5 ? ratio(SHOULDER, r - 1.6) : ratio(TAIL, r - 5);
  return q < 0 ? -value : value;
}

type Ratio = readonly [above: readonly number[], below: readonly number[]];

const MIDDLE: Ratio = [
  [
    3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457,
    67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
  ],
  [
    1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867, 39307.89580009271061,
    28729.085735721942674, 5226.495278852545925,
  ],
];
const SHOULDER: Ratio = [
  [
    1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
    1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
  ],
  [
    1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
    0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
  ],
];
const TAIL: Ratio = [
  [
    6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
    0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
  ],
  [
    1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4,
    1.8463183175100546818e-5, 1.4215117583164458887e-7, 2.04426310338993978564e-15,
  ],
];

function ratio([above, below]: Ratio, r: number): number {
  const sum = (terms: readonly number[]) => terms.reduceRight((total, term) => total * r + term, 0);
  return sum(above) / sum(below);
}

/** The natural logarithm of a share, from arithmetic alone: engines may differ in the last bit of Math.log. */
function logarithm(share: number): number {
  let mantissa = share;
  let halvings = 0;
  while (mantissa < Math.SQRT1_2) {
    mantissa *= 2;
    halvings++;
  }
  const s = (mantissa - 1) / (mantissa + 1);
  const square = s * s;
  let sum = 0;
  for (let power = 41; power >= 1; power -= 2) sum = sum * square + 1 / power;
  return 2 * s * sum - halvings * Math.LN2;
}

const NORMAL_AT_95 = normalAt(0.95);
