import { clipped } from "./spectra";

/**
 * A model of an intimate blend: a function of reflectance that adds up by mass share, band by band. Averaging L*a*b*,
 * XYZ or RGB instead misses by 6 to 10 units.
 */
export interface BlendModel {
  /** The additive function of a reflectance. */
  readonly additive: (reflectance: number) => number;
  /** The reflectance of an additive value. */
  readonly reflectance: (value: number) => number;
  /** The slope of that inverse, from the reflectance it gave. */
  readonly slope: (reflectance: number) => number;
}

/** M of Stearns & Noechel for wool, from memory: verify before use, or fit it to carded pads. */
export const WOOL_FIBRE_CONSTANT = 0.15;
/** σ of Friele for wool, from memory: verify before use. */
export const WOOL_EXPONENTIAL_CONSTANT = 0.28;

/** Source: STEARNS-NOECHEL-1944. F = (1 - R) / (M·(R - 0.01) + 0.01). */
export function fibreModel(constant: number): BlendModel {
  const dark = 0.01 * (1 - constant);
  return {
    additive: (reflectance) => (1 - reflectance) / (constant * reflectance + dark),
    reflectance: (value) => (1 - dark * value) / (1 + constant * value),
    slope: (reflectance) => -((constant * reflectance + dark) ** 2) / (constant + dark),
  };
}

/** Source: FRIELE-1952. F = exp(-σ·K/S). */
export function exponentialModel(constant: number): BlendModel {
  return {
    additive: (reflectance) => Math.exp(-constant * absorption(reflectance)),
    reflectance: (value) => fromAbsorption(-Math.log(value) / constant),
    slope: (reflectance) =>
      -1 / (constant * Math.exp(-constant * absorption(reflectance)) * absorptionSlope(reflectance)),
  };
}

/** Kubelka and Munk with a single constant: K/S = (1 - R)² / 2R adds up. */
export const absorptionModel: BlendModel = {
  additive: absorption,
  reflectance: fromAbsorption,
  slope: (reflectance) => 1 / absorptionSlope(reflectance),
};

function absorption(reflectance: number): number {
  return (1 - reflectance) ** 2 / (2 * reflectance);
}

function absorptionSlope(reflectance: number): number {
  return (reflectance * reflectance - 1) / (2 * reflectance * reflectance);
}

/** 1 + k - √(k² + 2k), written so that a large k does not lose its digits. */
function fromAbsorption(k: number): number {
  return 1 / (1 + k + Math.sqrt(k * k + 2 * k));
}

export function additiveValues(reflectance: ArrayLike<number>, model: BlendModel): Float64Array {
  const values = new Float64Array(reflectance.length);
  for (let band = 0; band < values.length; band++) values[band] = model.additive(clipped(reflectance[band]!));
  return values;
}

/** The reflectance of a blend of these solids; the shares sum to 1. */
export function blended(
  shares: readonly number[],
  solids: readonly ArrayLike<number>[],
  model: BlendModel,
): Float64Array {
  const total = new Float64Array(solids[0]!.length);
  shares.forEach((share, index) => {
    if (share === 0) return;
    const values = additiveValues(solids[index]!, model);
    for (let band = 0; band < total.length; band++) total[band]! += share * values[band]!;
  });
  return total.map((value) => model.reflectance(value));
}
