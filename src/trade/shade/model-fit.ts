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
const HALVINGS = 50;
/** Far finer than pads can tell, and far coarser than the last digits in which two machines differ. */
const DECIMALS = 9;

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
  const best = levelled(meanSquare, from + stride * (nearest - 1), from + stride * (nearest + 1));
  const constant = Number(Math.exp(best).toFixed(DECIMALS));
  return { constant, difference: Math.sqrt(meanSquare(Math.log(constant))) };
}

/** Wide enough for the last digit to count little. */
const STEP = 0.02;

/**
 * Where the slope turns upwards between two places. Comparing values cannot tell places closer than the root of their
 * last digit, and that digit is another in another runtime; the slope tells them to all digits.
 */
function levelled(measure: (place: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let round = 0; round < HALVINGS; round++) {
    const place = (low + high) / 2;
    const slope =
      measure(place - 2 * STEP) - 8 * measure(place - STEP) + 8 * measure(place + STEP) - measure(place + 2 * STEP);
    if (slope < 0) low = place;
    else high = place;
  }
  return (low + high) / 2;
}
