/**
 * Student's t, two-sided: the chance of a value at least as far from 0 as t, which is the regularised incomplete beta
 * function I(x; ν/2, 1/2) at x = ν/(ν + t²). Worked out by its continued fraction.
 */
export function chanceBeyond(t: number, degrees: number): number {
  const square = t * t;
  return incompleteBeta(degrees / (degrees + square), square / (degrees + square), degrees / 2, 0.5);
}

/** The t within which values lie with this confidence, two-sided. */
export function limitOfT(confidence: number, degrees: number): number {
  const beyond = 1 - confidence;
  let low = 0;
  let high = 1;
  while (chanceBeyond(high, degrees) > beyond) high *= 2;
  // Halving to the last digit: the chance falls as t grows, so nothing is enlarged.
  let middle = high / 2;
  while (middle > low && middle < high) {
    if (chanceBeyond(middle, degrees) > beyond) low = middle;
    else high = middle;
    middle = (low + high) / 2;
  }
  return middle;
}

/** I(x; a, b), with 1 - x given beside it so that it does not lose digits near 1. */
function incompleteBeta(x: number, rest: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(rest));
  // Each of the two forms converges quickly on its own side.
  return x < (a + 1) / (a + b + 2) ? (front * fractionOf(x, a, b)) / a : 1 - (front * fractionOf(rest, b, a)) / b;
}

const SMALLEST = 1e-300;
const MOST_TERMS = 100_000;

/** The continued fraction of the incomplete beta function by the method of Lentz. */
function fractionOf(x: number, a: number, b: number): number {
  const away = (value: number): number => (Math.abs(value) < SMALLEST ? SMALLEST : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let term = 1; term <= MOST_TERMS; term++) {
    const even = (term * (b - term) * x) / ((a + 2 * term - 1) * (a + 2 * term));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    value *= d * c;
    const odd = (-(a + term) * (a + b + term) * x) / ((a + 2 * term) * (a + 2 * term + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return value;
}

/** Lanczos's series for the logarithm of the gamma function from 0.5 on, with g = 7 and nine terms: fifteen digits. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

function logGamma(value: number): number {
  const shifted = value - 1;
  const base = shifted + LANCZOS.length - 1.5;
  let sum = LANCZOS[0] as number;
  for (let term = 1; term < LANCZOS.length; term++) sum += (LANCZOS[term] as number) / (shifted + term);
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(base) - base + Math.log(sum);
}
