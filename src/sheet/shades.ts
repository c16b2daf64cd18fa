import { LAMPS_WITHOUT_OBSERVER, LIGHTS, type Light } from "../tables/lights";
import { greyScaleDifference, greyScaleRating, greyScaleStep } from "../trade/shade/grey-scale";
import { CYLINDER, type BlockAxes } from "../trade/shade/shade-blocks";
import { stainingDifference, stainingRating, stainingStep } from "../trade/shade/staining";
import { counted, refuse } from "../trade/refusal";
import { channelsOfHex } from "../trade/shade/rgb";
import {
  difference1976,
  difference1994,
  difference2000,
  differenceCmc,
  type ShadeDifference,
} from "../trade/shade/shade-difference";
import type { Shade } from "../trade/shade/smooth-spectrum";
import { onBands, onUsualBands } from "../trade/shade/spectra";
import type { Lab } from "../trade/shade/tristimulus";
import { readCell, readItem } from "./arguments";
import { isBlank, shown, type Cell } from "./cells";
import { anyNumber, fraction, numberBetween, numberThat, word, type Kind } from "./kinds";
import type { BandGrid, ShadeForm } from "./shade-rows";
import { vocabulary, wordsFor, type VocabularyEntry } from "./words";

/** A light with its observer. A lamp alone is refused: the two observers differ. */
export const lightWord: Kind<Light> = word(
  vocabulary(
    "light",
    LIGHTS.map((light) => [light.word, light, ...light.aliases] as const),
    LAMPS_WITHOUT_OBSERVER,
  ),
);

const FORMULAS: readonly VocabularyEntry<ShadeDifference>[] = [
  ["2000", difference2000, "CIEDE2000"],
  ["CMC 2:1", differenceCmc(2, 1), "CMC(2:1)"],
  ["CMC 1:1", differenceCmc(1, 1), "CMC(1:1)"],
  ["1994", difference1994(1, 0.045, 0.015), "CIE94"],
  ["1994 textiles", difference1994(2, 0.048, 0.014)],
  ["1976", difference1976, "CIE76"],
];
/** Stands for the ellipsoid of three half-axes: no formula with one tolerance, so it never reaches a calculation. */
export const HALF_AXES: ShadeDifference = () =>
  refuse("formula", '"half-axes" among others', "give it in a single cell");

/** A colour-difference formula. Its year may be typed as a number. */
export const differenceFormula = formulaAmong(FORMULAS);
export const toleranceFormula = formulaAmong([...FORMULAS, ["half-axes", HALF_AXES]]);

function formulaAmong(entries: readonly VocabularyEntry<ShadeDifference>[]): Kind<ShadeDifference> {
  const read = word(vocabulary("formula", entries, { CMC: "CMC 2:1 or CMC 1:1" }));
  return (cell, argument) => read(typeof cell === "number" && Number.isFinite(cell) ? String(cell) : cell, argument);
}

export const shadeForm = word(wordsFor("result", "lab", "reflectance"));
export const fitForm = word(wordsFor("result", "constant", "difference"));
type Rating = (standard: Lab, sample: Lab) => number | string;
export const CHANGE_IN_COLOUR: Rating = (standard, sample) => greyScaleRating(greyScaleDifference(standard, sample));
const STAINING = (standard: Lab, sample: Lab): number => stainingRating(stainingDifference(standard, sample));
export const greyScaleForm = word(
  vocabulary<Rating>("result", [
    ["rating", CHANGE_IN_COLOUR],
    ["step", (standard, sample) => greyScaleStep(greyScaleDifference(standard, sample))],
    ["staining", STAINING],
    ["staining step", (standard, sample) => stainingStep(STAINING(standard, sample))],
  ]),
);
export const blockAxes = word(
  vocabulary<BlockAxes>("axes word", [
    ["lch", CYLINDER],
    ["lab", ["lightness", "a", "b"]],
  ]),
);

/** Three numbers, for the three differences of a shade. */
export function three(name: string, values: readonly number[], allowed: string): [number, number, number] {
  if (values.length !== 3) refuse(name, counted(values.length, "number"), allowed);
  return values as [number, number, number];
}

export const wavelength = numberThat("must be a wavelength, 200 to 1000 nm", (nm) => nm >= 200 && nm <= 1000);
export const wavelengthStep = numberThat("must be above 0 and at most 100 nm", (nm) => nm > 0 && nm <= 100);

/** No two shades of a trade are further apart; a larger tolerance passes everything. Common practice, no source. */
export const shadeTolerance = numberBetween(Number.MIN_VALUE, 50, "must be above 0 and at most 50 units");

export const channel = numberThat("must be 0 to 255", (value) => value >= 0 && value <= 255);

/** A red channel, or all three in one hex text. */
export const hexOrRed: Kind<number | readonly [number, number, number]> = (cell, argument) => {
  if (typeof cell !== "string") return channel(cell, argument);
  return channelsOfHex(cell) ?? refuse(argument, shown(cell), "must be like #1A2B3C, or the red channel 0 to 255");
};

/** Shares of full light, where whole numbers are meant: the darkest greys are 0 and 1. */
function isScaleToOne(channels: readonly (number | undefined)[]): boolean {
  const isShare = (value: number | undefined): boolean => value === undefined || (value >= 0 && value <= 1);
  return channels.every(isShare) && channels.some((value) => value !== undefined && !Number.isInteger(value));
}

export function channelsGiven(
  first: number | readonly [number, number, number],
  green: number | undefined,
  blue: number | undefined,
): readonly [number, number, number] {
  if (typeof first !== "number") return first;
  if (isScaleToOne([first, green, blue])) {
    refuse("hex_or_r", String(first), "channels go to 255: multiply values on a scale to 1 by 255");
  }
  if (green === undefined) refuse("g", "blank", "give red, green and blue, or one text like #1A2B3C");
  if (blue === undefined) refuse("b", "blank", "give red, green and blue, or one text like #1A2B3C");
  return [first, green, blue];
}

const BAND = fraction(0, 1.5, "must be 0 to 1.5 (150%)");
const LIGHTNESS = numberThat("L* must be 0 to 110", (value) => value >= 0 && value <= 110);

/** What turns a column into a row where a shade must lie along one. */
const ALONG = "along a row (TRANSPOSE turns a column)";

/** A reflectance as measured, along a row. */
export function bandsRow(row: readonly Cell[], name: string): number[] {
  const cells = withoutBlankTail(row);
  if (cells.length < 4) {
    const came = cells.length === 3 ? "3 cells wide, like L*a*b*" : `${cells.length} wide`;
    const where = cells.length === 1 ? ALONG : "along a row";
    refuse(name, came, `must be a reflectance ${where}, 31 or 16 bands from 400 to 700 nm`);
  }
  const bands = cells.map((cell, band) => readItem(cell, () => `${name} band ${band + 1}`, BAND));
  if (bands.every((value) => value === 0)) {
    refuse(name, "0 in every band", "no dyed wool is so black; a blank row may arrive as 0");
  }
  return bands;
}

/** A reflectance on the 31 bands: of 31 (400 to 700 nm by 10), of 16 (by 20), or of the wavelengths in its heading. */
export function reflectanceRow(row: readonly Cell[], name: string, grid?: BandGrid): readonly number[] {
  const bands = bandsRow(row, name);
  if (grid) return onBands(bands, grid.first, grid.step);
  if (bands.length !== 31 && bands.length !== 16) {
    refuse(name, `${counted(bands.length, "band")} wide`, "must be 31 or 16 bands from 400 to 700 nm");
  }
  return onUsualBands(bands);
}
reflectanceRow.form = "reflectance" as ShadeForm;

/** A reflectance on bands of its own, with the wavelengths of its heading where it has one. */
export function ownBandsRow(row: readonly Cell[], name: string, grid?: BandGrid): OwnBands {
  return { bands: bandsRow(row, name), grid };
}
ownBandsRow.form = "reflectance" as ShadeForm;

interface OwnBands {
  readonly bands: readonly number[];
  readonly grid: BandGrid | undefined;
}

/** L*, a*, b* along a row. */
export function labRow(row: readonly Cell[], name: string): Lab {
  const cells = withoutBlankTail(row);
  if (cells.length !== 3) {
    const where = cells.length === 1 ? ALONG : "along a row";
    refuse(name, `${counted(cells.length, "cell")} wide`, `must be 3 ${where}: L*, a*, b*`);
  }
  return cells.map((cell, axis) => {
    if (isBlank(cell)) refuse(name, "blank in part", "must be 3 along a row: L*, a*, b*");
    return readCell(cell, name, axis === 0 ? LIGHTNESS : anyNumber);
  }) as unknown as Lab;
}
labRow.form = "L*a*b*" as ShadeForm;

/** No dyed wool reflects nothing at all, and none is as black as a lightness of 1. */
function expectSomeLight(shade: Shade, name: string): Shade {
  if (!shade.measured && shade.lab[0] > 0 && shade.lab[0] <= 1) {
    refuse(name, `L* ${shade.lab[0]}`, "L*, a*, b* go to 100: multiply values on a scale to 1 by 100");
  }
  return shade;
}

/** Darker than this a wool is not dyed, in L*; common practice, no source. */
const DARKEST = 10;

/** Two shades that are as black as a lightness of 1, or one beside a shade that is not nearly so, are on a scale to 1. */
export function expectScale(standard: Lab, sample: Lab): void {
  const isSmall = ([lightness]: Lab): boolean => lightness > 0 && lightness <= 1;
  const isAlone = (shade: Lab, other: Lab): boolean =>
    isSmall(shade) && shade.every((value) => Math.abs(value) <= 1) && other[0] >= DARKEST;
  const both = isSmall(standard) && isSmall(sample);
  if (!both && !isAlone(standard, sample) && !isAlone(sample, standard)) return;
  refuse("L*", `${standard[0]} and ${sample[0]}`, "goes to 100: multiply values on a scale to 1 by 100");
}

/** Either of the two, told apart by the width. */
export function shadeRow(row: readonly Cell[], name: string, grid?: BandGrid): Shade {
  const width = withoutBlankTail(row).length;
  if (width === 3 && !grid) return expectSomeLight({ measured: false, lab: labRow(row, name) }, name);
  if (width === 31 || width === 16 || grid) {
    return expectSomeLight({ measured: true, reflectance: reflectanceRow(row, name, grid) }, name);
  }
  const where = width === 1 ? " (TRANSPOSE turns a column)" : "";
  const allowed = `must be 31 or 16 bands, 400 to 700 nm, or L*, a*, b* along a row${where}`;
  return refuse(name, `${counted(width, "cell")} wide`, allowed);
}

function withoutBlankTail(row: readonly Cell[]): readonly Cell[] {
  let length = row.length;
  while (length > 0 && isBlank(row[length - 1])) length--;
  return row.slice(0, length);
}
