import type { Light } from "../../tables/lights";
import { solveInPlace } from "../solvers/linear-equations";
import { refuse } from "../refusal";
import { BANDS } from "./spectra";
import { labOf, tristimulusOfLab, type Lab, type Tristimulus } from "./tristimulus";

const MOST_ROUNDS = 60;
const LONGEST_STEP = 1.5;
const EQUATIONS = BANDS + 3;

/**
 * The smoothest reflectance of a given L*a*b*: with ρ = (tanh z + 1) / 2 the least Σ(z[i+1] - z[i])² that has the
 * given X, Y, Z, by Newton's method on its Lagrange equations. Source: BURNS-2017 (from the equations).
 * One of many reflectances of that shade, so how it looks in another light means nothing. Undefined when there is
 * none: no surface has that shade.
 */
export function smoothSpectrum(lab: Lab, light: Light): readonly number[] | undefined {
  const wanted = tristimulusOfLab(lab, light.white);
  // Most of what no surface can have is told at once, without sixty rounds.
  if (!wanted.every((value) => value > 0) || wanted[1] >= light.white[1]) return undefined;
  const weights = [light.x, light.y, light.z] as const;
  const z = new Float64Array(BANDS).fill(Math.atanh((2 * wanted[1]) / light.white[1] - 1));
  const multipliers = [0, 0, 0];
  const matrix = Array.from({ length: EQUATIONS }, () => new Float64Array(EQUATIONS));
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const right = equations(matrix, z, multipliers, weights, wanted);
    if (!solveInPlace(matrix, right)) return undefined;
    const longest = Math.max(...right.subarray(0, BANDS).map(Math.abs));
    if (!Number.isFinite(longest)) return undefined;
    const damping = Math.min(1, LONGEST_STEP / longest);
    z.forEach((_, band) => (z[band]! += damping * right[band]!));
    multipliers.forEach((_, axis) => (multipliers[axis]! += damping * right[BANDS + axis]!));
    if (longest < 1e-10) return reflectanceThatGives(lab, light, z);
  }
  return undefined;
}

function reflectanceThatGives(lab: Lab, light: Light, z: Float64Array): readonly number[] | undefined {
  const reflectance = Array.from(z, (value) => (Math.tanh(value) + 1) / 2);
  const got = labOf(reflectance, light);
  return got.every((value, axis) => Math.abs(value - lab[axis]!) < 1e-6) ? reflectance : undefined;
}

/** Newton's equations for the step in z and in the three multipliers, written into the matrix; their right side. */
function equations(
  matrix: readonly Float64Array[],
  z: Float64Array,
  multipliers: readonly number[],
  weights: readonly (readonly number[])[],
  wanted: Tristimulus,
): Float64Array {
  for (const row of matrix) row.fill(0);
  const right = new Float64Array(EQUATIONS);
  right.set(wanted, BANDS);
  for (let band = 0; band < BANDS; band++) {
    const row = matrix[band]!;
    const tanh = Math.tanh(z[band]!);
    const slope = (1 - tanh * tanh) / 2;
    let pull = 0;
    for (let axis = 0; axis < 3; axis++) {
      const weight = weights[axis]![band]!;
      pull += multipliers[axis]! * weight;
      row[BANDS + axis] = weight * slope;
      matrix[BANDS + axis]![band] = weight * slope;
      right[BANDS + axis]! -= (weight * (tanh + 1)) / 2;
    }
    let gradient = pull * slope;
    row[band] = -2 * pull * tanh * slope;
    for (const neighbour of [band - 1, band + 1]) {
      if (neighbour < 0 || neighbour >= BANDS) continue;
      row[band]! += 2;
      row[neighbour] = -2;
      gradient += 2 * (z[band]! - z[neighbour]!);
    }
    right[band] = -gradient;
  }
  return right;
}

/** A shade as it was given: a measured reflectance, or only its L*, a*, b*. */
export type Shade =
  | { readonly measured: true; readonly reflectance: readonly number[] }
  | { readonly measured: false; readonly lab: Lab };

/** The reflectance of a shade, rebuilt where only L*, a*, b* are known. */
export function reflectanceOf(shade: Shade, light: Light, argument: string): readonly number[] {
  if (shade.measured) return shade.reflectance;
  const shown = shade.lab.map((value) => Number(value.toPrecision(6))).join(", ");
  return smoothSpectrum(shade.lab, light) ?? refuse(argument, `L*a*b* ${shown}`, "no surface has that shade");
}
