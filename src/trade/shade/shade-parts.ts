import { chromaOf, hueOf } from "./shade-difference";
import type { Lab } from "./tristimulus";

/** A difference taken apart, sample less standard. */
export interface ShadeParts {
  readonly lightness: number;
  readonly a: number;
  readonly b: number;
  readonly chroma: number;
  /** Along the circle of hue: from red to yellow, green, blue it is positive. */
  readonly hue: number;
}

/** Source: CIE-15. ΔH is 2√(C₁C₂)·sin(Δh/2), written without the angle, so that no digits are lost. */
export function shadeParts(standard: Lab, sample: Lab): ShadeParts {
  const chromas = chromaOf(standard) * chromaOf(sample);
  const across = standard[1] * sample[2] - standard[2] * sample[1];
  const along = standard[1] * sample[1] + standard[2] * sample[2];
  // sin(Δh/2) from both: near a half turn the sum of chromas and along vanishes, near none the difference does.
  const size = Math.sqrt(2 * Math.max(0, along < 0 ? chromas - along : across ** 2 / (chromas + along || 1)));
  return {
    lightness: sample[0] - standard[0],
    a: sample[1] - standard[1],
    b: sample[2] - standard[2],
    chroma: chromaOf(sample) - chromaOf(standard),
    hue: across < 0 ? -size : size,
  };
}

/** A part that shows as 0 with one decimal is no difference in words. */
const TOO_SMALL_FOR_WORDS = 0.05;
/** Below this chroma a standard is too grey for its own hue to say which way is which. */
const GREY_BELOW = 5;
const SAME = "same";
/** What a shade turns to on the way from red over yellow, green and blue to red, by quarters; and what it comes from. */
const ONWARDS = ["yellower", "greener", "bluer", "redder"] as const;
const BACKWARDS = ["redder", "yellower", "greener", "bluer"] as const;

/** The words for lightness, chroma and hue. Common practice, no source. */
export function shadeWords(
  standard: Lab,
  { lightness, a, b, chroma, hue }: ShadeParts,
): readonly [lightness: string, chroma: string, hue: string] {
  const either = (part: number, more: string, less: string): string =>
    Math.abs(part) < TOO_SMALL_FOR_WORDS ? SAME : part > 0 ? more : less;
  return [
    either(lightness, "lighter", "darker"),
    either(chroma, "brighter", "duller"),
    chromaOf(standard) < GREY_BELOW
      ? Math.abs(a) > Math.abs(b)
        ? either(a, "redder", "greener")
        : either(b, "yellower", "bluer")
      : either(hue, onwards(standard), backwards(standard)),
  ];
}

const QUARTER = Math.PI / 2;

function onwards([, a, b]: Lab): string {
  return ONWARDS[Math.min(3, Math.floor(hueOf(a, b) / QUARTER))] as string;
}

/** A hue that is one of the four itself comes from the one before it. */
function backwards([, a, b]: Lab): string {
  const quarter = hueOf(a, b) / QUARTER;
  return quarter === 0 ? "bluer" : (BACKWARDS[Math.ceil(quarter) - 1] as string);
}
