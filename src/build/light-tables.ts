import { readFileSync, writeFileSync } from "node:fs";
import { format, type FormatConfig } from "oxfmt";
import { bandWeights } from "../tables/band-weights";

/** The tables of light from which `npm run lights` makes what the library carries. */
const FOLDER = "src/build/cie";
const FILE = "src/tables/light-tables.ts";

const HEAD = `/**
 * Tables of light, made by \`npm run lights\` from the tables of the CIE in ${FOLDER}, where the sources stand. So that
 * they weigh little, each list holds third differences (a value is the sum of the sums of the sums up to its place) in
 * whole hundredths, or in the unit named, one after the other; the last digit of each is a letter, a to j for 0 to 9, k to
 * t where it is below 0. Source: CIE-15.
 */`;

/** A table by its columns. The lines that begin with # say where it is from. */
function columnsOf(file: string): Map<string, number[]> {
  const [head, ...rows] = readFileSync(`${FOLDER}/${file}`, "utf8")
    .trim()
    .split(/\r?\n/)
    .filter((line) => !line.startsWith("#"))
    .map((line) => line.split(","));
  return new Map((head as string[]).map((name, column) => [name, rows.map((row) => Number(row[column]))]));
}

/** Values at each nm, linear between those given every 5 nm. */
function byOne(values: readonly number[]): number[] {
  return Array.from({ length: 5 * (values.length - 1) + 1 }, (_, nm) => {
    const [place, rest] = [Math.floor(nm / 5), (nm % 5) / 5];
    return values[place]! + (rest === 0 ? 0 : rest * (values[place + 1]! - values[place]!));
  });
}

function packed(values: readonly number[], perUnit: number): string {
  const differences = (list: readonly number[]): number[] => list.map((value, place) => value - (list[place - 1] ?? 0));
  const third = differences(differences(differences(values.map((value) => Math.round(value * perUnit)))));
  return third.map(written).join("");
}

function written(difference: number): string {
  const size = Math.abs(difference);
  const letter = LETTERS[(size % 10) + (difference < 0 ? 10 : 0)]!;
  return size < 10 ? letter : Math.floor(size / 10) + letter;
}

const LETTERS = "abcdefghijklmnopqrst";

/** The curves of an observer, x, y, z, by 1 nm from 360 nm. */
function curvesOf(observer: string): number[][] {
  const columns = columnsOf("observers.csv");
  return ["x", "y", "z"].map((axis) => columns.get(axis + observer) as number[]);
}

/** The weights of a light that has no lines, from the curves at every nm; those of Y sum to 100. */
function smoothWeights(power: readonly number[], observer: string): number[][] {
  const weights = curvesOf(observer).map((curve) => bandWeights(byOne(power), curve, { first: 360, step: 1 }));
  const scale = 100 / weights[1]!.reduce((sum, weight) => sum + weight, 0);
  return weights.map((axis) => axis.map((weight) => weight * scale));
}

/** The file as the tables have it. */
export async function lightTables(): Promise<string> {
  const everyFive = (curve: readonly number[]) => curve.filter((_, place) => place >= 20 && place % 5 === 0);
  const lights = (file: string) => [...columnsOf(file)].filter(([name]) => name !== "nm");
  const byObserver = (made: (observer: string) => unknown) => Object.fromEntries(["10", "2"].map((o) => [o, made(o)]));
  const curves = byObserver((observer) => curvesOf(observer).map((curve) => packed(everyFive(curve), 1e6)));
  const spectra = Object.fromEntries(lights("lamps.csv").map(([lamp, power]) => [lamp, packed(power, 100)]));
  const weights = byObserver((observer) =>
    Object.fromEntries(
      lights("smooth-lights.csv").map(([lamp, power]) => [
        lamp,
        smoothWeights(power, observer).map((axis) => packed(axis, 1e5)),
      ]),
    ),
  );
  const text = `${HEAD}

/** Colour-matching functions x, y, z of the observers of 10 and 2 degrees, 380 to 780 nm by 5 nm, in millionths. */
export const CURVES = ${JSON.stringify(curves)};

/** Relative spectral power of lamps, 380 to 780 nm by 5 nm. */
export const SPECTRA = ${JSON.stringify(spectra)};

/** Weights X, Y, Z of the lights that have no lines, 400 to 700 nm by 10 nm, in hundred-thousandths: by observer. */
export const WEIGHTS = ${JSON.stringify(weights)};
`;
  return (await format(FILE, text, JSON.parse(readFileSync(".oxfmtrc.json", "utf8")) as FormatConfig)).code;
}

export async function main(): Promise<number> {
  writeFileSync(FILE, await lightTables());
  console.log(`${FILE} is written.`);
  return 0;
}
