import type { Book } from "./book";
import { Complaint } from "./command-line";
import { placeOfOne, type Place } from "./places";
import { endOf, type Shape } from "./shapes";
import { valueIn } from "./stored-text";
import { CellError, type Value } from "./values";

/** What is known of the inputs: a Table of the workbook or a .csv with one row an input. */
export interface Ranges {
  /** How messages call the Table or the file. */
  readonly called: string;
  readonly rows: readonly Row[];
  /** The cells and names that are marked as outcomes. */
  readonly outcomes: readonly string[];
}

interface Row {
  readonly input: string;
  readonly low: readonly number[];
  readonly likely: readonly number[];
  readonly high: readonly number[];
  readonly shape: string;
  readonly movesWith: string;
}

/** An input, where it stands and how it is spread. */
export interface Input {
  readonly place: Place;
  readonly shape: Shape;
  readonly low: number;
  readonly high: number;
  /** What the cell holds in the file. */
  readonly now: number;
  /** The place in the list of the input whose draws it takes; its own where it moves alone. */
  readonly follows: number;
}

const HEADINGS = ["input", "low", "likely", "high", "shape", "moves with"] as const;
type Heading = (typeof HEADINGS)[number];
const OPTIONAL: readonly Heading[] = ["shape", "moves with"];

const SHAPES = ["triangle", "normal", "even", "list"];
/** A row of this shape names an outcome. */
const OUTCOME = "outcome";

const RANGES_TABLE = "Ranges";

/** The Tables that hold ranges, the one of that name first: it is meant, whatever its headings. */
export function tablesOfRanges(book: Book): string[] {
  const all = tablesIn(book).map(({ table }) => table);
  const named = all.filter(({ name }) => isCalled(name, RANGES_TABLE));
  const needed = HEADINGS.filter((heading) => !OPTIONAL.includes(heading));
  const others = all.filter(({ columns }) => {
    const headings = columns.map((column) => plainHeading(column.name));
    return needed.every((heading) => headings.includes(heading));
  });
  return [...new Set([...named, ...others].map(({ name }) => name))];
}

export function hasRanges(book: Book, name = ownTable(book)): boolean {
  return name !== undefined && tableNamed(book, name) !== undefined;
}

/** The Table that is meant where none is named. */
function ownTable(book: Book): string | undefined {
  const [first, ...others] = tablesOfRanges(book);
  return first !== undefined && (others.length === 0 || isCalled(first, RANGES_TABLE)) ? first : undefined;
}

function tablesIn(book: Book) {
  return book.sheets.flatMap(({ part, tables }) => tables.map((table) => ({ part, table })));
}

function tableNamed(book: Book, wanted: string) {
  return tablesIn(book).find(({ table }) => isCalled(table.name, wanted));
}

function isCalled(name: string, wanted: string): boolean {
  return name.toLowerCase() === wanted.toLowerCase();
}

/** The ranges that stand in a Table of the workbook: the one named, the one called Ranges, or the only one. */
export function rangesInTable(book: Book, name = ownTable(book)): Ranges {
  const found = name === undefined ? undefined : tableNamed(book, name);
  if (found === undefined) {
    const several = tablesOfRanges(book);
    throw new Complaint(
      name === undefined && several.length > 1
        ? `${book.called} has several Tables of ranges, ${several.join(", ")}; say which with --ranges TABLE`
        : `${book.called} has no Table named ${name ?? RANGES_TABLE}; give one with --ranges TABLE or --ranges FILE.csv`,
    );
  }
  const { part, table } = found;
  const first = table.tl.row + (table.headerRow ? 1 : 0);
  const rows = table.rows.map((_, down) =>
    table.columns.map((__, along): Value => {
      const cell = part.find(first + down, table.tl.col + along);
      return cell === undefined ? null : valueIn(cell.value, book.shared);
    }),
  );
  return rangesFrom(
    `the Table ${table.name}`,
    table.columns.map((column) => column.name),
    rows,
  );
}

/** The ranges of a text file; a file with semicolons may have decimal commas. */
export function rangesInText(text: string, called: string): Ranges {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const heading = lines[0] ?? "";
  const mark = heading.includes("\t") ? "\t" : heading.includes(";") ? ";" : ",";
  const [headings = [], ...rows] = lines.filter((line) => line.trim() !== "").map((line) => fieldsOf(line, mark));
  const decimal = (field: string) => (mark === ";" ? field.replace(",", ".") : field);
  return rangesFrom(
    called,
    headings,
    rows.map((fields) =>
      fields.map((field, column) => (/^[-+\d.,]/.test(field) && column > 0 ? decimal(field) : field)),
    ),
  );
}

function fieldsOf(line: string, mark: string): string[] {
  const fields: string[] = [];
  const pattern = new RegExp(`(?:^|${mark})(?:"((?:[^"]|"")*)"|([^${mark}]*))`, "g");
  for (const [, quoted, plain] of line.matchAll(pattern))
    fields.push((quoted?.replace(/""/g, '"') ?? plain ?? "").trim());
  return fields;
}

function rangesFrom(called: string, headings: readonly string[], rows: readonly (readonly Value[])[]): Ranges {
  const plain = headings.map(plainHeading);
  const columns = new Map(HEADINGS.map((heading) => [heading, plain.indexOf(heading)]));
  for (const heading of HEADINGS) {
    if (columns.get(heading) === -1 && !OPTIONAL.includes(heading)) {
      throw new Complaint(
        `${called} has no heading ${heading}; it needs input, low, likely, high, [shape], [moves with]`,
      );
    }
  }
  const found: Row[] = [];
  const outcomes: string[] = [];
  rows.forEach((row, index) => {
    const value = (heading: Heading) => row[columns.get(heading) as number] ?? null;
    const text = (heading: Heading) => wordsIn(value(heading));
    const where = `${called}, row ${index + 1}`;
    const input = text("input");
    if (input === "") return;
    const shape = text("shape").toLowerCase() || "triangle";
    if (shape === OUTCOME) {
      outcomes.push(input);
      return;
    }
    if (!SHAPES.includes(shape)) {
      throw new Complaint(`${where}: shape is "${shape}"; must be ${SHAPES.join(", ")} or ${OUTCOME}`);
    }
    const numbers = (heading: Heading) => numbersIn(value(heading), `${where}: ${heading}`);
    found.push({
      input,
      low: numbers("low"),
      likely: numbers("likely"),
      high: numbers("high"),
      shape,
      movesWith: text("moves with"),
    });
  });
  if (found.length === 0) throw new Complaint(`${called} names no input`);
  return { called, rows: found, outcomes };
}

/** "low (unit of the input)" is low. */
function plainHeading(heading: string): string {
  return heading
    .replace(/\(.*\)\s*$/, "")
    .trim()
    .toLowerCase();
}

function wordsIn(value: Value): string {
  return value === null || value instanceof CellError ? "" : String(value).trim();
}

/** A number, a percentage in text, or several parted by semicolons. */
function numbersIn(value: Value, what: string): number[] {
  if (typeof value === "number") return [value];
  if (value instanceof CellError) throw new Complaint(`${what} is ${value.code}; must be a number`);
  return wordsIn(value)
    .split(/[;|]/)
    .filter((text) => text.trim() !== "")
    .map((text) => {
      const [, digits, percent] = /^\s*(.*?)\s*(%?)\s*$/.exec(text) as unknown as [string, string, string];
      const number = digits === "" ? NaN : Number(digits);
      if (!Number.isFinite(number)) throw new Complaint(`${what} is "${text.trim()}"; must be a number`);
      return percent === "" ? number : number / 100;
    });
}

/** The inputs that the ranges name, in this workbook. */
export function inputsOf(book: Book, { called, rows }: Ranges): Input[] {
  const places = rows.map(({ input }) => placeOfOne(book, input, "input"));
  const keys = places.map(({ sheet, row, column }) => `${sheet}!${row},${column}`);
  keys.forEach((key, index) => {
    if (keys.indexOf(key) !== index) throw new Complaint(`${called} names ${rows[index]?.input} twice`);
  });
  const leaders = rows.map(({ movesWith }, index): number => {
    if (movesWith === "") return index;
    const { sheet, row, column } = placeOfOne(book, movesWith, "moves with");
    const leader = keys.indexOf(`${sheet}!${row},${column}`);
    if (leader < 0) throw new Complaint(`${rows[index]?.input} moves with ${movesWith}, which has no range itself`);
    return leader;
  });
  return rows.map((row, index): Input => {
    const place = places[index] as Place;
    const now = numberAt(book, place);
    const shape = shapeOf(row, now);
    const [low, high] = [endOf(shape, "low"), endOf(shape, "high")];
    let follows = index;
    for (let step = 0; leaders[follows] !== follows; step++) {
      if (step > rows.length)
        throw new Complaint(`${row.input} moves with others in a circle; one of them must move alone`);
      follows = leaders[follows] as number;
    }
    return { place, shape, low, high, now, follows };
  });
}

/** An input that has no range: it moves only where someone moves it. */
export function fixedInput(book: Book, typed: string): Input {
  const place = placeOfOne(book, typed, "input");
  const now = numberAt(book, place);
  return { place, shape: { kind: "even", low: now, high: now }, low: now, high: now, now, follows: 0 };
}

function numberAt(book: Book, { called, sheet, row, column }: Place): number {
  const cell = book.sheets.find(({ name }) => name === sheet)?.part.find(row, column);
  if (cell?.formula !== undefined) {
    throw new Complaint(`input ${called} holds a formula; an input is a cell with a number that is typed in`);
  }
  const value = cell === undefined ? null : valueIn(cell.value, book.shared);
  if (typeof value !== "number") throw new Complaint(`input ${called} holds no number; an input is a typed number`);
  return value;
}

function shapeOf({ input, shape, low, likely, high }: Row, now: number): Shape {
  if (shape === "list") {
    const values = [...low, ...likely, ...high];
    if (values.length === 0) throw new Complaint(`${input}: the list has no values; write them as 1; 2; 3`);
    return { kind: "list", values };
  }
  const one = (given: readonly number[], what: string) => {
    if (given.length > 1) throw new Complaint(`${input}: ${what} has ${given.length} values; only a list has several`);
    return given[0];
  };
  const [from, middle, to] = [one(low, "low"), one(likely, "likely"), one(high, "high")];
  if (from === undefined || to === undefined) throw new Complaint(`${input}: low and high must both be given`);
  if (from > to) throw new Complaint(`${input}: low is ${from} and high is ${to}; low must not be above high`);
  if (shape === "triangle") {
    const top = middle ?? now;
    if (top < from || top > to)
      throw new Complaint(`${input}: likely is ${top}; must be from low ${from} to high ${to}`);
    return { kind: "triangle", low: from, likely: top, high: to };
  }
  if (shape === "normal" && middle !== undefined && Math.abs(middle - (from + to) / 2) > 1e-6 * (to - from)) {
    throw new Complaint(
      `${input}: likely is ${middle}; a normal has it midway, at ${(from + to) / 2}; leave it blank or use triangle`,
    );
  }
  return { kind: shape as "normal" | "even", low: from, high: to };
}
