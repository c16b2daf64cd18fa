import { areaOf, heightOf } from "./addresses";
import { Complaint } from "./command-line";
import { filteredAreas } from "./filtered-rows";
import type { Area, DefinedName, Table } from "./grid";
import { openPackage, textOf, type Parts } from "./package-safety";
import { relationsIn, relationsPartOf, type Relation } from "./relations";
import { SheetPart } from "./sheet-part";
import { unescaped } from "./stored-text";
import { decoded, elements, firstElement } from "./xml";

export interface BookTable extends Table {
  /** The area with its header row and its totals row. */
  readonly reference: string;
}

export interface BookName extends DefinedName {
  /** The sheet whose own name it is. */
  readonly sheet?: string;
}

export interface BookSheet {
  readonly name: string;
  readonly partName: string;
  readonly part: SheetPart;
  readonly relations: readonly Relation[];
  readonly tables: readonly BookTable[];
  /** Where a filter hides rows, with the row of headings above them. */
  readonly filtered: readonly Area[];
}

/** A workbook file, opened: its parts, and what a calculation needs of them. */
export interface Book {
  /** How messages call the file. */
  readonly called: string;
  readonly parts: Parts;
  readonly workbookPart: string;
  readonly sheets: readonly BookSheet[];
  readonly names: readonly BookName[];
  readonly shared: readonly string[];
  readonly date1904: boolean;
  /** Are formulas that read each other in a circle worked out again and again until they hold still? */
  readonly iterates: boolean;
  /** Is it a book of LibreOffice Calc, where plain names of our functions are right and TRUE is the number 1? */
  readonly forCalc: boolean;
  /** The cm numbers that mark a dynamic array. */
  readonly dynamicMarks: ReadonlySet<string>;
}

/** Opens a workbook; what LibreOffice saved is known to be for Calc, anything else may be said to be. */
export function openBook(bytes: Uint8Array, called: string, forCalc = false): Book {
  const parts = openPackage(bytes, called);
  try {
    const book = read(parts, called);
    return forCalc ? { ...book, forCalc } : book;
  } catch (fault) {
    if (fault instanceof SyntaxError) throw new Complaint(`${called} is damaged: ${fault.message}`);
    throw fault;
  }
}

function read(parts: Parts, called: string): Book {
  const text = (part: string) => textOf(parts, part, called);
  const needed = (part: string) => {
    const found = text(part);
    if (found === undefined) throw new Complaint(`${called} is damaged: its part ${part} is missing`);
    return found;
  };
  const outer = relationsIn(needed("_rels/.rels"), "");
  const workbookPart = outer.find(({ kind }) => kind === "officeDocument")?.part;
  if (workbookPart === undefined) throw new Complaint(`${called} is not a workbook: it names no main part`);
  if (workbookPart.endsWith(".bin")) throw new Complaint(`${called} is a binary workbook; save it as .xlsx`);
  const workbook = needed(workbookPart);
  const relations = relationsIn(needed(relationsPartOf(workbookPart)), workbookPart);
  const partOf = (wanted: string) => relations.find(({ kind }) => kind === wanted)?.part;

  const sheets: BookSheet[] = [];
  for (const { attributes } of elements(firstElement(workbook, "sheets")?.inner ?? "", "sheet")) {
    const id = Object.entries(attributes).find(([key]) => /(^|:)id$/.test(key))?.[1];
    // What old programs kept as a sheet of macros has no part.
    if (id === "") continue;
    const relation = relations.find((one) => one.id === id);
    if (relation === undefined) throw new Complaint(`${called} is damaged: its sheet "${attributes.name}" has no part`);
    // Charts and dialogs on sheets of their own hold no cells.
    if (relation.kind !== "worksheet") continue;
    sheets.push(sheetFrom(attributes.name ?? "", relation.part, needed, text));
  }
  if (sheets.length === 0) throw new Complaint(`${called} has no worksheet`);
  return {
    called,
    parts,
    workbookPart,
    sheets,
    names: namesIn(workbook),
    shared: sharedStringsIn(text(partOf("sharedStrings") ?? "")),
    date1904: isTrue(firstElement(workbook, "workbookPr")?.attributes.date1904),
    iterates: isTrue(firstElement(workbook, "calcPr")?.attributes.iterate),
    forCalc: /<Application>LibreOffice/.test(
      text(outer.find(({ kind }) => kind === "extended-properties")?.part ?? "") ?? "",
    ),
    dynamicMarks: dynamicMarksIn(text(partOf("sheetMetadata") ?? "")),
  };
}

function isTrue(attribute: string | undefined): boolean {
  return attribute === "1" || attribute === "true";
}

function sheetFrom(
  name: string,
  partName: string,
  needed: (part: string) => string,
  text: (part: string) => string | undefined,
): BookSheet {
  const relations = relationsIn(text(relationsPartOf(partName)), partName);
  const tables = relations.filter(({ kind }) => kind === "table").map(({ part }) => needed(part));
  const part = new SheetPart(needed(partName));
  const filtered = [part.surroundings, ...tables].flatMap(filteredAreas);
  return { name, partName, part, relations, tables: tables.map(tableFrom), filtered };
}

function tableFrom(xml: string): BookTable {
  const table = firstElement(xml, "table");
  const area = areaOf(table?.attributes.ref ?? "");
  if (table === undefined || area === undefined) throw new SyntaxError("a table has no area");
  const { name = "", displayName = name, headerRowCount, totalsRowCount = "0", ref = "" } = table.attributes;
  const headerRow = headerRowCount !== "0";
  const totalsRow = Number(totalsRowCount) > 0;
  return {
    name: displayName,
    displayName,
    reference: ref,
    tl: { row: area.top, col: area.left },
    columns: [...elements(table.inner, "tableColumn")].map(({ attributes }) => ({
      name: unescaped(attributes.name ?? ""),
    })),
    rows: new Array<undefined>(Math.max(0, heightOf(area) - Number(headerRow) - Number(totalsRow))).fill(undefined),
    headerRow,
    totalsRow,
  };
}

function namesIn(workbook: string): BookName[] {
  const sheets = [...elements(firstElement(workbook, "sheets")?.inner ?? "", "sheet")];
  return [...elements(firstElement(workbook, "definedNames")?.inner ?? "", "definedName")].flatMap(
    ({ attributes: { name = "", localSheetId }, inner }) =>
      name.startsWith("_xlnm.")
        ? []
        : [
            {
              name,
              ranges: [decoded(inner)],
              ...(localSheetId === undefined
                ? {}
                : {
                    localSheetId: Number(localSheetId),
                    sheet: sheets[Number(localSheetId)]?.attributes.name ?? "",
                  }),
            },
          ],
  );
}

function sharedStringsIn(xml: string | undefined): string[] {
  if (xml === undefined) return [];
  return [...elements(xml, "si")].map(({ inner }) => {
    // Reading aids for characters are not part of the text.
    const plain = inner.includes("rPh") ? inner.replace(/<(\w+:)?rPh\b[\s\S]*?<\/(\w+:)?rPh>/g, "") : inner;
    return unescaped([...elements(plain, "t")].map((t) => decoded(t.inner)).join(""));
  });
}

/** Which of the cell marks in the metadata part say "dynamic array". */
function dynamicMarksIn(xml: string | undefined): Set<string> {
  if (xml === undefined) return new Set();
  const kinds = [...elements(firstElement(xml, "metadataTypes")?.inner ?? "", "metadataType")];
  const dynamic = kinds.findIndex(({ attributes }) => attributes.name === "XLDAPR") + 1;
  const marks = new Set<string>();
  [...elements(firstElement(xml, "cellMetadata")?.inner ?? "", "bk")].forEach(({ inner }, index) => {
    const kind = firstElement(inner, "rc")?.attributes.t;
    if (dynamic > 0 && Number(kind) === dynamic) marks.add(String(index + 1));
  });
  return marks;
}
