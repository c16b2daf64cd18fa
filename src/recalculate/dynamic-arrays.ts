import type { Book } from "./book";
import { textOf, type Parts } from "./package-safety";
import { insertedAtEnd, relationsIn, relationsPartOf, withContentType, withRelation } from "./relations";
import { elements, firstElement } from "./xml";

/** The metadata part that makes a cell a dynamic array, as Excel writes it. */
const TYPE =
  '<metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/>';
const FUTURE =
  '<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata>';
const EMPTY =
  '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"></metadata>';
const CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";

const encoder = new TextEncoder();

/** The cm number that marks a dynamic array in this book; the metadata part is made or completed where needed. */
export function dynamicMark(book: Book): string {
  const { parts, workbookPart, called, dynamicMarks } = book;
  const [existing] = dynamicMarks;
  if (existing !== undefined) return existing;
  const relationsPart = relationsPartOf(workbookPart);
  const relations = textOf(parts, relationsPart, called) ?? "";
  const present = relationsIn(relations, workbookPart).find(({ kind }) => kind === "sheetMetadata")?.part;
  if (present !== undefined) {
    const { xml, mark } = completed(textOf(parts, present, called) ?? EMPTY);
    put(parts, present, xml);
    return mark;
  }
  const part = workbookPart.replace(/[^/]*$/, "metadata.xml");
  put(parts, part, completed(EMPTY).xml);
  put(parts, relationsPart, withRelation(relations, "sheetMetadata", "metadata.xml").xml);
  const types = textOf(parts, "[Content_Types].xml", called) ?? "";
  put(parts, "[Content_Types].xml", withContentType(types, part, CONTENT_TYPE));
  return "1";
}

/** Metadata with the one entry for dynamic arrays, after whatever stood there. */
function completed(xml: string): { xml: string; mark: string } {
  const types = listed(xml, "metadataTypes", "metadataType");
  const marks = listed(xml, "cellMetadata", "bk");
  const number = types.length + 1;
  const added = rebuilt(xml, {
    metadataTypes: `<metadataTypes count="${number}">${types.join("")}${TYPE}</metadataTypes>`,
    futureMetadata: FUTURE,
    cellMetadata: `<cellMetadata count="${marks.length + 1}">${marks.join("")}<bk><rc t="${number}" v="0"/></bk></cellMetadata>`,
  });
  return { xml: added, mark: String(marks.length + 1) };
}

function listed(xml: string, list: string, item: string): string[] {
  const inner = firstElement(xml, list)?.inner ?? "";
  return [...elements(inner, item)].map(({ start, end }) => inner.slice(start, end));
}

/** The order that the schema asks for. */
const ORDER = ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata", "cellMetadata", "valueMetadata"];

function rebuilt(xml: string, ours: Record<string, string>): string {
  const root = firstElement(xml, "metadata");
  if (root === undefined) throw new SyntaxError("the metadata part has no <metadata>");
  const pieces = ORDER.flatMap((name) => {
    const theirs = [...elements(root.inner, name)].map(({ start, end }) => root.inner.slice(start, end));
    const own = ours[name];
    if (own === undefined) return theirs;
    return name === "futureMetadata" ? [...theirs, own] : [own];
  });
  const opening = xml.slice(root.start, xml.indexOf(">", root.start)).replace(/\/$/, "");
  const empty = `${xml.slice(0, root.start)}${opening}></${root.prefix}metadata>${xml.slice(root.end)}`;
  return insertedAtEnd(empty, "metadata", pieces.join(""));
}

export function put(parts: Parts, name: string, xml: string): void {
  parts.set(name, encoder.encode(xml));
}
