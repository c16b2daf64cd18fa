import { labOfTristimulus, tristimulusOfLab, type Lab, type Tristimulus } from "./tristimulus";

// Source: IEC-61966-2-1 (from memory): the primaries and the white of sRGB as chromaticities x, y.
const RED = [0.64, 0.33] as const;
const GREEN = [0.3, 0.6] as const;
const BLUE = [0.15, 0.06] as const;
const WHITE = [0.3127, 0.329] as const;

/** X, Y, Z of a chromaticity at Y = 1. */
function atFullBrightness([x, y]: readonly [number, number]): Tristimulus {
  return [x / y, 1, (1 - x - y) / y];
}

/** The screen's white is daylight for the 2-degree observer. */
const SCREEN_WHITE = atFullBrightness(WHITE);

type Matrix = readonly [Tristimulus, Tristimulus, Tristimulus];

/** Columns scaled so that full red, green and blue together are the white. */
const TO_TRISTIMULUS: Matrix = (() => {
  const primaries = rowsOfColumns([RED, GREEN, BLUE].map(atFullBrightness) as unknown as Matrix);
  const brightness = times(inverse(primaries), SCREEN_WHITE);
  return primaries.map((row) => row.map((value, column) => value * brightness[column]!)) as unknown as Matrix;
})();
const FROM_TRISTIMULUS = inverse(TO_TRISTIMULUS);

/** L*a*b* of a screen colour, relative to the screen's own white; channels 0 to 255. */
export function labOfRgb(red: number, green: number, blue: number): Lab {
  const light = times(TO_TRISTIMULUS, [linear(red / 255), linear(green / 255), linear(blue / 255)]);
  return labOfTristimulus(light, SCREEN_WHITE);
}

/** "#RRGGBB"; a channel the screen cannot show is brought to the nearest it can. */
export function hexOfLab(lab: Lab): string {
  const channels = times(FROM_TRISTIMULUS, tristimulusOfLab(lab, SCREEN_WHITE));
  const digits = channels.map((value) => {
    const step = Math.round(255 * Math.min(1, Math.max(0, encoded(value))));
    return `0${step.toString(16)}`.slice(-2);
  });
  return `#${digits.join("").toUpperCase()}`;
}

/** The channels of "#RRGGBB", "RRGGBB" or "#RGB"; undefined when the text is none of these. */
export function channelsOfHex(text: string): [red: number, green: number, blue: number] | undefined {
  const match = /^#?([0-9a-f]{6}|[0-9a-f]{3})$/i.exec(text.trim());
  if (!match) return undefined;
  const digits = match[1] as string;
  const size = digits.length / 3;
  const channel = (place: number): number => {
    const part = digits.slice(place * size, (place + 1) * size);
    return parseInt(size === 1 ? part + part : part, 16);
  };
  return [channel(0), channel(1), channel(2)];
}

function linear(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

function encoded(value: number): number {
  return value <= 0.04045 / 12.92 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055;
}

function times(matrix: Matrix, [x, y, z]: Tristimulus): Tristimulus {
  return matrix.map((row) => row[0] * x + row[1] * y + row[2] * z) as unknown as Tristimulus;
}

function rowsOfColumns(columns: Matrix): Matrix {
  return [0, 1, 2].map((row) => columns.map((column) => column[row]!)) as unknown as Matrix;
}

function inverse([[a, b, c], [d, e, f], [g, h, i]]: Matrix): Matrix {
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const cofactors = [
    [e * i - f * h, c * h - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * h - e * g, b * g - a * h, a * e - b * d],
  ];
  return cofactors.map((row) => row.map((value) => value / determinant)) as unknown as Matrix;
}
