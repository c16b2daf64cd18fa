import { bandWeights } from "./band-weights";
import { CURVES, SPECTRA, WEIGHTS } from "./light-tables";

/** A light with an observer: tristimulus weights band by band, and the white they add up to. Source: CIE-15. */
export interface Light {
  readonly word: string;
  readonly meaning: string;
  /** Further spellings. */
  readonly aliases: readonly string[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
  readonly white: readonly [X: number, Y: number, Z: number];
}

/**
 * The lamps by their words in CIE-15, what they are, and what else they are called: fluorescent lamps also FL in its
 * later edition, and by the names of the trade and its light cabinets, which are common practice, no source.
 */
const LAMPS: readonly (readonly [word: string, meaning: string, ...names: string[]])[] = [
  ["D65", "daylight, 6500 K", "daylight"],
  ["D50", "daylight, 5000 K"],
  ["A", "incandescent lamp, 2856 K", "incandescent", "tungsten", "Inc A"],
  ["F2", "cool white tube, 4230 K", "FL2", "CWF", "cool white"],
  ["F7", "broad-band daylight tube, 6500 K", "FL7"],
  ["F11", "narrow-band tube, 4000 K", "FL11", "TL84"],
  ["F12", "narrow-band tube, 3000 K", "FL12", "TL83"],
  ["LED-B1", "blue LED and phosphor, 2733 K"],
  ["LED-B2", "blue LED and phosphor, 2998 K"],
  ["LED-B3", "blue LED and phosphor, 4103 K"],
  ["LED-B4", "blue LED and phosphor, 5109 K"],
  ["LED-B5", "blue LED and phosphor, 6598 K"],
  ["LED-BH1", "blue LED and phosphor with red LED, 2851 K"],
  ["LED-RGB1", "red, green and blue LEDs, 2840 K"],
  ["LED-V1", "violet LED and phosphor, 2724 K"],
  ["LED-V2", "violet LED and phosphor, 4070 K"],
];

/** A lamp alone is no light: the two observers differ. By lamp, or by another name of it, what to write. */
export const LAMPS_WITHOUT_OBSERVER: Readonly<Record<string, string>> = LAMPS.reduce<Record<string, string>>(
  (advice, [lamp, , ...names]) => {
    for (const name of [lamp, ...names]) advice[name] = `${lamp}/10 or ${lamp}/2`;
    return advice;
  },
  { LED: "LED-B1/10, 2733 K, to LED-B5/10, 6598 K, or another" },
);

type Observer = keyof typeof CURVES;

/** Values from their third differences in whole parts of a unit, as light-tables.ts has them. */
function unpacked(differences: string, perUnit: number): number[] {
  let [bend, slope, value] = [0, 0, 0];
  return (differences.match(/\d*[a-t]/g) as string[]).map((written) => {
    const digit = parseInt(written.slice(-1), 36) - 10;
    const size = 10 * Number(written.slice(0, -1)) + (digit % 10);
    bend += digit < 10 ? size : -size;
    slope += bend;
    value += slope;
    return value / perUnit;
  });
}

/** The X, Y and Z weights of a light: from the table, or from the spectrum of a lamp with lines. */
function weightsOf(lamp: string, observer: Observer, curves: readonly number[][]): number[][] {
  const table = WEIGHTS[observer][lamp as "A"] as readonly string[] | undefined;
  if (table) return table.map((axis) => unpacked(axis, 1e5));
  const power = unpacked(SPECTRA[lamp as "F2"], 100);
  const weights = curves.map((curve) => bandWeights(power, curve, { first: 380, step: 5 }));
  const scale = 100 / sum(weights[1]!);
  return weights.map((axis) => axis.map((weight) => weight * scale));
}

function lightsOf(observer: Observer): Light[] {
  const curves = CURVES[observer].map((curve) => unpacked(curve, 1e6));
  return LAMPS.map(([lamp, meaning, ...names]) => {
    const [x, y, z] = weightsOf(lamp, observer, curves) as [number[], number[], number[]];
    const aliases = names.map((name) => `${name}/${observer}`);
    const said = aliases.length === 0 ? meaning : `${meaning}; also ${aliases.join(", ")}`;
    return { word: `${lamp}/${observer}`, meaning: said, aliases, x, y, z, white: [sum(x), sum(y), sum(z)] as const };
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

export const LIGHTS: readonly Light[] = [...lightsOf("10"), ...lightsOf("2")];

/** Daylight and the 10-degree observer: what the trade measures with. */
export const DAYLIGHT = LIGHTS[0] as Light;

/** "10" or "2" degrees. */
export function observerOf({ word }: Light): string {
  return word.slice(word.indexOf("/") + 1);
}

/** The lamps in which a shop looks at a match again, one of each kind. Common practice, no source. */
const LOOKED_AT_AGAIN = ["D65", "A", "F2", "F11"];

/** The lights of the same observer other than this one, under which a match in this one can fail. */
export function otherLights(light: Light): readonly Light[] {
  const observer = observerOf(light);
  const words = LOOKED_AT_AGAIN.map((lamp) => `${lamp}/${observer}`);
  return LIGHTS.filter(({ word }) => word !== light.word && words.indexOf(word) >= 0);
}
