/**
 * Specific volume of worsted yarn in cm³/g: the value at which one inch holds exactly 0.9·√(yd/lb) diameters.
 * d = 1/(0.9·√Y) inch and tex = (45359237/91.44)/Y give v = π·2.54² / (4·0.9²·tex·Y·1e-5). Source: ASHENHURST.
 */
export const WORSTED_SPECIFIC_VOLUME = (Math.PI * 2.54 ** 2) / (4 * 0.9 ** 2 * (45359237 / 91.44) * 1e-5);

/** Diameter of a round yarn: d = √(4·tex·v·1e-5/π) cm, here in millimetres. Geometry. */
export function diameterInMm(tex: number, specificVolume: number): number {
  return 10 * Math.sqrt((4 * tex * specificVolume * 1e-5) / Math.PI);
}
