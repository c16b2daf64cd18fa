import type { Lab } from "./tristimulus";

/** A colour difference: the standard first, because not every formula is symmetric. */
export type ShadeDifference = (standard: Lab, sample: Lab) => number;

const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;

/** CIE 1976: the distance in L*a*b*. Source: CIE-15. */
export const difference1976: ShadeDifference = (standard, sample) => {
  const lightness = sample[0] - standard[0];
  const a = sample[1] - standard[1];
  const b = sample[2] - standard[2];
  return Math.sqrt(lightness * lightness + a * a + b * b);
};

/** CIE 1994 with its parameters: reference (1, 0.045, 0.015) or textiles (2, 0.048, 0.014). Source: CIE-15. */
export function difference1994(lightnessFactor: number, chromaSlope: number, hueSlope: number): ShadeDifference {
  return (standard, sample) => {
    const chroma = chromaOf(standard);
    const lightness = (sample[0] - standard[0]) / lightnessFactor;
    const chromaStep = chromaOf(sample) - chroma;
    return root(
      lightness ** 2 +
        (chromaStep / (1 + chromaSlope * chroma)) ** 2 +
        hueStepSquared(standard, sample) / (1 + hueSlope * chroma) ** 2,
    );
  };
}

/** CMC(l:c), weighted by the standard's place: not symmetric. Source: ISO-105-J03. */
export function differenceCmc(lightnessFactor: number, chromaFactor: number): ShadeDifference {
  return (standard, sample) => {
    const chroma = chromaOf(standard);
    const hue = hueOf(standard[1], standard[2]) / DEGREE;
    const lightnessWeight = standard[0] < 16 ? 0.511 : (0.040975 * standard[0]) / (1 + 0.01765 * standard[0]);
    const chromaWeight = (0.0638 * chroma) / (1 + 0.0131 * chroma) + 0.638;
    const towardsNeutral = Math.sqrt(chroma ** 4 / (chroma ** 4 + 1900));
    const turning =
      hue >= 164 && hue <= 345
        ? 0.56 + Math.abs(0.2 * Math.cos((hue + 168) * DEGREE))
        : 0.36 + Math.abs(0.4 * Math.cos((hue + 35) * DEGREE));
    const hueWeight = chromaWeight * (towardsNeutral * turning + 1 - towardsNeutral);
    return root(
      ((sample[0] - standard[0]) / (lightnessFactor * lightnessWeight)) ** 2 +
        ((chromaOf(sample) - chroma) / (chromaFactor * chromaWeight)) ** 2 +
        hueStepSquared(standard, sample) / hueWeight ** 2,
    );
  };
}

export const difference2000: ShadeDifference = (standard, sample) => root(squaredDifference2000(standard, sample));

/** CIEDE2000 squared, all factors 1: the search works on the square, which is smooth at a match. Source: SHARMA-2005. */
export function squaredDifference2000(standard: Lab, sample: Lab): number {
  const meanChroma = (chromaOf(standard) + chromaOf(sample)) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(fromPower7(meanChroma)));
  const a1 = stretch * standard[1];
  const a2 = stretch * sample[1];
  const chroma1 = Math.sqrt(a1 * a1 + standard[2] * standard[2]);
  const chroma2 = Math.sqrt(a2 * a2 + sample[2] * sample[2]);
  const hue1 = hueOf(a1, standard[2]);
  const hue2 = hueOf(a2, sample[2]);
  // A neutral has no hue; the paper sets its mean hue apart, but all that rests on it is multiplied by no hue step.
  let turn = hue2 - hue1;
  let meanHue = (hue1 + hue2) / 2;
  if (Math.abs(turn) > Math.PI) {
    // The short way round; two turns are no matter to the sine of its half.
    turn -= TURN;
    meanHue += meanHue < Math.PI ? Math.PI : -Math.PI;
  }
  const chroma = (chroma1 + chroma2) / 2;
  const fromMiddle = ((standard[0] + sample[0]) / 2 - 50) ** 2;
  const hueShape =
    1 -
    0.17 * Math.cos(meanHue - 30 * DEGREE) +
    0.24 * Math.cos(2 * meanHue) +
    0.32 * Math.cos(3 * meanHue + 6 * DEGREE) -
    0.2 * Math.cos(4 * meanHue - 63 * DEGREE);
  const lightnessStep = (sample[0] - standard[0]) / (1 + (0.015 * fromMiddle) / Math.sqrt(20 + fromMiddle));
  const chromaStep = (chroma2 - chroma1) / (1 + 0.045 * chroma);
  const hueStep = (2 * Math.sqrt(chroma1 * chroma2) * Math.sin(turn / 2)) / (1 + 0.015 * chroma * hueShape);
  const rotation =
    -2 * Math.sqrt(fromPower7(chroma)) * Math.sin(60 * DEGREE * Math.exp(-(((meanHue / DEGREE - 275) / 25) ** 2)));
  return lightnessStep * lightnessStep + chromaStep * chromaStep + hueStep * hueStep + rotation * chromaStep * hueStep;
}

/** C⁷ / (C⁷ + 25⁷). Multiplied out, because a match asks for it millions of times. */
function fromPower7(chroma: number): number {
  const cube = chroma * chroma * chroma;
  const power = cube * cube * chroma;
  return power / (power + 25 ** 7);
}

export function chromaOf(lab: Lab): number {
  return Math.sqrt(lab[1] * lab[1] + lab[2] * lab[2]);
}

/** Hue angle in radians, 0 to a full turn; 0 for a neutral. */
export function hueOf(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const angle = Math.atan2(b, a);
  return angle < 0 ? angle + TURN : angle;
}

/**
 * ΔH squared, from the angle between the two chroma vectors, so that no digits are lost: (Δa² + Δb² - ΔC²) loses
 * them when only the chroma differs, twice (C₁C₂ - a₁a₂ - b₁b₂) when the hues are close.
 */
function hueStepSquared(standard: Lab, sample: Lab): number {
  const chromas = chromaOf(standard) * chromaOf(sample);
  if (chromas === 0) return 0;
  const along = standard[1] * sample[1] + standard[2] * sample[2];
  if (along < 0) return 2 * (chromas - along);
  const across = standard[1] * sample[2] - standard[2] * sample[1];
  return (2 * across * across) / (chromas + along);
}

function root(square: number): number {
  return Math.sqrt(Math.max(0, square));
}
