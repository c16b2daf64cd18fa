import type { Book } from "./book";
import { put } from "./dynamic-arrays";
import { textOf } from "./package-safety";
import { relationsIn, relationsPartOf, withChanged } from "./relations";
import type { StoredCell } from "./sheet-part";
import { elements } from "./xml";

/** Says again how many cells refer to the shared strings, and how many strings there are. */
export function countSharedStrings(book: Book): void {
  const { part, xml } = sharedStringsOf(book);
  if (part !== undefined)
    put(book.parts, part, counted(xml, [...elements(xml, "si")].length, [...referring(book)].length));
}

/** Takes out the strings that no cell refers to any more. The sheets have to be put back afterwards. */
export function dropUnusedStrings(book: Book): void {
  const { part, xml } = sharedStringsOf(book);
  if (part === undefined) return;
  const strings = [...elements(xml, "si")];
  const places = new Map<string, number>();
  const cells = [...referring(book)];
  for (const { value } of cells) if (!places.has(value.text)) places.set(value.text, places.size);
  for (const cell of cells) cell.write({ type: "s", text: String(places.get(cell.value.text)) });
  const kept = [...places.keys()].map((place) => {
    const { start, end } = strings[Number(place)] as { start: number; end: number };
    return xml.slice(start, end);
  });
  const from = strings[0]?.start ?? 0;
  const to = strings[strings.length - 1]?.end ?? 0;
  put(book.parts, part, counted(xml.slice(0, from) + kept.join("") + xml.slice(to), kept.length, cells.length));
}

function sharedStringsOf({ parts, workbookPart, called }: Book): { part?: string; xml: string } {
  const relations = relationsIn(textOf(parts, relationsPartOf(workbookPart), called), workbookPart);
  const part = relations.find(({ kind }) => kind === "sharedStrings")?.part;
  const xml = part === undefined ? undefined : textOf(parts, part, called);
  return part === undefined || xml === undefined ? { xml: "" } : { part, xml };
}

function* referring({ sheets }: Book): Generator<StoredCell> {
  for (const { part } of sheets) for (const cell of part.cells()) if (cell.attributes.t === "s") yield cell;
}

function counted(xml: string, strings: number, uses: number): string {
  return withChanged(xml, "sst", (own) => ({ ...own, count: String(uses), uniqueCount: String(strings) }));
}
