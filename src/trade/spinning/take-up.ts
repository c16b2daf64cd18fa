import { secantOf } from "./helix";

/** How the fibres are taken to lie: in the ideal helical yarn, or as staple that slips (J-STAGE-1968). */
export type TakeUpModel = "ideal" | "staple";

/** Fraction of its untwisted length that a yarn loses in spinning, from the tangent of its surface angle α. */
export function takeUp(tangent: number, model: TakeUpModel): number {
  return model === "ideal" ? idealTakeUp(tangent) : stapleTakeUp(tangent);
}

/** tan²(α/2): one less the mean of cos θ over the section of an ideal helical yarn. Written without cancellation. */
function idealTakeUp(tangent: number): number {
  const halfTangent = tangent / (1 + secantOf(tangent));
  return halfTangent * halfTangent;
}

/** Below this the closed form loses digits in a difference of nearly equal numbers. */
const SERIES_BELOW = 0.1;

/** 1 + ln(cos α)·cos α/(1 − cos α), of which the series is Σ uⁿ/(n(n+1)) with u = 1 − cos α. Source: J-STAGE-1968. */
export function stapleTakeUp(tangent: number): number {
  const secant = secantOf(tangent);
  const excess = (tangent / (secant + 1)) * tangent; // sec α − 1
  const rest = excess / secant; // 1 − cos α
  if (rest >= SERIES_BELOW) return 1 - Math.log1p(excess) / excess;
  let sum = 0;
  let power = rest;
  for (let n = 1; ; n++) {
    const term = power / (n * (n + 1));
    if (!(term > sum * Number.EPSILON)) return sum;
    sum += term;
    power *= rest;
  }
}
