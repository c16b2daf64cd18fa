import type { Book } from "./book";
import { put } from "./dynamic-arrays";
import { textOf } from "./package-safety";
import { insertedAtEnd, relationsIn, relationsPartOf, withChanged, withContentType, withRelation } from "./relations";
import { attributesIn, elements, encoded, endOfTag, firstElement, type Element } from "./xml";

const SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";
const PART_TYPES: Readonly<Record<string, string>> = {
  drawing: "application/vnd.openxmlformats-officedocument.drawing+xml",
  chart: "application/vnd.openxmlformats-officedocument.drawingml.chart+xml",
};

/** A name that no sheet of the book has yet. */
export function freeSheetName(book: Book, wanted: string): string {
  const taken = new Set(sheetNames(book).map((name) => name.toLowerCase()));
  for (let number = 1; ; number++) {
    const name = number === 1 ? wanted : `${wanted} ${number}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

/**
 * Adds the one sheet of another book of ours after the last of this one, with its charts and its print area. What the
 * book holds stays as it is; only its lists of sheets, styles and parts grow.
 */
export function addSheet(book: Book, from: Book): void {
  const [sheet] = from.sheets;
  if (sheet === undefined) return;
  const { parts, workbookPart, called } = book;
  const folder = workbookPart.replace(/[^/]*$/, "");
  const part = copiedPart(book, from, sheet.partName, `${folder}worksheets/sheet`, SHEET_TYPE);
  const text = textOf(parts, part, called) ?? "";
  put(parts, part, withOwnText(withStyles(text, addStyles(book, from)), from.shared));

  const relationsPart = relationsPartOf(workbookPart);
  const target = part.slice(folder.length);
  const { xml, id } = withRelation(textOf(parts, relationsPart, called), "worksheet", target);
  put(parts, relationsPart, xml);
  const area = firstElement(textOf(from.parts, from.workbookPart, from.called) ?? "", "definedName")?.inner;
  put(parts, workbookPart, withSheet(textOf(parts, workbookPart, called) ?? "", sheet.name, id, area));
}

/** Copies a part under a free name, with all that it refers to. */
function copiedPart(book: Book, from: Book, name: string, called: string, type: string): string {
  const { parts } = book;
  let number = 1;
  while (parts.has(`${called}${number}.xml`)) number++;
  const part = `${called}${number}.xml`;
  put(parts, part, textOf(from.parts, name, from.called) ?? "");
  const types = textOf(parts, "[Content_Types].xml", book.called) ?? "";
  put(parts, "[Content_Types].xml", withContentType(types, part, type));
  let relations = textOf(from.parts, relationsPartOf(name), from.called);
  if (relations === undefined) return part;
  for (const { kind, part: theirs } of relationsIn(relations, name)) {
    const folder = theirs.replace(/\d+\.xml$/, "");
    const own = copiedPart(book, from, theirs, folder, PART_TYPES[kind] ?? "application/xml");
    relations = relations.replace(`Target="../${theirs.slice(3)}"`, `Target="../${own.slice(3)}"`);
  }
  put(parts, relationsPartOf(part), relations);
  return part;
}

function sheetNames({ parts, workbookPart, called }: Book): string[] {
  const list = firstElement(textOf(parts, workbookPart, called) ?? "", "sheets")?.inner ?? "";
  return [...elements(list, "sheet")].map(({ attributes }) => attributes.name ?? "");
}

function withSheet(xml: string, name: string, id: string, area: string | undefined): string {
  const sheets = firstElement(xml, "sheets") as Element;
  const list = [...elements(sheets.inner, "sheet")];
  const prefix = list[0]?.prefix ?? "";
  const relation = Object.keys(list[0]?.attributes ?? {}).find((key) => /(^|:)id$/.test(key)) ?? "r:id";
  const number = 1 + Math.max(0, ...list.map(({ attributes }) => Number(attributes.sheetId)));
  const own = `<${prefix}sheet name="${encoded(name)}" sheetId="${number}" ${relation}="${id}"/>`;
  const listed = insertedBeforeEnd(xml, sheets, own);
  return area === undefined ? listed : withPrintArea(listed, prefix, list.length, area);
}

/** Defined names stand after the sheets and what the book says of functions and other books. */
function withPrintArea(xml: string, prefix: string, sheet: number, area: string): string {
  const name = `<${prefix}definedName name="_xlnm.Print_Area" localSheetId="${sheet}">${area}</${prefix}definedName>`;
  const names = firstElement(xml, "definedNames");
  if (names !== undefined) return insertedBeforeEnd(xml, names, name);
  const before = ["externalReferences", "functionGroups", "sheets"].map((one) => firstElement(xml, one));
  const { end } = before.find((one) => one !== undefined) as Element;
  return `${xml.slice(0, end)}<${prefix}definedNames>${name}</${prefix}definedNames>${xml.slice(end)}`;
}

function insertedBeforeEnd(xml: string, { start, end }: Element, piece: string): string {
  return xml.slice(0, start) + insertedAtEnd(xml.slice(start, end), "", piece) + xml.slice(end);
}

/** Words in the cells themselves: the other book has a list of its own. */
function withOwnText(xml: string, shared: readonly string[]): string {
  return xml.replace(
    /(<c [^>]*?) t="s"([^>]*)><v>(\d+)<\/v><\/c>/g,
    (_, start: string, rest: string, place: string) => {
      const text = encoded(shared[Number(place)] ?? "");
      return `${start} t="inlineStr"${rest}><is><t xml:space="preserve">${text}</t></is></c>`;
    },
  );
}

function withStyles(xml: string, styles: readonly number[]): string {
  return xml.replace(/(<(?:c|row|col) [^>]*?\b(?:s|style)=")(\d+)"/g, (_, start: string, style: string) => {
    return `${start}${styles[Number(style)] ?? 0}"`;
  });
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
/** Numbers below belong to formats that every program knows. */
const FIRST_OWN_FORMAT = 164;

/** Adds the formats of cells of the other book; the number that each has here. */
function addStyles(book: Book, from: Book): number[] {
  const theirs = stylesOf(from).xml;
  const { part, xml } = stylesOf(book);
  let own = xml;
  const shifts = new Map<string, number>();
  for (const [list, item] of [
    ["fonts", "font"],
    ["fills", "fill"],
    ["borders", "border"],
  ] as const) {
    const { xml: grown, before } = grownBy(own, list, item, itemsOf(theirs, list, item));
    own = grown;
    shifts.set(`${item}Id`, before);
  }
  const formats = itemsOf(theirs, "numFmts", "numFmt");
  const numbers = new Map<number, number>();
  const taken = itemsOf(own, "numFmts", "numFmt").map((one) => Number(attributesIn(one).numFmtId));
  let next = Math.max(FIRST_OWN_FORMAT - 1, ...taken) + 1;
  const renumbered = formats.map((one) => {
    const { numFmtId = "", formatCode = "" } = attributesIn(one);
    numbers.set(Number(numFmtId), next);
    return `<numFmt numFmtId="${next++}" formatCode="${encoded(formatCode)}"/>`;
  });
  if (renumbered.length > 0) own = grownBy(own, "numFmts", "numFmt", renumbered).xml;
  const cells = itemsOf(theirs, "cellXfs", "xf").map((one) =>
    withChanged(one, "xf", (attributes) => ({
      ...attributes,
      ...Object.fromEntries([...shifts].map(([key, by]) => [key, String(Number(attributes[key]) + by)])),
      numFmtId: String(numbers.get(Number(attributes.numFmtId)) ?? attributes.numFmtId),
      xfId: "0",
    })),
  );
  const { xml: whole, before } = grownBy(own, "cellXfs", "xf", cells);
  put(book.parts, part, whole);
  return cells.map((_, index) => before + index);
}

function stylesOf({ parts, workbookPart, called }: Book): { part: string; xml: string } {
  const relations = relationsIn(textOf(parts, relationsPartOf(workbookPart), called), workbookPart);
  const part = relations.find(({ kind }) => kind === "styles")?.part;
  return part === undefined
    ? newStyles({ parts, workbookPart, called })
    : { part, xml: textOf(parts, part, called) ?? "" };
}

/** The least that a book without formats needs. */
function newStyles({ parts, workbookPart, called }: Pick<Book, "parts" | "workbookPart" | "called">) {
  const part = workbookPart.replace(/[^/]*$/, "styles.xml");
  const relationsPart = relationsPartOf(workbookPart);
  put(parts, relationsPart, withRelation(textOf(parts, relationsPart, called), "styles", "styles.xml").xml);
  const types = textOf(parts, "[Content_Types].xml", called) ?? "";
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";
  put(parts, "[Content_Types].xml", withContentType(types, part, type));
  const plain = '<xf numFmtId="0" fontId="0" fillId="0" borderId="0"';
  const xml = `<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1">${plain}/></cellStyleXfs><cellXfs count="1">${plain} xfId="0"/></cellXfs></styleSheet>`;
  return { part, xml };
}

function itemsOf(xml: string, list: string, item: string): string[] {
  const inner = firstElement(xml, list)?.inner ?? "";
  return [...elements(inner, item)].map(({ start, end }) => inner.slice(start, end));
}

/** A list of the styles with more items at its end, and how many there were. */
function grownBy(xml: string, list: string, item: string, items: readonly string[]): { xml: string; before: number } {
  const root = firstElement(xml, "styleSheet") as Element;
  const { prefix } = root;
  // A part that writes its own names with a prefix takes ours with the namespace beside them.
  const own = prefix === "" ? items : items.map((one) => one.replace(`<${item}`, `<${item} xmlns="${MAIN}"`));
  const found = firstElement(xml, list);
  if (found === undefined) {
    // Of these lists only that of number formats may be missing, and it stands first.
    const first = endOfTag(xml, root.start) + 1;
    const whole = `<${prefix}${list} count="${own.length}">${own.join("")}</${prefix}${list}>`;
    return { xml: xml.slice(0, first) + whole + xml.slice(first), before: 0 };
  }
  const before = [...elements(found.inner, item)].length;
  const grown = withChanged(xml.slice(found.start, found.end), list, (attributes) => ({
    ...attributes,
    count: String(before + own.length),
  }));
  return { xml: xml.slice(0, found.start) + insertedAtEnd(grown, list, own.join("")) + xml.slice(found.end), before };
}
