import { addressOf, areaOf } from "./addresses";
import type { Book, BookSheet } from "./book";
import { Complaint } from "./command-line";
import type { Area } from "./grid";

/** A cell of a workbook and how the person calls it. */
export interface Place {
  readonly called: string;
  /** As the book writes it. */
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

const MOST_CELLS = 200;

/** The cells that a person names: Cost!H12, 'My sheet'!B2:B5, or a defined name. */
export function placesOf(book: Book, typed: string, as: string): Place[] {
  const text = typed.trim();
  const { sheet, area } = areaNamed(book, text, as);
  const cells = (area.bottom - area.top + 1) * (area.right - area.left + 1);
  if (cells === 1) return [{ called: text, sheet: sheet.name, row: area.top, column: area.left }];
  if (cells > MOST_CELLS) throw new Complaint(`${as} ${text} has ${cells} cells; at most ${MOST_CELLS} are taken`);
  const places: Place[] = [];
  for (let row = area.top; row <= area.bottom; row++) {
    for (let column = area.left; column <= area.right; column++) {
      places.push({ called: `${quoted(sheet.name)}!${addressOf(row, column)}`, sheet: sheet.name, row, column });
    }
  }
  return places;
}

export function placeOfOne(book: Book, typed: string, as: string): Place {
  const [place, more] = placesOf(book, typed, as);
  if (place === undefined || more !== undefined) throw new Complaint(`${as} ${typed} has several cells; name one`);
  return place;
}

function areaNamed(book: Book, text: string, as: string): { sheet: BookSheet; area: Area } {
  const named = book.names.find(({ name }) => name.toLowerCase() === text.toLowerCase())?.ranges[0];
  const written = named ?? text;
  const mark = written.lastIndexOf("!");
  const area = areaOf(written.slice(mark + 1).replace(/\$/g, ""));
  if (area === undefined) {
    throw new Complaint(
      named === undefined
        ? `${as} ${text} is no cell and no name of this workbook; write Sheet!A1 or a defined name`
        : `${as} ${text} is a name of ${named}, which is no cell`,
    );
  }
  if (mark < 0) {
    const [only, another] = book.sheets;
    if (only === undefined || another !== undefined)
      throw new Complaint(`${as} ${text} names no sheet; write Sheet!A1`);
    return { sheet: only, area };
  }
  const plain = written.slice(0, mark).replace(/^'|'$/g, "").replace(/''/g, "'");
  const sheet = book.sheets.find(({ name }) => name.toLowerCase() === plain.toLowerCase());
  if (sheet === undefined) throw new Complaint(`${as} ${text}: there is no sheet "${plain}"`);
  return { sheet, area };
}

function quoted(sheet: string): string {
  return /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) ? sheet : `'${sheet.replace(/'/g, "''")}'`;
}

/** A list of cells and names, at commas that stand in no quotes. */
export function listed(typed: string): string[] {
  return (typed.match(/(?:'(?:[^']|'')*'|[^,'])+/g) ?? []).map((one) => one.trim()).filter((one) => one !== "");
}
