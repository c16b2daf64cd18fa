import { refuse, shortened } from "../trade/refusal";
import { list, nameOf, readItem, sameLength, withoutBlankEnd, type Named } from "./arguments";
import { inReadingOrder, isBlank, isOmitted, shown, type Cell, type Cells, type Result, type Results } from "./cells";
import { clipped, columnUnder, listHeading, NAMES, plainHeading, refuseTotal, spoken, tellHeadings } from "./headings";
import { expectUnit } from "./heading-units";
import { accepts, mayBeBlank, readsAsNumber, type Kind } from "./kinds";
import { finite } from "./lift";
import { entriesStandIn } from "./places";
import { eachOf } from "./lists";
import { refuseTotalOfMeasurements } from "./totals";
import { inPlaces, inShapeOf, transposed } from "./shape";

/** A range of figures, and the names that stood before its rows and above its columns. */
export interface Block {
  /** The argument's name. */
  readonly name: string;
  /** The rows of figures; wholly blank ones, which also have no name, are among them. */
  readonly figures: Cells;
  /** One a row of figures. */
  readonly rowNames: readonly string[] | undefined;
  /** One a column of figures. */
  readonly columnNames: readonly string[] | undefined;
  /** Rows and columns of names before the figures, for messages that count as the range lies. */
  readonly above: number;
  readonly before: number;
}

/**
 * Takes the names off a range. A name is a text that the kind of the figures does not take. A first column is one of
 * names when it holds nothing else but blanks; a first row when it holds nothing else at all, but for the corner over a
 * column of names. So a first row with a number or a blank is data, and so is a range whose every text reads as a
 * number.
 */
export function block(argument: Named, kind: Kind<unknown>): Block {
  const [name, filled] = nameOf(argument);
  const isName = (cell: Cell): boolean => typeof cell === "string" && !isBlank(cell.trim()) && !accepts(kind, cell);
  const plain = { name, figures: filled, rowNames: undefined, columnNames: undefined, above: 0, before: 0 };
  if (!filled.some((row) => row.some((cell) => isName(cell) && !isFigure(cell as string)))) return plain;
  const areNamed = (rows: Cells): boolean =>
    (rows[0] as Cell[]).length > 1 &&
    rows.some((row) => isName(row[0])) &&
    rows.every((row) => isBlank(row[0]) || isName(row[0]));
  const [first, ...below] = filled as [Cell[], ...Cell[][]];
  const isHeaded =
    below.length > 0 &&
    first.length > (isName(first[0]) ? 0 : 1) &&
    first.every((cell, place) => isName(cell) || (place === 0 && isBlank(cell) && areNamed(below)));
  const body = isHeaded ? below : filled;
  const before = areNamed(body) ? 1 : 0;
  const written = (cell: Cell): string => (isBlank(cell) ? "" : (cell as string).trim());
  return {
    name,
    figures: before === 0 ? body : body.map((row) => row.slice(1)),
    rowNames: before === 0 ? undefined : body.map(([cell]) => written(cell)),
    columnNames: isHeaded ? first.slice(before).map(written) : undefined,
    above: isHeaded ? 1 : 0,
    before,
  };
}

/** Does a text read as a number? "0417" is the number of a lot: nobody writes a figure so. */
function isFigure(written: string): boolean {
  return readsAsNumber(written) && !/^0\d/.test(written.trim());
}

/** A matrix of figures, taken whole, with its names. */
export interface NamedMatrix<T> {
  readonly name: string;
  readonly values: T[][];
  /** Names of the rows that are not blank, and of the columns. */
  readonly rows: Along;
  readonly columns: Along;
}

/** What lies along one side of a matrix, or along a list: how many things, their names, and which places are blank. */
export interface Along {
  /** The argument, for messages. */
  readonly of: string;
  readonly count: number;
  readonly names: readonly string[] | undefined;
  readonly blanks: readonly boolean[];
}

/** A matrix with the names of its rows and columns, if it has them. Wholly blank rows are left out wherever they stand. */
export function namedMatrix<T>(argument: Named, kind: Kind<T>): NamedMatrix<T> {
  const [name, cells] = nameOf(argument);
  const { figures, rowNames, columnNames, above, before } = block({ [name]: withoutBlankEnd(cells) }, kind);
  if (figures.every((row) => row.every(isBlank))) refuse(name, "blank", "must hold at least one row");
  refuseTotal(name, rowNames, "row", above);
  refuseTotal(name, columnNames, "column", before);
  const width = (figures[0] as Cell[]).length;
  // A blank in a lone column is a missing figure.
  const blanks = figures.map((row, index) => width + before > 1 && row.every(isBlank) && !rowNames?.[index]);
  const kept = <V>(values: readonly V[]): V[] => values.filter((_, index) => !blanks[index]);
  const values = figures.map((row, rowIndex) => {
    if (blanks[rowIndex]) return [];
    return row.map((cell, columnIndex) =>
      readItem(cell, () => `${name} row ${rowIndex + 1 + above}, column ${columnIndex + 1 + before}`, kind),
    );
  });
  const places = kept(figures.map((_, index) => index + 1 + above));
  entriesStandIn(
    name,
    places,
    (figures[0] as Cell[]).map((_, index) => index + 1 + before),
  );
  return {
    name,
    values: kept(values),
    rows: { of: name, count: places.length, names: rowNames && kept(rowNames), blanks },
    columns: { of: name, count: width, names: columnNames, blanks: [] },
  };
}

/** A list of figures one after the other, as an argument of its own, and what it lies along. */
export interface NamedList {
  readonly figures: Named;
  readonly along: Along;
  /** Does it lie in a row of the sheet, with its names above? */
  readonly across: boolean;
}

/**
 * The figures of a list without names: those under `heading` in a table of the user's own, or all of a range that lies
 * along one row or column of names. A list without names may be a block and is taken in reading order.
 */
export function namedList(argument: Named, kind: Kind<unknown>, heading: string): NamedList {
  const [name, cells] = nameOf(argument);
  const own = listHeading(heading);
  tellHeadings(name, [own, NAMES]);
  const rows = withoutBlankEnd(cells);
  const under = columnUnder(rows, own);
  const { figures, rowNames, columnNames } = under ?? block(argument, kind);
  if (under) expectUnit(name, under.headed, heading, kind);
  const items = inReadingOrder(figures);
  const across = figures.length === 1 && items.length > 1;
  const names = across ? columnNames : (rowNames ?? (items.length === 1 ? columnNames : undefined));
  if (rowNames === undefined && columnNames === undefined) {
    const isNumbered = rows.length > 2 && items.length > rows.length && rows.every(([cell], row) => cell === row + 1);
    if (isNumbered) refuse(name, "numbered in its first column", "leave that column out");
    return { figures: { [name]: cells }, along: { of: name, count: items.length, names, blanks: [] }, across };
  }
  if (figures.length > 1 && (figures[0] as Cell[]).length > 1) {
    const came = columnNames === undefined ? "a block with names" : `headed ${clipped(columnNames)}`;
    refuse(name, came, `must be one column of figures beside its names, or one headed ${spoken(heading)}`);
  }
  if (columnNames !== undefined && !across) expectUnit(name, columnNames[0] as string, heading, kind, false);
  refuseTotal(name, names, "item", 0);
  const last = items.length - 1;
  if (items[last] && names?.[last] === "") refuseTotalOfMeasurements(name, items as number[]);
  const blanks = items.map((cell, index) => isBlank(cell) && !names?.[index]);
  const kept = <V>(values: readonly V[]): V[] => values.filter((_, index) => !blanks[index]);
  const left = kept(items);
  return {
    figures: { [name]: [left.length === 0 ? [null] : left] },
    along: { of: name, count: left.length, names: names && kept(names), blanks },
    across,
  };
}

/** Does one column of the table carry the heading of such a list? */
export function hasListUnder(argument: Named, heading: string): boolean {
  return columnUnder(withoutBlankEnd(nameOf(argument)[1]), listHeading(heading)) !== undefined;
}

/** The figures of a list that is taken whole and of whose names the result shows nothing. */
export function figuresOf<T>(argument: Named, kind: Kind<T>, heading: string): T[] {
  return list(namedList(argument, kind, heading).figures, kind);
}

/**
 * The figures of a list that belongs to the things along another argument: without what stands at its blank places, and
 * in its order where both have names. Names that the other has not are passed over, unless figures would be lost so.
 */
export function alongside(
  argument: Named,
  kind: Kind<unknown>,
  heading: string,
  to: Along,
  others: "passed over" | "refused" = "passed over",
): Named {
  const [name, cells] = nameOf(argument);
  if (isOmitted(cells)) return argument;
  const { figures, along } = namedList(argument, kind, heading);
  const items = inReadingOrder((figures as Record<string, Cells>)[name] as Cells);
  const { names } = along;
  if (names !== undefined && to.names !== undefined && (items.length > 1 || isAmong(names[0] as string, to.names))) {
    const order = mayBeBlank(kind) ? placesOfNames(name, names, to) : orderOf(name, names, to);
    // Where some are left to their default, a name that is only misspelt would be too.
    if (others === "refused" || order.some((place) => place < 0)) refuseUnknown(name, names, to);
    return { [name]: [order.map((place) => (place < 0 ? null : items[place]))] };
  }
  const spare = to.blanks.filter(Boolean).length;
  if (spare === 0 || items.length !== to.blanks.length || along.names !== undefined) return figures;
  const isSpare = (place: number): boolean => to.blanks[place] === true;
  items.forEach((cell, place) => {
    if (isSpare(place) && !isBlank(cell) && cell !== 0) {
      refuse(`${name} item ${place + 1}`, shown(cell), `must be blank as in ${to.of}`);
    }
  });
  return { [name]: [items.filter((_, place) => !isSpare(place))] };
}

/** An optional argument beside other things: left out, one cell for all, or one cell a thing. */
export function eachAlong<T>(argument: Named, kind: Kind<T>, fallback: T, heading: string, to: Along): T[] {
  const [name, cells] = nameOf(argument);
  const isOne = cells.length === 1 && (cells[0] as Cell[]).length === 1;
  return eachOf(isOne ? { [name]: cells } : alongside(argument, kind, heading, to), kind, fallback, to.of, to.count);
}

/** For each thing of the other argument, the place at which its name stands in this one; every name must be there. */
export function orderOf(name: string, names: readonly string[], to: Along): number[] {
  const order = placesOfNames(name, names, to);
  const missing = order.findIndex((place) => place < 0);
  if (missing >= 0) {
    refuse(name, `without "${shortened((to.names as readonly string[])[missing] as string)}"`, namesOf(to));
  }
  return order;
}

/** The same, with -1 for a thing whose name is not there. */
export function placesOfNames(name: string, names: readonly string[], to: Along): number[] {
  const own = names.map(plainHeading);
  const wanted = (to.names as readonly string[]).map(plainHeading);
  // Things of one name are told apart by their order, as long as nothing else is asked of the names.
  if (own.length === wanted.length && own.every((written, place) => written === wanted[place])) {
    return own.map((_, place) => place);
  }
  return wanted.map((key) => {
    const place = own.indexOf(key);
    if (own.lastIndexOf(key) !== place)
      refuse(name, `"${shortened(names[place] as string)}" twice`, "give every name once");
    return place;
  });
}

/** Refuses names that the other argument has not. */
export function refuseUnknown(name: string, names: readonly string[], to: Along): void {
  const unknown = names.find((written) => written !== "" && !isAmong(written, to.names as readonly string[]));
  if (unknown !== undefined) refuse(name, `with "${shortened(unknown)}" in it`, namesOf(to));
}

/** Is a name among others, in whatever spelling? */
export function isAmong(written: string, names: readonly string[]): boolean {
  return names.some((other) => plainHeading(other) === plainHeading(written));
}

function namesOf(to: Along): string {
  return `must have the names of ${to.of}, or none`;
}

/** For each field the list it comes from, the kind of its items, its heading, and what it is when the list is left out. */
export type NamedLists<R> = {
  readonly [K in keyof R]: readonly [from: Named, kind: Kind<R[K]>, heading: string, leftOut?: R[K]];
};

/**
 * Lists that belong together item by item, taken whole: one object an item, and the first list as it lies. By their
 * names where they have some; without, all must be as long as the first.
 */
export function namedTogether<R extends object>(
  lists: NamedLists<R>,
): { readonly items: R[]; readonly first: NamedList } {
  const fields = Object.keys(lists) as (keyof R & string)[];
  const [from, kind, heading] = lists[fields[0] as keyof R & string];
  const first = namedList(from, kind, heading);
  const values = list(first.figures, kind);
  const items = values.map((value): Partial<R> => ({ [fields[0] as string]: value }) as Partial<R>);
  const along = { ...first.along, count: items.length };
  for (const field of fields.slice(1)) {
    const [other, ofOther, headed, leftOut] = lists[field];
    const own =
      isOmitted(nameOf(other)[1]) && leftOut !== undefined
        ? items.map(() => leftOut)
        : list(alongside(other, ofOther, headed, along), ofOther);
    sameLength(along.of, items.length, nameOf(other)[0], own.length);
    items.forEach((item, index) => (item[field] = own[index] as R[typeof field]));
  }
  return { items: items as R[], first };
}

/** Rows of results with the names before them and above them, where there are any. */
export function withNames(
  rows: Results,
  before: readonly string[] | undefined,
  above: readonly string[] | undefined,
): Results {
  const named = before === undefined ? rows : rows.map((row, place) => [before[place] as Result, ...row]);
  if (above === undefined) return named;
  return [[...(before === undefined ? [] : [""]), ...above], ...named];
}

/** One value for each item of a list, laid out as the list lies, with its names where it has them. */
export function likeList({ figures, along, across }: NamedList, values: readonly Result[]): Results {
  if (along.names === undefined && along.blanks.length === 0) return inShapeOf(figures, values);
  const column = inPlaces(
    along.blanks,
    values.map((value, place) => [...(along.names ? [along.names[place] as string] : []), finite(value)]),
  );
  return across ? transposed(column) : column;
}
