import type { Light } from "../../tables/lights";
import { blended, fibreModel } from "./blend-models";
import { absent } from "../refusal";
import { squaredDifference2000 } from "./shade-difference";
import { labOf, type Lab } from "./tristimulus";

/** A pad carded by the user: the shares that went in and the shade that came out. */
export interface Pad {
  readonly shares: readonly number[];
  readonly lab: Lab;
}

export interface FibreFit {
  readonly constant: number;
  /** Root mean square CIEDE2000 of the pads against the model with that constant. */
  readonly difference: number;
}

const SMALLEST = 0.01;
const LARGEST = 1;
const GRID = 40;
const NARROWINGS = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The constant M of the fibre model with the least squares of colour difference over the pads. */
export function fittedFibreConstant(
  pads: readonly Pad[],
  solids: readonly ArrayLike<number>[],
  light: Light,
): FibreFit {
  const meanSquare = (logarithm: number): number => {
    const model = fibreModel(Math.exp(logarithm));
    const squares = pads.map(({ shares, lab }) =>
      squaredDifference2000(lab, labOf(blended(shares, solids, model), light)),
    );
    return squares.reduce((sum, square) => sum + square, 0) / pads.length;
  };
  const from = Math.log(SMALLEST);
  const stride = (Math.log(LARGEST) - from) / GRID;
  const grid = Array.from({ length: GRID + 1 }, (_, index) => meanSquare(from + stride * index));
  const lowest = Math.min(...grid);
  if (Math.max(...grid) - lowest < 1e-6) {
    absent("blends", "alike for every constant", "card pads that mix a light solid with a dark one");
  }
  const nearest = grid.indexOf(lowest);
  if (nearest === 0 || nearest === GRID) {
    absent("blends", `best fitted beyond ${SMALLEST} to ${LARGEST}`, "check the shares and the readings");
  }
  const best = levelled(meanSquare, narrowed(meanSquare, from + stride * (nearest - 1), from + stride * (nearest + 1)));
  return { constant: Math.exp(best), difference: Math.sqrt(meanSquare(best)) };
}

/** The golden section: the lowest place between two, of a function with one valley there. */
function narrowed(measure: (place: number) => number, lower: number, upper: number): number {
  let low = lower;
  let high = upper;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let atLeft = measure(left);
  let atRight = measure(right);
  for (let round = 0; round < NARROWINGS; round++) {
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = measure(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = measure(right);
    }
  }
  return (low + high) / 2;
}

const STEP = 0.004;
const BESIDE = 1e-4;
const HALVINGS = 40;

/**
 * The place near the lowest one where the slope is nothing. Comparing values cannot tell places closer than the root
 * of their last digit, and that digit is another in another runtime; the slope tells them to all digits.
 */
function levelled(measure: (place: number) => number, lowest: number): number {
  const slope = (place: number) =>
    measure(place - 2 * STEP) - 8 * measure(place - STEP) + 8 * measure(place + STEP) - measure(place + 2 * STEP);
  let [low, high] = [lowest - BESIDE, lowest + BESIDE];
  // A kink has no such place.
  if (!(slope(low) < 0 && slope(high) > 0)) return lowest;
  for (let round = 0; round < HALVINGS; round++) {
    const middle = (low + high) / 2;
    if (slope(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
