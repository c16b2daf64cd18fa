import { refuse } from "../trade/refusal";
import { nameOf, type Column, type Named } from "./arguments";
import { isBlank, type Cell, type Cells } from "./cells";
import { errorIn } from "./errors";
import { clipped, headingOf, NAMES, plainHeading, placesOf, refuseTotal, tellHeadings } from "./headings";
import { anyNumber } from "./kinds";
import { block, type Along } from "./names";
import { expectShadeColumn, expectShades } from "./work";

/** The first wavelength and the step of a reflectance, in nm. */
export interface BandGrid {
  readonly first: number;
  readonly step: number;
}

/** Reads one shade along a row. */
export interface ShadeReader<T> {
  (row: readonly Cell[], name: string, grid: BandGrid | undefined): T;
  /** The one form of shade that it takes; without it, either. */
  readonly form?: ShadeForm;
}

export type ShadeForm = "L*a*b*" | "reflectance";

/** Shades one a row, without the headings above and the names before them. */
interface ShadeRows {
  readonly name: string;
  readonly figures: Cells;
  readonly names: readonly string[] | undefined;
  readonly grid: BandGrid | undefined;
  /** Rows above the figures. */
  readonly above: number;
}

/** An argument of which one item is a shade along a row, as it broadcasts against the others; with names and headings. */
export function shadeColumn<T>(
  argument: Named,
  read: ShadeReader<T>,
): Column<T> & { readonly names: readonly string[] | undefined } {
  const { name, figures, names, grid } = shadeRows(argument, read.form);
  expectShadeColumn(name, figures.length);
  return {
    name,
    rows: figures.length,
    columns: 1,
    items: figures.map((row) => [row]),
    read: (item) => readShade(item as Cell[], name, read, grid),
    names,
  };
}

/** Shades taken whole. A row that is blank and has no name is left out, wherever it stands. */
export function shadeList<T>(
  argument: Named,
  read: ShadeReader<T>,
  blended = false,
): { readonly shades: T[]; readonly along: Along } {
  const { name, figures, names, grid, above } = shadeRows(argument, read.form);
  let last = figures.length;
  while (last > 0 && isSpare(figures[last - 1] as Cell[], names?.[last - 1], false)) last--;
  if (last === 0) refuse(name, "blank", "must hold one shade a row");
  expectShades(name, last, blended);
  const rows = figures.slice(0, last);
  refuseTotal(name, names, "row", above);
  const blanks = rows.map((row, index) => isSpare(row, names?.[index], names !== undefined));
  const shades: T[] = [];
  rows.forEach((row, index) => {
    const place = rows.length === 1 && above === 0 ? name : `${name} row ${index + 1 + above}`;
    if (!blanks[index]) shades.push(readShade(row, place, read, grid));
  });
  const kept = names?.slice(0, last).filter((_, index) => !blanks[index]);
  return { shades, along: { of: name, count: shades.length, names: kept, blanks } };
}

/** Blank; or, where others have names and it has none, the zeros as which a host hands blanks over. */
function isSpare(row: readonly Cell[], rowName: string | undefined, zerosToo: boolean): boolean {
  return !rowName && row.every((cell) => isBlank(cell) || (zerosToo && cell === 0));
}

function readShade<T>(row: readonly Cell[], place: string, read: ShadeReader<T>, grid: BandGrid | undefined): T {
  for (const cell of row) {
    const error = errorIn(cell);
    if (error) throw error;
  }
  return read(row, place, grid);
}

const LAB = ["L*", "a*", "b*"].map((axis) => headingOf(axis, true));
const wavelengths = (called: string) => ({ ...headingOf(called, true), synonyms: ["400", "400 nm", "R400"] });
const HEADINGS = {
  "L*a*b*": [...LAB, NAMES],
  reflectance: [wavelengths("wavelengths in nm"), NAMES],
  either: [...LAB, wavelengths("or wavelengths in nm"), NAMES],
};

function shadeRows(argument: Named, form: ShadeForm | undefined): ShadeRows {
  const [name, cells] = nameOf(argument);
  tellHeadings(name, HEADINGS[form ?? "either"]);
  if (isHeadingRow(cells[0] as Cell[]) && cells.length > 1) return underHeadings(name, cells, form);
  const { figures, rowNames } = block(argument, anyNumber);
  return { name, figures, names: rowNames, grid: undefined, above: 0 };
}

const SHORTEST = 300;
const LONGEST = 830;

/** The wavelength that a heading names: 400, "400 nm", "R400", "R (400 nm)". */
function wavelengthOf(heading: Cell): number | undefined {
  const digits =
    typeof heading === "number" ? String(heading) : /^\D{0,3}(\d{3})\s*\(?(nm)?\)?$/i.exec(String(heading).trim())?.[1];
  const nm = Number(digits);
  return nm >= SHORTEST && nm <= LONGEST ? nm : undefined;
}

/** Words, and numbers only where they are wavelengths: no shade has figures as large. */
function isHeadingRow(row: readonly Cell[]): boolean {
  const isHeading = (cell: Cell): boolean =>
    typeof cell === "number" ? wavelengthOf(cell) !== undefined : typeof cell === "string" && !isBlank(cell.trim());
  return row.length > 1 && row.every((cell, place) => isHeading(cell) || (place === 0 && isBlank(cell)));
}

const WANTED = {
  "L*a*b*": "L*, a*, b* once each",
  reflectance: "wavelengths such as 400, 410",
  either: "L*, a*, b* once each, or wavelengths such as 400, 410",
};

/** The columns by their headings, in any order among others: L*, a*, b*, or wavelengths. */
function underHeadings(name: string, [headings, ...rows]: Cells, form: ShadeForm | undefined): ShadeRows {
  const seen = (headings as Cell[]).map((cell) => (isBlank(cell) ? "" : String(cell as string | number)));
  const plain = seen.map(plainHeading);
  const lab = LAB.map((axis) => placesOf(axis, plain));
  const bands = seen
    .map((_, place) => ({ place, nm: wavelengthOf((headings as Cell[])[place]) }))
    .filter((band): band is { place: number; nm: number } => band.nm !== undefined)
    .sort((one, other) => one.nm - other.nm);
  const hasLab = form !== "reflectance" && lab.every((places) => places.length === 1);
  const hasBands = form !== "L*a*b*" && bands.length >= 4;
  if (!hasLab && !hasBands) refuse(name, `headed ${clipped(seen)}`, `must have ${WANTED[form ?? "either"]}`);
  const grid = hasBands ? { first: bands[0]!.nm, step: bands[1]!.nm - bands[0]!.nm } : undefined;
  if (grid && bands.some(({ nm }, index) => nm !== grid.first + index * grid.step)) {
    refuse(name, `headed ${clipped(bands.map(({ nm }) => String(nm)))}`, "must have wavelengths in equal steps");
  }
  const places = grid ? bands.map(({ place }) => place) : lab.map(([place]) => place as number);
  const isText = (cell: Cell): boolean => typeof cell === "string" && !isBlank(cell.trim());
  const others = seen.map((_, place) => place).filter((place) => places.indexOf(place) < 0);
  const [named = others.filter((place) => rows.some((row) => isText(row[place])))[0]] = placesOf(NAMES, plain);
  return {
    name,
    figures: rows.map((row) => places.map((place) => row[place])),
    names:
      named === undefined
        ? undefined
        : rows.map((row) => (isBlank(row[named]) ? "" : String(row[named] as string | number).trim())),
    grid,
    above: 1,
  };
}
