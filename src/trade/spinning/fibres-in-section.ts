/** Density of wool in g/cm³. */
export const WOOL_DENSITY = 1.31;

/**
 * Tex of one fibre: π/4·d²·(1 + cv²)·ρ·1e-3, because the mean area of fibres of unequal diameter is larger than that
 * of the mean diameter. Source: geometry.
 */
export function fibreTex(micron: number, variation: number, density: number): number {
  return (Math.PI * density * micron * micron * (1 + variation * variation)) / 4000;
}

/**
 * Fibres in the section of a yarn. The handbooks' 972·tex/d² (recalled) is this at 1.31 g/cm³ with no variation, and
 * their 917 the same with variation fixed near 24.5 %: to use 917 and the variation as well would count it twice.
 */
export function fibresInSection(yarnTex: number, micron: number, variation: number, density: number): number {
  return yarnTex / fibreTex(micron, variation, density);
}

/** One fibre of a blend. */
export interface BlendedFibre {
  readonly micron: number;
  readonly variation: number;
  readonly density: number;
  /** Of the mass. */
  readonly share: number;
}

/** Fibres in the section of a blend of unlike fibres: each has its share of the tex. */
export function blendedFibresInSection(yarnTex: number, fibres: readonly BlendedFibre[]): number {
  return fibres.reduce(
    (sum, { micron, variation, density, share }) => sum + fibresInSection(yarnTex * share, micron, variation, density),
    0,
  );
}

/** The finest yarn, in tex, that still has so many fibres in its section. */
export function finestTex(fibres: number, micron: number, variation: number, density: number): number {
  return fibres * fibreTex(micron, variation, density);
}
