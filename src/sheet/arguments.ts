import { counted, refuse, type RefusalKind } from "../trade/refusal";
import { inReadingOrder, isBlank, isOmitted, rowsOf, shown, type Cell, type Cells } from "./cells";
import { errorIn } from "./errors";
import {
  headingOf,
  headingsIn,
  isCalledTotal,
  isSumOf,
  NAME,
  refuseUnknownHeadings,
  spoken,
  tellHeadings,
  type FurtherSynonyms,
  type Heading,
} from "./headings";
import { expectUnit } from "./heading-units";
import { accepts, blankIs, mayBeBlank, readsAsNumber, standsForItself, text, type Kind } from "./kinds";
import { expectItems, expectRows } from "./work";
import { entriesStandIn } from "./places";

/**
 * An argument under its own name, written once: `required({ value }, positive)` reads the cells of the parameter
 * `value` and calls it "value" in every message.
 */
export type Named = Readonly<Record<string, Cells | null | undefined>>;

/** An argument that is read item by item and broadcasts against the others. */
export interface Column<T> {
  readonly name: string;
  readonly rows: number;
  readonly columns: number;
  /** The items, as they lie in the range; one item is a cell, or a whole row of cells (shadeColumn). */
  readonly items: readonly (readonly Cell[])[];
  /** Reads one item that is not blank; throws a Refusal or an ErrorInCell. */
  readonly read: (item: Cell, name: string) => T;
  /** The least and the most of the numbers that need no reading; without it every item is read. */
  readonly plain?: readonly [least: number, most: number] | undefined;
  /** How an item will be refused, where that can be told without reading it. */
  readonly refusalOf?: ((item: Cell) => RefusalKind | undefined) | undefined;
  /** What a blank stands for; without it a blank is refused (alone) or leaves its row blank (in a column). */
  readonly fallback?: { readonly value: T };
}

export function nameOf(argument: Named): [name: string, cells: Cells] {
  const name = Object.keys(argument)[0] as string;
  return [name, rowsOf(argument[name] ?? null)];
}

/** A cell that must hold something of this kind. */
export function readCell<T>(cell: Cell, name: string, kind: Kind<T>): T {
  const error = errorIn(cell);
  if (error) throw error;
  return kind(cell, name);
}

/**
 * A cell among others of a list or a table: a missing figure is not a zero, so a blank is refused unless it may stand.
 * Its place is put in words only where it may be needed, for most are numbers that stand for themselves.
 */
export function readItem<T>(cell: Cell, placed: () => string, kind: Kind<T>): T {
  if (standsForItself(cell, kind)) return cell as T;
  const place = placed();
  if (isBlank(cell) && !mayBeBlank(kind)) refuse(place, "blank", "fill it in; a blank is not 0");
  return readCell(cell, place, kind);
}

/** A required argument, one item a cell. */
export function required<T>(argument: Named, kind: Kind<T>): Column<T> {
  const [name, items] = nameOf(argument);
  return {
    name,
    rows: items.length,
    columns: items[0]?.length ?? 0,
    items,
    read: (cell) => readCell(cell, name, kind),
    plain: kind.plain,
    refusalOf: kind.refusalOf,
  };
}

/** An optional argument, one item a cell; left out or blank it takes the fallback. */
export function optional<T>(argument: Named, kind: Kind<T>, fallback: T): Column<T> {
  return { ...required(argument, kind), fallback: { value: fallback } };
}

/** A required argument of exactly one cell. */
export function one<T>(argument: Named, kind: Kind<T>): T {
  const [name, cells] = nameOf(argument);
  if (cells.length !== 1 || cells[0]?.length !== 1) {
    refuse(name, `${cells.length}×${cells[0]?.length ?? 0} cells`, "must be a single cell");
  }
  const cell = cells[0][0];
  if (isBlank(cell)) refuse(name, "blank", "must be given");
  return readCell(cell, name, kind);
}

/** An optional argument of one cell. */
export function oneOr<T, F>(argument: Named, kind: Kind<T>, fallback: F): T | F {
  const [, cells] = nameOf(argument);
  return isOmitted(cells) ? fallback : one(argument, kind);
}

/**
 * A list, taken whole in reading order. Blank cells after the last item are not part of it; a blank between items
 * is refused, because a missing figure is not a zero.
 */
export function list<T>(argument: Named, kind: Kind<T>): T[] {
  const [name, cells] = nameOf(argument);
  const items = inReadingOrder(cells);
  let length = items.length;
  while (length > 0 && isBlank(items[length - 1])) length--;
  if (length === 0) refuse(name, "blank", "must hold at least one value");
  expectItems(name, length);
  const values: T[] = [];
  if (
    typeof items[0] === "string" &&
    items[0].toLowerCase() !== items[0].toUpperCase() &&
    typeof items[1] === "number" &&
    !accepts(kind, items[0])
  ) {
    refuse(`${name} item 1`, shown(items[0]), "leave the heading out");
  }
  for (let index = 0; index < length; index++) {
    values.push(readItem(items[index], () => (items.length === 1 ? name : `${name} item ${index + 1}`), kind));
  }
  return values;
}

export function listOr<T, F>(argument: Named, kind: Kind<T>, fallback: F): T[] | F {
  const [, cells] = nameOf(argument);
  return isOmitted(cells) ? fallback : list(argument, kind);
}

/** A matrix of one kind, taken whole; blank rows after the last are not part of it. */
export function matrix<T>(argument: Named, kind: Kind<T>): T[][] {
  const [name, cells] = nameOf(argument);
  const filled = withoutBlankEnd(cells);
  if (filled.length === 0) refuse(name, "blank", "must hold at least one row");
  entriesStandIn(
    name,
    filled.map((_, index) => index + 1),
  );
  return filled.map((row, rowIndex) =>
    row.map((cell, columnIndex) =>
      readItem(cell, () => `${name} row ${rowIndex + 1}, column ${columnIndex + 1}`, kind),
    ),
  );
}

/** The columns of a table argument, in order: heading (underscores read as spaces) and kind. */
export type TableColumns<R> = { readonly [K in keyof R]: Kind<R[K]> };

/** What is known of a table beside its columns. */
export interface TableTraits {
  /** Columns of amounts that add up, by which a totals row is recognised. */
  readonly adding?: readonly string[];
  /** A row of zeros says nothing, so it can only be a blank one that a host handed over so. */
  readonly zerosAreBlank?: boolean;
  /** Columns that must be there though their cells may be blank. */
  readonly needed?: readonly string[];
  /** The rows may have names: in a column headed so, or in a first column of texts. */
  readonly named?: boolean;
  /** Columns that only this call has, because the person named them. */
  readonly own?: readonly string[];
  /** What a column is called in this table beside its usual synonyms. */
  readonly synonyms?: FurtherSynonyms;
}

/**
 * A table, taken whole: one object a row. With its heading row the columns are found by heading, in any order and among
 * others; without, they stand in the documented order, and columns at the right whose kind may be blank may be left
 * out altogether. Wholly blank rows are no part of it; a totals row is refused.
 */
export function table<R extends object>(argument: Named, columns: TableColumns<R>, traits?: TableTraits): R[] {
  return tableInPlace(argument, columns, traits).rows;
}

/** The same, which rows of the result belong to blank rows of the table, and the names of the others. */
export function tableInPlace<R extends object>(
  argument: Named,
  columns: TableColumns<R>,
  traits?: TableTraits,
): { readonly rows: R[]; readonly blanks: readonly boolean[]; readonly names: readonly string[] | undefined } {
  const rows = tableRows(argument, columns, traits);
  const filled = rows.filter(({ blank }) => !blank);
  entriesStandIn(
    nameOf(argument)[0],
    filled.map(({ row }) => row),
  );
  return {
    rows: filled.map(({ read }) => read()),
    blanks: rows.map(({ blank }) => blank),
    names: filled[0]?.called === undefined ? undefined : filled.map(({ called }) => called as string),
  };
}

/** One row of a table argument, to be read when its turn comes. */
export interface TableRow<R> {
  /** Where it lies in the range, from 1. */
  readonly row: number;
  /** Are all its cells blank? */
  readonly blank: boolean;
  /** Its name, in a table whose rows have names. */
  readonly called: string | undefined;
  /** The row as an object; throws a Refusal or an ErrorInCell. */
  readonly read: () => R;
}

/** Columns are declared once and read often. */
const madeFor = new WeakMap<object, readonly Heading[]>();

/** The headings of the columns, in the documented order. */
function headingsFor<R extends object>(columns: TableColumns<R>, traits: TableTraits): readonly Heading[] {
  const made = madeFor.get(columns);
  if (made !== undefined) return made;
  const isNeeded = (key: string): boolean =>
    !mayBeBlank(columns[key as keyof R]) || (traits.needed ?? []).indexOf(key) >= 0;
  const headings = Object.keys(columns).map((key) => headingOf(key, isNeeded(key), traits.synonyms));
  madeFor.set(columns, headings);
  return headings;
}

/** The same table row by row, for a result in which a bad row must not spoil the rows before it. */
export function tableRows<R extends object>(
  argument: Named,
  columns: TableColumns<R>,
  traits: TableTraits = {},
): TableRow<R>[] {
  const [name, cells] = nameOf(argument);
  const keys = Object.keys(columns) as (keyof R & string)[];
  const own = headingsFor(columns, traits);
  const known = traits.named === true ? [...own, headingOf(NAME, false, traits.synonyms)] : own;
  tellHeadings(
    name,
    known.filter(({ key }) => (traits.own ?? []).indexOf(key) < 0),
  );
  const filled = withoutBlankEnd(cells);
  if (filled.length === 0) refuse(name, "blank", `must hold the columns ${keys.map(spoken).join(", ")}`);
  expectRows(name, filled.length);
  const headings = headingsIn(name, filled, known);
  if (headings && filled.length === 1) refuse(name, "headings only", "must hold rows below them");
  const places = headings ?? inOrder(name, filled, own, columns, known.length > own.length);
  const isBlankRow = (row: readonly Cell[]): boolean =>
    row.every(isBlank) || isBlankAsZeros(row, places, columns, traits.zerosAreBlank === true);
  const body = headings ? filled.slice(1) : filled;
  refuseTotals(
    name,
    body,
    filled.length - body.length,
    (traits.adding ?? []).map((key) => places.get(key) ?? -1),
  );
  const first = 1 + filled.length - body.length;
  entriesStandIn(
    name,
    body.map((_, index) => first + index),
  );
  const taken = keys.map((key) => ({ key, column: places.get(key), kind: columns[key] }));
  if (headings) {
    for (const { key, column, kind } of taken) {
      if (column !== undefined) expectUnit(name, (filled[0] as string[])[column] as string, key, kind);
    }
  }
  const nameColumn = places.get(NAME);
  const placed = (row: number, key: string): string => `${name} row ${row}, ${spoken(key)},`;
  const read = (cells: readonly Cell[], row: number): R => {
    const record: Partial<R> = {};
    let reading = NAME;
    const place = (): string => placed(row, reading);
    for (let index = 0; index < taken.length; index++) {
      const { key, column, kind } = taken[index] as (typeof taken)[number];
      reading = key;
      record[key] = readItem(column === undefined ? null : cells[column], place, kind);
    }
    return record as R;
  };
  return body.map((cells, index) => {
    const row = first + index;
    const called = nameColumn === undefined ? undefined : readItem(cells[nameColumn], () => placed(row, NAME), NAMED);
    return { row, blank: isBlankRow(cells), called, read: () => read(cells, row) };
  });
}

const NAMED = blankIs(text, "");

/** The documented order, after a first column of names, of which optional columns at the right may be left out. */
function inOrder<R extends object>(
  name: string,
  rows: Cells,
  headings: readonly Heading[],
  columns: TableColumns<R>,
  mayBeNamed: boolean,
): ReadonlyMap<string, number> {
  const first = rows[0] as Cell[];
  let needed = headings.length;
  while (needed > 0 && !(headings[needed - 1] as Heading).needed) needed--;
  const before = mayBeNamed && rows.every(([cell]) => isBlank(cell) || isWord(cell)) ? 1 : 0;
  const width = first.length - before;
  const fits = width >= needed && width <= headings.length;
  const isData = ({ key, needed: must }: Heading, place: number): boolean =>
    !must || accepts(columns[key as keyof R], first[place + before]);
  if (!fits || !headings.slice(0, needed).every(isData)) refuseUnknownHeadings(name, rows, headings);
  if (!fits) {
    const wanted = needed === headings.length ? `${needed}` : `${needed} to ${headings.length}`;
    const listed = headings.map(({ key }) => spoken(key)).join(", ");
    refuse(name, `${counted(width, "column")} wide`, `give ${wanted}: ${listed}`);
  }
  const places = headings.slice(0, width).map(({ key }, place) => [key, place + before] as const);
  return new Map(before === 1 ? [[NAME, 0] as const, ...places] : places);
}

function isWord(cell: Cell): boolean {
  return typeof cell === "string" && !isBlank(cell.trim()) && !readsAsNumber(cell);
}

/** Some hosts hand blank cells over as 0: a row of zeros is blank where 0 is not a value of one of its columns. */
function isBlankAsZeros<R extends object>(
  row: readonly Cell[],
  places: ReadonlyMap<string, number>,
  columns: TableColumns<R>,
  always: boolean,
): boolean {
  let senseless = always;
  for (const [key, place] of places) {
    const cell = row[place];
    if (!isBlank(cell) && cell !== 0) return false;
    const kind = columns[key as keyof R] as Kind<unknown>;
    if (cell === 0 && !mayBeBlank(kind)) senseless = senseless || isText(kind) || !accepts(kind, 0);
  }
  return senseless;
}

function isText(kind: Kind<unknown>): boolean {
  return (kind as unknown) === text;
}

/** A totals row taken along would count everything twice. */
function refuseTotals(name: string, rows: Cells, before: number, adding: readonly number[]): void {
  rows.forEach((row, index) => {
    if (!isCalledTotal(row)) return;
    refuse(`${name} row ${index + 1 + before}`, "a totals row", "leave it out: it would count everything twice");
  });
  const last = rows.length - 1;
  if (last < 2 || !isSumOf(rows.slice(0, last), rows[last] as Cell[], adding)) return;
  refuse(`${name} row ${last + 1 + before}`, "the sum of the rows above", "leave the totals row out");
}

/** Two lists that belong together, row by row. */
export function sameLength(first: string, firstLength: number, second: string, secondLength: number): void {
  if (firstLength !== secondLength) {
    refuse(second, `${counted(secondLength, "item")} long`, `must match ${first}, which has ${firstLength}`);
  }
}

/** The rows up to the last that holds anything. */
export function withoutBlankEnd(cells: Cells): Cells {
  let length = cells.length;
  while (length > 0 && (cells[length - 1] as Cell[]).every(isBlank)) length--;
  return cells.slice(0, length);
}
