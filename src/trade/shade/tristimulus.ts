import type { Light } from "../../tables/lights";

/** L*, a*, b*. */
export type Lab = readonly [lightness: number, a: number, b: number];
/** X, Y, Z, on the scale where white has Y = 100. */
export type Tristimulus = readonly [X: number, Y: number, Z: number];

// Source: CIE-15. The rounded 0.008856 and 903.3 leave a step in the curve; these are the exact ratios.
const LINEAR_BELOW = 216 / 24389;
const LINEAR_SLOPE = 24389 / 27;

export function tristimulusOf(reflectance: ArrayLike<number>, light: Light): Tristimulus {
  let X = 0;
  let Y = 0;
  let Z = 0;
  for (let band = 0; band < reflectance.length; band++) {
    const value = reflectance[band]!;
    X += value * light.x[band]!;
    Y += value * light.y[band]!;
    Z += value * light.z[band]!;
  }
  return [X, Y, Z];
}

export function labOfTristimulus([X, Y, Z]: Tristimulus, white: Tristimulus): Lab {
  const fx = lightnessCurve(X / white[0]);
  const fy = lightnessCurve(Y / white[1]);
  const fz = lightnessCurve(Z / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

export function tristimulusOfLab([lightness, a, b]: Lab, white: Tristimulus): Tristimulus {
  const fy = (lightness + 16) / 116;
  return [
    white[0] * lightnessCurveInverse(fy + a / 500),
    white[1] * lightnessCurveInverse(fy),
    white[2] * lightnessCurveInverse(fy - b / 200),
  ];
}

export function labOf(reflectance: ArrayLike<number>, light: Light): Lab {
  return labOfTristimulus(tristimulusOf(reflectance, light), light.white);
}

function lightnessCurve(ratio: number): number {
  return ratio > LINEAR_BELOW ? Math.cbrt(ratio) : (LINEAR_SLOPE * ratio + 16) / 116;
}

/** The slope of the lightness curve, for following how a shade moves with a reflectance. */
export function lightnessCurveSlope(ratio: number): number {
  return ratio > LINEAR_BELOW ? 1 / (3 * Math.cbrt(ratio) ** 2) : LINEAR_SLOPE / 116;
}

function lightnessCurveInverse(value: number): number {
  const cube = value ** 3;
  return cube > LINEAR_BELOW ? cube : (116 * value - 16) / LINEAR_SLOPE;
}
