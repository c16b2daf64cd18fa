import { absent } from "../refusal";

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
