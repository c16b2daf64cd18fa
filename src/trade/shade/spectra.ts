import { counted, refuse } from "../refusal";

/** Every reflectance is worked on as 31 bands, 400 to 700 nm by 10 nm: the bands of the tristimulus weights. */
export const BANDS = 31;
export const FIRST_NM = 400;
export const STEP_NM = 10;
const LAST_NM = FIRST_NM + STEP_NM * (BANDS - 1);

export const BLACKEST = 0.001;
export const WHITEST = 0.999;

/**
 * A reflectance on the 31 bands, from one that starts and steps otherwise. Between the measured bands a cubic through
 * the four nearest (a parabola at the ends); outside them the nearest value.
 */
export function onBands(measured: readonly number[], first: number, step: number): readonly number[] {
  if (first === FIRST_NM && step === STEP_NM && measured.length === BANDS) return measured;
  const last = first + step * (measured.length - 1);
  if (last <= FIRST_NM || first >= LAST_NM) {
    refuse("reflectance", `measured from ${first} to ${last} nm`, "it must cover part of 400 to 700 nm");
  }
  return Array.from({ length: BANDS }, (_, band) => interpolated(measured, (FIRST_NM + STEP_NM * band - first) / step));
}

/** The value at a place counted in steps from the first band. */
function interpolated(measured: readonly number[], place: number): number {
  const end = measured.length - 1;
  if (place <= 0) return measured[0] as number;
  if (place >= end) return measured[end] as number;
  const below = Math.floor(place);
  if (place === below) return measured[below] as number;
  const from = Math.max(0, below - 1);
  const to = Math.min(end, below + 2);
  let value = 0;
  for (let node = from; node <= to; node++) {
    let weight = 1;
    for (let other = from; other <= to; other++) if (other !== node) weight *= (place - other) / (node - other);
    value += weight * (measured[node] as number);
  }
  return value;
}

/** A reflectance the blend models can take: they have no answer at 0 and at 1. */
export function clipped(reflectance: number): number {
  return Math.min(WHITEST, Math.max(BLACKEST, reflectance));
}

/** The same with the usual wavelengths filled in: 31 bands are 400 to 700 nm by 10, 16 bands 400 to 700 by 20. */
export function onUsualBands(measured: readonly number[], first?: number, step?: number): readonly number[] {
  const bands = measured.length;
  const usualStep = step ?? (bands === BANDS ? STEP_NM : bands === (BANDS + 1) / 2 ? 2 * STEP_NM : undefined);
  const usualFirst = first ?? (usualStep === (LAST_NM - FIRST_NM) / (bands - 1) ? FIRST_NM : undefined);
  if (usualStep === undefined || usualFirst === undefined) {
    refuse(
      "reflectance",
      `${counted(bands, "band")} wide`,
      "give first_nm and step_nm, or 31 or 16 bands from 400 to 700 nm",
    );
  }
  return onBands(measured, usualFirst, usualStep);
}
