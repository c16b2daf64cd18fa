import { expectWithin, figure } from "../plausible";
import { absent } from "../refusal";

/** An error allowed of so many deviations asks for nothing: a percent beside fractions. Common practice, no source. */
const MOST_TIMES = 20;
/** More than any lot has: a fraction beside percents. */
const MOST_BALES = 20_000;

/** An error in the unit of the deviations. */
export function expectError(error: number, between: number, within: number): number {
  const largest = Math.max(between, within);
  const allowed = (): string => `beside deviations of ${figure(between)} and ${figure(within)}; are all in one unit?`;
  if (largest > 0) expectWithin(error / largest, 0, MOST_TIMES, "error", error, allowed);
  return error;
}

export function expectBales(error: number, bales: number): number {
  return expectWithin(bales, 0, MOST_BALES, "error", error, (shown) => `${shown} bales; are all in one unit?`);
}

/** Rounding noise must not ask for one bale more. */
const NOISE = 1e-9;

/**
 * Bales to core so that the lot's mean is known to ± error. With n bales of N, k cores a bale, the variance of the
 * mean is (1 − n/N)·sb²/n + sw²/(n·k): cored bales leave the lot's other bales, hence the finite-lot factor on what
 * lies between bales, but a core is a trifle of its bale, hence none on what lies within. Setting z²·variance = error²
 * gives n = (sb² + sw²/k) / (error²/z² + sb²/N), which needs no repetition; without N the last term is 0.
 * sb is the standard deviation between true bale means: sb² = (mean square between − mean square within)/k.
 * Source: the analysis of variance of DEAN-VOSS.
 */
export function balesToCore(
  deviationBetween: number,
  deviationWithin: number,
  coresPerBale: number,
  error: number,
  z: number,
  balesInLot: number | undefined,
): number {
  const between = deviationBetween * deviationBetween;
  const within = (deviationWithin * deviationWithin) / coresPerBale;
  const wanted = (error / z) ** 2 + (balesInLot === undefined ? 0 : between / balesInLot);
  const bales = Math.max(1, roundedUp((between + within) / wanted));
  if (balesInLot !== undefined && bales > balesInLot) {
    absent(
      "error",
      String(error),
      `${balesInLot} bales of ${coresPerBale} cores cannot reach it; take more cores a bale`,
    );
  }
  return bales;
}

function roundedUp(value: number): number {
  return Math.ceil(value - NOISE * value);
}
