import type { Book, BookSheet } from "./book";
import { put } from "./dynamic-arrays";
import { textOf } from "./package-safety";
import { insertedAtEnd, relationsPartOf, withContentType, withDefaultType, withRelation } from "./relations";
import type { StoredCell } from "./sheet-part";
import { elements, encoded, firstElement } from "./xml";

export interface Note {
  readonly cell: StoredCell;
  readonly text: string;
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const NO_COMMENTS = `${HEAD}<comments xmlns="${MAIN}"><authors></authors><commentList></commentList></comments>`;
const NO_SHAPES =
  '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype></xml>';
const COMMENTS_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml";
const AUTHOR = "Worksheet functions";

/** Adds notes to cells of a sheet, beside those it has; gives the sheet's text with what refers to them. */
export function addNotes(book: Book, sheet: BookSheet, notes: readonly Note[], sheetXml: string): string {
  if (notes.length === 0) return sheetXml;
  const comments = partFor(book, sheet, "comments", "xl/comments{}.xml", NO_COMMENTS);
  const taken = new Set([...elements(comments.xml, "comment")].map(({ attributes }) => attributes.ref));
  const fresh = notes.filter(({ cell }) => !taken.has(cell.address));
  const author = [...elements(comments.xml, "author")].length;
  const list = fresh.map(
    ({ cell, text }) =>
      `<comment ref="${cell.address}" authorId="${author}"><text><t xml:space="preserve">${encoded(text)}</t></text></comment>`,
  );
  const commented = comments.xml
    .replace(/<authors\s*\/>/, "<authors></authors>")
    .replace("</authors>", `<author>${AUTHOR}</author></authors>`)
    .replace(/<commentList\s*\/>/, "<commentList></commentList>")
    .replace("</commentList>", `${list.join("")}</commentList>`);
  put(book.parts, comments.part, commented);
  const types = textOf(book.parts, "[Content_Types].xml", book.called) ?? "";
  const vml = "application/vnd.openxmlformats-officedocument.vmlDrawing";
  put(
    book.parts,
    "[Content_Types].xml",
    withDefaultType(withContentType(types, comments.part, COMMENTS_TYPE), "vml", vml),
  );

  const drawing = drawingFor(book, sheet, sheetXml);
  const first = 1 + Math.max(1024, ...[...drawing.xml.matchAll(/_x0000_s(\d+)/g)].map(([, id]) => Number(id)));
  put(
    book.parts,
    drawing.part,
    insertedAtEnd(drawing.xml, "xml", fresh.map((note, at) => shapeOf(note, first + at)).join("")),
  );
  return drawing.id === undefined ? sheetXml : withLegacyDrawing(sheetXml, drawing.id);
}

/** The sheet's part of this kind, made and related to it when there is none; the id is given for a new one only. */
function partFor(
  book: Book,
  sheet: BookSheet,
  kind: string,
  pattern: string,
  empty: string,
): { part: string; xml: string; id?: string } {
  const { parts, called } = book;
  const present = sheet.relations.find((relation) => relation.kind === kind)?.part;
  if (present !== undefined) return { part: present, xml: textOf(parts, present, called) ?? empty };
  let number = 1;
  while (parts.has(pattern.replace("{}", String(number)))) number++;
  const part = pattern.replace("{}", String(number));
  const relationsPart = relationsPartOf(sheet.partName);
  const { xml, id } = withRelation(textOf(parts, relationsPart, called), kind, `/${part}`);
  put(parts, relationsPart, xml);
  return { part, xml: empty, id };
}

/** The drawing that holds the notes; another one may hold the pictures of the page's head. */
function drawingFor(book: Book, sheet: BookSheet, sheetXml: string): { part: string; xml: string; id?: string } {
  const attributes = firstElement(sheetXml, "legacyDrawing")?.attributes ?? {};
  const id = Object.entries(attributes).find(([name]) => /(^|:)id$/.test(name))?.[1];
  const relations = sheet.relations.filter((relation) => relation.id === id);
  return partFor(book, { ...sheet, relations }, "vmlDrawing", "xl/drawings/notes{}.vml", NO_SHAPES);
}

function shapeOf({ cell, text }: Note, id: number): string {
  const height = 2 + Math.ceil(text.length / 40);
  const anchor = [cell.column, 15, cell.row - 1, 10, cell.column + 4, 15, cell.row + height, 4].join(", ");
  return `<v:shape id="_x0000_s${id}" type="#_x0000_t202" style="position:absolute;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto"><v:fill color2="#ffffe1"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox><x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>${anchor}</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>${cell.row - 1}</x:Row><x:Column>${cell.column - 1}</x:Column></x:ClientData></v:shape>`;
}

/** What the schema puts after the drawing of the notes. */
const AFTER = /<(?:\w+:)?(?:legacyDrawingHF|drawingHF|picture|oleObjects|controls|webPublishItems|tableParts|extLst)\b/;

function withLegacyDrawing(xml: string, id: string): string {
  const data = xml.indexOf("sheetData");
  const after = AFTER.exec(xml.slice(data));
  const prefix = /<\/(\w+:)?worksheet>\s*$/.exec(xml)?.[1] ?? "";
  const element = `<${prefix}legacyDrawing xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" r:id="${id}"/>`;
  const place = after ? data + after.index : xml.lastIndexOf("</");
  return xml.slice(0, place) + element + xml.slice(place);
}
