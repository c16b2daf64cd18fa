import { WEIGHTS_TEN_DEGREES } from "./tristimulus-weights-10";
import { WEIGHTS_TWO_DEGREES } from "./tristimulus-weights-2";

/** A light with an observer: tristimulus weights band by band, and the white they add up to. Source: CIE-15. */
export interface Light {
  readonly word: string;
  /** Further spellings. */
  readonly aliases: readonly string[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
  readonly white: readonly [X: number, Y: number, Z: number];
}

/** The columns of the weight tables, in their order. */
const LAMPS = ["D65", "A", "F2", "F11"];

/** What light cabinets call two of the lamps: the shop tube and cool white. */
const CABINET_NAMES: Readonly<Record<string, string>> = { F2: "CWF", F11: "TL84" };

/** A lamp alone is no light: the two observers differ. By lamp, or by its name on a cabinet, what to write. */
export const LAMPS_WITHOUT_OBSERVER: Readonly<Record<string, string>> = LAMPS.reduce<Record<string, string>>(
  (advice, lamp) => {
    for (const name of [lamp, ...cabinetNames(lamp)]) advice[name] = `${lamp}/10 or ${lamp}/2`;
    return advice;
  },
  {},
);

function cabinetNames(lamp: string): string[] {
  const name = CABINET_NAMES[lamp];
  return name === undefined ? [] : [name];
}

function lightsOf(observer: string, weights: readonly (readonly number[])[]): Light[] {
  return LAMPS.map((lamp, index) => {
    const [x, y, z] = [1, 2, 3].map((column) => weights.map((row) => row[3 * index + column] as number)) as [
      number[],
      number[],
      number[],
    ];
    const aliases = cabinetNames(lamp).map((name) => `${name}/${observer}`);
    return { word: `${lamp}/${observer}`, aliases, x, y, z, white: [sum(x), sum(y), sum(z)] as const };
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

export const LIGHTS: readonly Light[] = [...lightsOf("10", WEIGHTS_TEN_DEGREES), ...lightsOf("2", WEIGHTS_TWO_DEGREES)];

/** Daylight and the 10-degree observer: what the trade measures with. */
export const DAYLIGHT = LIGHTS[0] as Light;

/** "10" or "2" degrees. */
export function observerOf({ word }: Light): string {
  return word.slice(word.indexOf("/") + 1);
}

/** The lights of the same observer other than this one, under which a match in this one can fail. */
export function otherLights(light: Light): readonly Light[] {
  return LIGHTS.filter((other) => other.word !== light.word && observerOf(other) === observerOf(light));
}
