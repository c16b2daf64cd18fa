import { strFromU8, unzipSync } from "fflate";
import { XmlDocument, XmlElement } from "libxml2-wasm";

/**
 * What makes Excel offer to repair a workbook, or lose something of it: our own list, from the limits and identities
 * that ECMA-376 part 1 (chapter 18) and part 2 (packages) state and from Microsoft's page of Excel's limits.
 */

const NAMES = {
  m: "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
  r: "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
  p: "http://schemas.openxmlformats.org/package/2006/relationships",
  t: "http://schemas.openxmlformats.org/package/2006/content-types",
  x: "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing",
  c: "http://schemas.openxmlformats.org/drawingml/2006/chart",
  e: "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties",
  v: "urn:schemas-microsoft-com:vml",
  vt: "http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes",
};

const LAST_ROW = 1_048_576;
const LAST_COLUMN = 16_384;
const LONGEST_FORMULA = 8192;
const LONGEST_TEXT = 32_767;
const ERRORS = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"];

const VIEW = "/m:worksheet/m:sheetViews/m:sheetView";

interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

interface Relation {
  readonly kind: string;
  readonly target: string;
  readonly external: boolean;
}

/** Every fault of a workbook file, as sentences that begin with the part. */
export function fileFaults(bytes: Uint8Array): string[] {
  const parts = unzipSync(bytes);
  const names = Object.keys(parts);
  const faults: string[] = [];
  const documents = new Map<string, XmlDocument>();
  for (const name of names.filter((each) => /\.(xml|rels|vml)$/.test(each))) {
    try {
      documents.set(name, XmlDocument.fromBuffer(parts[name] as Uint8Array));
    } catch (fault) {
      faults.push(`${name}: is not well formed: ${(fault as Error).message.trim()}`);
    }
  }
  try {
    if (faults.length === 0) new Inspection(names, documents, (text) => faults.push(text)).whole();
  } finally {
    for (const document of documents.values()) document.dispose();
  }
  for (const [name, content] of Object.entries(parts))
    if (/_xldudf_|_xlfn/.test(name) || (name.endsWith(".xml") && strFromU8(content).includes("\u0000")))
      faults.push(`${name}: holds what no part may hold`);
  return faults;
}

class Inspection {
  private readonly relations = new Map<string, Map<string, Relation>>();
  private shared = 0;
  private readonly sharedTexts: string[] = [];
  private uses = 0;
  private readonly styles = { cells: 0, differential: 0 };
  private readonly marks = { cell: 0, value: 0 };
  private readonly sheetNames: string[] = [];
  private readonly tableIds = new Map<string, string>();
  private readonly takenNames = new Map<string, string>();

  constructor(
    private readonly names: readonly string[],
    private readonly documents: ReadonlyMap<string, XmlDocument>,
    private readonly fault: (text: string) => void,
  ) {}

  whole(): void {
    this.package();
    const main = [...(this.relations.get("") ?? new Map<string, Relation>()).values()].find(
      ({ kind }) => kind === "officeDocument",
    )?.target;
    if (main === undefined || !this.documents.has(main)) return this.fault("_rels/.rels: names no workbook");
    const partOf = (wanted: string) =>
      [...(this.relations.get(main) ?? new Map<string, Relation>()).values()].find(({ kind }) => kind === wanted)
        ?.target ?? "";
    this.readShared(partOf("sharedStrings"));
    this.readStyles(partOf("styles"));
    this.readMetadata(partOf("sheetMetadata"));
    const sheets = this.workbook(main);
    for (const [name, part] of sheets) this.sheet(name, part);
    this.countShared(partOf("sharedStrings"));
    this.order(partOf("calcChain"), sheets);
    this.properties();
    for (const name of this.names) if (/\/charts\/chart\d+\.xml$/.test(name)) this.chart(name);
  }

  /* The package */

  private package(): void {
    const types = this.documents.get("[Content_Types].xml");
    if (types === undefined) return this.fault("[Content_Types].xml: is missing");
    this.unique(
      "[Content_Types].xml",
      "part",
      this.names.map((name) => name.toLowerCase()),
    );
    const overrides = this.values(types, "//t:Override/@PartName");
    const endings = this.values(types, "//t:Default/@Extension").map((ending) => ending.toLowerCase());
    this.unique(
      "[Content_Types].xml",
      "Override",
      overrides.map((name) => name.toLowerCase()),
    );
    this.unique("[Content_Types].xml", "Default", endings);
    for (const name of overrides)
      if (!this.names.includes(name.slice(1))) this.fault(`[Content_Types].xml: ${name} is no part`);
    for (const name of this.names) {
      if (name === "[Content_Types].xml" || name.endsWith("/")) continue;
      const ending = (name.split(".").pop() ?? "").toLowerCase();
      if (!overrides.includes(`/${name}`) && (ending === "xml" || !endings.includes(ending)))
        this.fault(`${name}: has no content type of its own`);
    }
    for (const [name, document] of this.documents) if (name.endsWith(".rels")) this.readRelations(name, document);
    for (const [name, document] of this.documents) this.references(name, document);
  }

  private readRelations(name: string, document: XmlDocument): void {
    const source = name.replace(/_rels\/([^/]*)\.rels$/, "$1");
    if (source !== "" && !this.names.includes(source)) this.fault(`${name}: belongs to no part`);
    const own = new Map<string, Relation>();
    const found = this.all(document, "//p:Relationship");
    this.unique(
      name,
      "relation",
      found.map((one) => attribute(one, "Id") ?? ""),
    );
    for (const one of found) {
      const target = attribute(one, "Target") ?? "";
      const external = attribute(one, "TargetMode") === "External";
      const part = external ? target : decodeURI(new URL(target, `file:///${source}`).pathname.slice(1));
      if (!external && !this.names.includes(part)) this.fault(`${name}: ${target} is no part`);
      const kind = (attribute(one, "Type") ?? "").replace(/^.*\//, "");
      own.set(attribute(one, "Id") ?? "", { kind, target: part, external });
    }
    this.relations.set(source, own);
  }

  /** Every r:id of a part must be a relation of that part. */
  private references(name: string, document: XmlDocument): void {
    if (name.endsWith(".rels")) return;
    for (const id of this.values(document, "//@r:id | //@r:embed | //@r:link"))
      if (id !== "" && !this.relations.get(name)?.has(id)) this.fault(`${name}: ${id} is no relation of it`);
  }

  /* Strings, styles, metadata */

  private readShared(part: string): void {
    for (const item of this.all(this.documents.get(part), "/m:sst/m:si")) {
      const text = [...children(item, "t"), ...children(item, "r").flatMap((run) => children(run, "t"))]
        .map((t) => t.content)
        .join("");
      if (text.length > LONGEST_TEXT) this.fault(`${part}: a text has over ${LONGEST_TEXT} characters`);
      this.sharedTexts.push(text);
      this.shared++;
    }
  }

  private countShared(part: string): void {
    const root = this.documents.get(part)?.root;
    if (root === undefined) return;
    const [count, unique] = [attribute(root, "count"), attribute(root, "uniqueCount")];
    if (Number(count) !== this.uses) this.fault(`${part}: count is ${count}, and ${this.uses} cells refer to it`);
    if (Number(unique) !== this.shared) this.fault(`${part}: uniqueCount is ${unique} for ${this.shared} strings`);
  }

  private readStyles(part: string): void {
    const document = this.documents.get(part);
    if (document === undefined) return;
    const sizeOf = (list: string) => {
      const root = this.first(document, `/m:styleSheet/m:${list}`);
      const children = root === undefined ? [] : this.all(root, "m:*");
      const stated = root && attribute(root, "count");
      if (stated !== undefined && Number(stated) !== children.length)
        this.fault(`${part}: ${list} says ${stated} and holds ${children.length}`);
      return children.length;
    };
    const sizes = Object.fromEntries(
      ["fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "numFmts"].map(
        (list) => [list, sizeOf(list)] as const,
      ),
    ) as Record<string, number>;
    this.styles.cells = sizes.cellXfs ?? 0;
    this.styles.differential = sizes.dxfs ?? 0;
    for (const [name, list] of [
      ["fontId", "fonts"],
      ["fillId", "fills"],
      ["borderId", "borders"],
      ["xfId", "cellStyleXfs"],
    ] as const)
      for (const index of this.values(document, `//m:cellXfs/m:xf/@${name} | //m:cellStyles/m:cellStyle/@${name}`))
        if (Number(index) >= (sizes[list] ?? 0)) this.fault(`${part}: ${name} ${index} is not among the ${list}`);
    const formats = this.values(document, "//m:numFmt[not(ancestor::m:dxf)]/@numFmtId");
    this.unique(part, "number format", formats);
    for (const format of this.values(document, "//m:cellXfs/m:xf/@numFmtId"))
      if (Number(format) >= 164 && !formats.includes(format)) this.fault(`${part}: number format ${format} is missing`);
    for (const code of this.values(document, "//m:numFmt/@formatCode"))
      if (code.length > 255) this.fault(`${part}: a number format has over 255 characters`);
    this.unique(
      part,
      "style name",
      this.values(document, "//m:cellStyle/@name").map((name) => name.toLowerCase()),
    );
  }

  private readMetadata(part: string): void {
    const document = this.documents.get(part);
    if (document === undefined) return;
    const sizeOf = (list: string, item: string) => {
      const root = this.first(document, `/m:metadata/m:${list}`);
      const children = root === undefined ? [] : this.all(root, `m:${item}`);
      if (root !== undefined && Number(attribute(root, "count") ?? 0) !== children.length)
        this.fault(`${part}: ${list} says ${attribute(root, "count")} and holds ${children.length}`);
      return children.length;
    };
    const types = this.values(document, "//m:metadataType/@name");
    sizeOf("metadataTypes", "metadataType");
    this.marks.cell = sizeOf("cellMetadata", "bk");
    this.marks.value = sizeOf("valueMetadata", "bk");
    for (const record of this.all(document, "//m:cellMetadata/m:bk/m:rc | //m:valueMetadata/m:bk/m:rc")) {
      const type = types[Number(attribute(record, "t")) - 1];
      const blocks = this.all(document, `//m:futureMetadata[@name="${type}"]/m:bk`).length;
      if (type === undefined || Number(attribute(record, "v")) >= blocks)
        this.fault(`${part}: a record points at no block`);
    }
  }

  /* The workbook */

  private workbook(part: string): [name: string, part: string][] {
    const document = this.documents.get(part) as XmlDocument;
    const sheets = this.all(document, "/m:workbook/m:sheets/m:sheet");
    const ids = sheets.map((sheet) => attribute(sheet, "sheetId") ?? "");
    const names = sheets.map((sheet) => attribute(sheet, "name") ?? "");
    this.sheetNames.push(...names);
    this.unique(part, "sheetId", ids);
    this.unique(
      part,
      "sheet",
      names.map((name) => name.toLowerCase()),
    );
    for (const name of names)
      if (name === "" || name.length > 31 || /[[\]:*?/\\]|^'|'$/.test(name) || name.toLowerCase() === "history")
        this.fault(`${part}: "${name}" cannot be the name of a sheet`);
    if (sheets.every((sheet) => (attribute(sheet, "state") ?? "visible") !== "visible"))
      this.fault(`${part}: no sheet can be seen`);
    for (const view of this.all(document, "//m:workbookView"))
      for (const name of ["activeTab", "firstSheet"])
        if (Number(attribute(view, name) ?? 0) >= sheets.length) this.fault(`${part}: ${name} is no sheet`);
    this.definedNames(part, document);
    const calculation = this.all(document, "/m:workbook/m:calcPr");
    if (calculation.length !== 1) this.fault(`${part}: has ${calculation.length} calcPr`);
    return sheets.map((sheet) => {
      const id = this.values(sheet, "@r:id")[0] ?? "";
      return [attribute(sheet, "name") ?? "", this.relations.get(part)?.get(id)?.target ?? ""];
    });
  }

  private definedNames(part: string, document: XmlDocument): void {
    const names = this.all(document, "//m:definedName");
    const keyOf = (one: XmlElement) =>
      `${(attribute(one, "name") ?? "").toLowerCase()} of ${attribute(one, "localSheetId") ?? "the workbook"}`;
    this.unique(part, "name", names.map(keyOf));
    for (const one of names) {
      const name = attribute(one, "name") ?? "";
      const local = attribute(one, "localSheetId");
      if (local !== undefined && Number(local) >= this.sheetNames.length)
        this.fault(`${part}: ${name} belongs to no sheet`);
      if (local === undefined) this.takenNames.set(name.toLowerCase(), part);
      if (!isName(name) && !name.startsWith("_xlnm.")) this.fault(`${part}: "${name}" cannot be a name`);
      this.formula(`${part}: ${name}`, one.content);
    }
  }

  /* A sheet */

  private sheet(name: string, part: string): void {
    const document = this.documents.get(part);
    if (document === undefined) return this.fault(`${part}: the sheet "${name}" has no part`);
    const areas = this.cells(part, document);
    const merged = this.areasIn(part, this.values(document, "/m:worksheet/m:mergeCells/m:mergeCell/@ref"));
    this.apart(part, "merged areas", merged);
    for (const area of merged) {
      if (area.top === area.bottom && area.left === area.right) this.fault(`${part}: a merged area has one cell`);
      if (areas.arrays.some((array) => overlap(array, area))) this.fault(`${part}: an array runs into merged cells`);
    }
    const tables = this.tables(part, document, areas);
    for (const table of tables) {
      if (merged.some((area) => overlap(area, table))) this.fault(`${part}: a table holds merged cells`);
      if (areas.arrays.some((array) => overlap(array, table) && array.top !== array.bottom))
        this.fault(`${part}: a spill runs into a table`);
    }
    this.columns(part, document);
    this.validations(part, document);
    this.conditions(part, document);
    this.links(part, document);
    this.notes(part, document);
    this.views(part, document);
    this.drawing(part, document);
  }

  private cells(part: string, document: XmlDocument): { arrays: Area[]; texts: Map<string, string> } {
    const arrays: { area: Area; anchor: string }[] = [];
    const texts = new Map<string, string>();
    const withFormula = new Map<string, { row: number; column: number }>();
    const masters = new Set<string>();
    const followers = new Set<string>();
    let lastRow = 0;
    for (const row of this.all(document, "/m:worksheet/m:sheetData/m:row")) {
      const number = Number(attribute(row, "r"));
      if (!(number > lastRow && number <= LAST_ROW)) this.fault(`${part}: row ${number} after row ${lastRow}`);
      lastRow = number;
      if (Number(attribute(row, "ht") ?? 0) > 409.5) this.fault(`${part}: row ${number} is too high`);
      this.style(`${part}: row ${number}`, attribute(row, "s"));
      let lastColumn = 0;
      for (const cell of children(row, "c")) {
        const address = attribute(cell, "r") ?? "";
        const place = positionOf(address);
        if (place === undefined || place.row !== number || place.column <= lastColumn || place.column > LAST_COLUMN) {
          this.fault(`${part}: the cell ${address} stands twice or in the wrong place`);
          continue;
        }
        lastColumn = place.column;
        this.style(`${part}: ${address}`, attribute(cell, "s"));
        for (const [mark, known] of [
          ["cm", this.marks.cell],
          ["vm", this.marks.value],
        ] as const) {
          const given = attribute(cell, mark);
          if (given !== undefined && !(Number(given) >= 1 && Number(given) <= known))
            this.fault(`${part}: ${address} has ${mark} ${given}, and the metadata holds ${known}`);
        }
        const text = this.value(`${part}: ${address}`, cell);
        if (text !== undefined) texts.set(address, text);
        const formulas = children(cell, "f");
        if (formulas.length > 1) this.fault(`${part}: ${address} has two formulas`);
        const [formula] = formulas;
        if (formula === undefined) {
          if (attribute(cell, "cm") !== undefined) this.fault(`${part}: ${address} has a mark and no formula`);
          continue;
        }
        withFormula.set(address, place);
        const kind = attribute(formula, "t");
        if (kind !== "shared" || formula.content !== "") this.formula(`${part}: ${address}`, formula.content);
        if (kind === "shared") (formula.content === "" ? followers : masters).add(attribute(formula, "si") ?? "");
        if (kind === "array") {
          const area = areaOf(attribute(formula, "ref") ?? "");
          if (area === undefined || area.top !== place.row || area.left !== place.column)
            this.fault(`${part}: the array of ${address} does not begin there`);
          else arrays.push({ area, anchor: address });
        } else if (attribute(cell, "cm") !== undefined) {
          this.fault(`${part}: ${address} is marked as a dynamic array and is none`);
        }
        if (formula.content.includes("_xldudf_") && (kind !== "array" || attribute(cell, "cm") === undefined))
          this.fault(`${part}: the call in ${address} is no dynamic array`);
      }
    }
    for (const group of followers) if (!masters.has(group)) this.fault(`${part}: shared formula ${group} has no text`);
    this.apart(
      part,
      "arrays",
      arrays.map(({ area }) => area),
    );
    for (const { area, anchor } of arrays)
      for (const [address, { row, column }] of withFormula)
        if (address !== anchor && overlap(area, { top: row, bottom: row, left: column, right: column }))
          this.fault(`${part}: ${address} has a formula inside the array of ${anchor}`);
    return { arrays: arrays.map(({ area }) => area), texts };
  }

  /** The text of a cell that holds one. */
  private value(where: string, cell: XmlElement): string | undefined {
    const values = children(cell, "v").map(({ content }) => content);
    if (values.length > 1) this.fault(`${where} has two values`);
    const [value] = values;
    switch (attribute(cell, "t") ?? "n") {
      case "s":
        this.uses++;
        if (!(value !== undefined && /^\d+$/.test(value) && Number(value) < this.shared))
          this.fault(`${where} refers to the shared string ${value} of ${this.shared}`);
        return this.sharedTexts[Number(value)];
      case "str":
        if ((value ?? "").length > LONGEST_TEXT) this.fault(`${where} has over ${LONGEST_TEXT} characters`);
        return value ?? "";
      case "inlineStr":
        return this.all(cell, "m:is//m:t")
          .map(({ content }) => content)
          .join("");
      case "b":
        if (value !== "0" && value !== "1") this.fault(`${where} is true or false and holds ${value}`);
        return undefined;
      case "e":
        if (!ERRORS.includes(value ?? "")) this.fault(`${where} holds the error ${value}, which files do not know`);
        return undefined;
      case "n":
        if (value !== undefined && !/^-?\d+(\.\d+)?([eE][+-]?\d+)?$/.test(value))
          this.fault(`${where} holds "${value}", which is no number`);
        return undefined;
      default:
        this.fault(`${where} has the kind ${attribute(cell, "t")}`);
        return undefined;
    }
  }

  private formula(where: string, text: string): void {
    if (text === "" || text.startsWith("=")) this.fault(`${where} has the formula "${text.slice(0, 20)}"`);
    if (text.length > LONGEST_FORMULA) this.fault(`${where} has a formula of over ${LONGEST_FORMULA} characters`);
    let depth = 0;
    let deepest = 0;
    for (const [piece] of text.matchAll(/"(?:[^"]|"")*"?|'(?:[^']|'')*'|[(){}]/g)) {
      if (piece.startsWith('"')) {
        if (!/"$/.test(piece) || piece.length < 2) this.fault(`${where} has a text that does not end`);
        if (piece.slice(1, -1).replace(/""/g, '"').length > 255)
          this.fault(`${where} has a text of over 255 characters`);
      } else if (piece === "(") deepest = Math.max(deepest, ++depth);
      else if (piece === ")") depth--;
      if (depth < 0) break;
    }
    if (depth !== 0) this.fault(`${where} has brackets that do not match`);
    if (deepest > 64) this.fault(`${where} is nested more than 64 deep`);
    for (const [, quoted, plain] of text
      .replace(/"(?:[^"]|"")*"/g, '""')
      .matchAll(/(?:'((?:[^']|'')+)'|\b([A-Za-z_][\w.]*))!/g)) {
      const name = (quoted ?? plain ?? "").replace(/''/g, "'");
      const known = this.sheetNames.some((sheet) => sheet.toLowerCase() === name.toLowerCase());
      if (!known && !/[[\]:]/.test(name)) this.fault(`${where} names the sheet "${name}", which is not there`);
    }
  }

  private style(where: string, index: string | undefined): void {
    if (index !== undefined && Number(index) >= this.styles.cells)
      this.fault(`${where} has the style ${index} of ${this.styles.cells}`);
  }

  private tables(part: string, document: XmlDocument, { texts }: { texts: Map<string, string> }): Area[] {
    const root = this.first(document, "/m:worksheet/m:tableParts");
    const listed = this.values(document, "/m:worksheet/m:tableParts/m:tablePart/@r:id");
    if (root !== undefined && Number(attribute(root, "count") ?? listed.length) !== listed.length)
      this.fault(`${part}: tableParts says ${attribute(root, "count")} and holds ${listed.length}`);
    const related = [...(this.relations.get(part) ?? new Map<string, Relation>())].filter(
      ([, { kind }]) => kind === "table",
    );
    for (const [id] of related)
      if (!listed.includes(id)) this.fault(`${part}: the table ${id} is related and not listed`);
    const areas: Area[] = [];
    for (const [id, { target }] of related) {
      const table = this.documents.get(target)?.root;
      if (table === undefined) continue;
      const name = attribute(table, "displayName") ?? "";
      const area = areaOf(attribute(table, "ref") ?? "");
      if (area === undefined) {
        this.fault(`${target}: ${id} has no area`);
        continue;
      }
      areas.push(area);
      this.takes(this.tableIds, attribute(table, "id") ?? "", target, "the table id");
      this.takes(this.takenNames, name.toLowerCase(), target, "the name");
      if (!isName(name)) this.fault(`${target}: "${name}" cannot be the name of a table`);
      const headed = attribute(table, "headerRowCount") !== "0";
      const totals = Number(attribute(table, "totalsRowCount") ?? 0);
      if (area.bottom - area.top + 1 - Number(headed) - totals < 1) this.fault(`${target}: has no row of data`);
      const columns = this.all(table, "m:tableColumns/m:tableColumn");
      const headings = columns.map((column) => attribute(column, "name") ?? "");
      const stated = Number(this.values(table, "m:tableColumns/@count")[0]);
      if (stated !== columns.length || columns.length !== area.right - area.left + 1)
        this.fault(`${target}: has ${columns.length} columns, says ${stated} and covers ${area.right - area.left + 1}`);
      this.unique(
        target,
        "column id",
        columns.map((column) => attribute(column, "id") ?? ""),
      );
      this.unique(
        target,
        "heading",
        headings.map((heading) => heading.toLowerCase()),
      );
      headings.forEach((heading, place) => {
        if (heading === "" || heading.length > 255) this.fault(`${target}: a heading is empty or too long`);
        const cell = addressOf(area.top, area.left + place);
        // A line break in a heading is written _x000a_ in the table's part.
        const plain = heading.replace(/_x([0-9a-f]{4})_/gi, (_, code: string) =>
          String.fromCharCode(parseInt(code, 16)),
        );
        if (headed && texts.get(cell) !== plain)
          this.fault(`${target}: ${cell} holds "${texts.get(cell)}" under the heading "${plain}"`);
      });
      for (const filter of this.values(table, "m:autoFilter/@ref")) {
        const filtered = areaOf(filter);
        if (filtered === undefined || filtered.top !== area.top || !within(filtered, area))
          this.fault(`${target}: its filter ${filter} lies outside`);
      }
      for (const formula of this.all(table, "m:tableColumns/m:tableColumn/m:calculatedColumnFormula"))
        this.formula(`${target}: a column`, formula.content);
    }
    this.apart(part, "tables", areas);
    return areas;
  }

  private columns(part: string, document: XmlDocument): void {
    let last = 0;
    for (const column of this.all(document, "/m:worksheet/m:cols/m:col")) {
      const [from, to] = [Number(attribute(column, "min")), Number(attribute(column, "max"))];
      if (!(from > last && to >= from && to <= LAST_COLUMN))
        this.fault(`${part}: columns ${from} to ${to} after ${last}`);
      if (Number(attribute(column, "width") ?? 0) > 255) this.fault(`${part}: column ${from} is too wide`);
      this.style(`${part}: column ${from}`, attribute(column, "style"));
      last = to;
    }
  }

  private validations(part: string, document: XmlDocument): void {
    const root = this.first(document, "/m:worksheet/m:dataValidations");
    if (root === undefined) return;
    const found = this.all(root, "m:dataValidation");
    if (found.length === 0 || Number(attribute(root, "count") ?? found.length) !== found.length)
      this.fault(`${part}: dataValidations says ${attribute(root, "count")} and holds ${found.length}`);
    const areas: Area[] = [];
    for (const one of found) {
      const where = `${part}: the validation of ${attribute(one, "sqref")}`;
      areas.push(...this.areasIn(part, (attribute(one, "sqref") ?? "").trim().split(/\s+/)));
      for (const [name, most] of [
        ["prompt", 255],
        ["error", 255],
        ["promptTitle", 32],
        ["errorTitle", 32],
      ] as const)
        if ((attribute(one, name) ?? "").length > most) this.fault(`${where} has a ${name} of over ${most} characters`);
      for (const formula of this.all(one, "m:formula1 | m:formula2")) {
        if (/^"/.test(formula.content) && formula.content.length - 2 > 255)
          this.fault(`${where} lists over 255 characters`);
        this.formula(where, formula.content);
      }
    }
    this.apart(part, "validations", areas);
  }

  private conditions(part: string, document: XmlDocument): void {
    const priorities: string[] = [];
    for (const rule of this.all(document, "/m:worksheet/m:conditionalFormatting/m:cfRule")) {
      priorities.push(attribute(rule, "priority") ?? "");
      const format = attribute(rule, "dxfId");
      if (format !== undefined && Number(format) >= this.styles.differential)
        this.fault(`${part}: a rule has the format ${format} of ${this.styles.differential}`);
      for (const formula of this.all(rule, "m:formula")) {
        this.formula(`${part}: a rule`, formula.content);
        if (formula.content.includes("_xldudf_")) this.fault(`${part}: a rule calls a function that it cannot call`);
      }
    }
    this.unique(part, "priority", priorities);
    this.areasIn(
      part,
      this.values(document, "/m:worksheet/m:conditionalFormatting/@sqref").flatMap((text) => text.split(" ")),
    );
  }

  private links(part: string, document: XmlDocument): void {
    const links = this.all(document, "/m:worksheet/m:hyperlinks/m:hyperlink");
    this.unique(
      part,
      "link of",
      links.map((link) => attribute(link, "ref") ?? ""),
    );
    for (const link of links) {
      const id = this.values(link, "@r:id")[0];
      const target = id === undefined ? attribute(link, "location") : this.relations.get(part)?.get(id)?.target;
      if (target === undefined || target.length > 2079) this.fault(`${part}: a link leads nowhere or too far`);
      const sheet = /^'?(.*?)'?!/
        .exec((id === undefined && attribute(link, "location")) || "")?.[1]
        ?.replace(/''/g, "'");
      if (sheet !== undefined && !this.sheetNames.includes(sheet))
        this.fault(`${part}: a link names no sheet: ${sheet}`);
      if ((attribute(link, "tooltip") ?? "").length > 255) this.fault(`${part}: a link's tip is too long`);
    }
  }

  private notes(part: string, document: XmlDocument): void {
    const related = [...(this.relations.get(part) ?? new Map<string, Relation>())];
    const comments = related.find(([, { kind }]) => kind === "comments")?.[1].target;
    if (comments === undefined) return;
    const notes = this.documents.get(comments) as XmlDocument;
    const drawing = this.values(document, "/m:worksheet/m:legacyDrawing/@r:id")[0];
    const shapes = drawing === undefined ? undefined : this.relations.get(part)?.get(drawing);
    if (shapes?.kind !== "vmlDrawing") return this.fault(`${part}: its notes have no drawing`);
    const authors = this.all(notes, "//m:author").length;
    const found = this.all(notes, "//m:comment");
    this.unique(
      comments,
      "note of",
      found.map((note) => attribute(note, "ref") ?? ""),
    );
    for (const note of found) {
      if (Number(attribute(note, "authorId")) >= authors) this.fault(`${comments}: a note has no author`);
      if (note.content.length > LONGEST_TEXT) this.fault(`${comments}: a note is too long`);
    }
    const drawn = this.all(this.documents.get(shapes.target), "//v:shape");
    this.unique(
      shapes.target,
      "shape",
      drawn.map((shape) => attribute(shape, "id") ?? ""),
    );
    if (drawn.length < found.length) this.fault(`${shapes.target}: draws ${drawn.length} of ${found.length} notes`);
  }

  private views(part: string, document: XmlDocument): void {
    for (const area of this.values(
      document,
      `${VIEW}/@topLeftCell | ${VIEW}/m:pane/@topLeftCell | ${VIEW}/m:selection/@activeCell`,
    ))
      if (areaOf(area) === undefined) this.fault(`${part}: ${area} is no cell`);
    for (const pane of this.all(document, `${VIEW}/m:pane[@state='frozen']`)) {
      const [across, down] = [Number(attribute(pane, "xSplit") ?? 0), Number(attribute(pane, "ySplit") ?? 0)];
      const wanted = across > 0 ? (down > 0 ? "bottomRight" : "topRight") : "bottomLeft";
      if ((attribute(pane, "activePane") ?? wanted) !== wanted || across + down === 0)
        this.fault(`${part}: the frozen pane is not the one that can scroll`);
    }
    for (const name of [
      "sheetData",
      "autoFilter",
      "mergeCells",
      "dataValidations",
      "hyperlinks",
      "tableParts",
      "drawing",
      "legacyDrawing",
      "cols",
    ])
      if (this.all(document, `/m:worksheet/m:${name}`).length > 1) this.fault(`${part}: has ${name} twice`);
    const order = this.all(document, "/m:worksheet/m:*").map(({ name }) => ORDER.indexOf(name));
    if (order.some((place, at) => place < 0 || (at > 0 && place < (order[at - 1] as number))))
      this.fault(`${part}: its elements stand in the wrong order`);
  }

  private drawing(part: string, document: XmlDocument): void {
    const id = this.values(document, "/m:worksheet/m:drawing/@r:id")[0];
    if (id === undefined) return;
    const target = this.relations.get(part)?.get(id);
    if (target?.kind !== "drawing") return this.fault(`${part}: its drawing is no drawing`);
    this.unique(target.target, "shape id", this.values(this.documents.get(target.target), "//x:cNvPr/@id"));
  }

  private chart(part: string): void {
    const document = this.documents.get(part);
    this.unique(
      part,
      "axis",
      this.values(document, "//c:catAx/c:axId/@val | //c:valAx/c:axId/@val | //c:dateAx/c:axId/@val"),
    );
    const axes = this.values(document, "//c:catAx/c:axId/@val | //c:valAx/c:axId/@val | //c:dateAx/c:axId/@val");
    for (const used of this.values(document, "//c:plotArea/*/c:axId[not(../c:scaling)]/@val"))
      if (!axes.includes(used)) this.fault(`${part}: the axis ${used} is missing`);
    this.unique(part, "series", this.values(document, "//c:ser/c:idx/@val"));
    for (const formula of this.all(document, "//c:f")) this.formula(part, formula.content);
    for (const cache of this.all(document, "//c:numCache | //c:strCache")) {
      const points = this.values(cache, "c:pt/@idx");
      const stated = Number(this.values(cache, "c:ptCount/@val")[0]);
      if (points.some((point) => Number(point) >= stated)) this.fault(`${part}: a point lies beyond the count`);
      this.unique(part, "point", points);
    }
  }

  /** The order of calculation may name cells with formulas only. */
  private order(part: string, sheets: readonly [name: string, part: string][]): void {
    const chain = this.documents.get(part);
    if (chain === undefined) return;
    const ids = new Map<string, string>();
    for (const [, document] of this.documents)
      for (const sheet of this.all(document, "/m:workbook/m:sheets/m:sheet"))
        ids.set(attribute(sheet, "sheetId") ?? "", attribute(sheet, "name") ?? "");
    let sheet = "";
    for (const entry of this.all(chain, "//m:c")) {
      sheet = attribute(entry, "i") ?? sheet;
      const target = sheets.find(([name]) => name === ids.get(sheet))?.[1];
      const cell = attribute(entry, "r") ?? "";
      if (this.all(this.documents.get(target ?? ""), `//m:c[@r="${cell}"]/m:f`).length === 0)
        this.fault(`${part}: ${cell} of sheet ${sheet} has no formula`);
    }
  }

  private properties(): void {
    const own = this.documents.get("docProps/custom.xml");
    const numbers = this.values(own, "//*[local-name()='property']/@pid");
    this.unique("docProps/custom.xml", "number", numbers);
    this.unique("docProps/custom.xml", "property", this.values(own, "//*[local-name()='property']/@name"));
    if (numbers.some((number) => Number(number) < 2)) this.fault("docProps/custom.xml: a number is below 2");
    const document = this.documents.get("docProps/app.xml");
    const titles = this.values(document, "//e:TitlesOfParts/vt:vector/vt:lpstr/text()");
    const stated = this.values(document, "//e:TitlesOfParts/vt:vector/@size")[0];
    if (stated !== undefined && Number(stated) !== titles.length)
      this.fault(`docProps/app.xml: names ${titles.length} parts and says ${stated}`);
    const counts = this.values(document, "//e:HeadingPairs//vt:i4/text()").map(Number);
    if (counts.reduce((sum, count) => sum + count, 0) !== titles.length)
      this.fault("docProps/app.xml: its headings count other parts than it names");
  }

  /* Reading */

  private all(from: XmlDocument | XmlElement | undefined, path: string): XmlElement[] {
    return (from?.find(path, NAMES) ?? []) as XmlElement[];
  }

  private first(from: XmlDocument, path: string): XmlElement | undefined {
    return this.all(from, path)[0];
  }

  private values(from: XmlDocument | XmlElement | undefined, path: string): string[] {
    return (from?.find(path, NAMES) ?? []).map(({ content }) => content);
  }

  private areasIn(part: string, references: readonly string[]): Area[] {
    return references.flatMap((reference) => {
      const area = areaOf(reference);
      if (area !== undefined) return [area];
      this.fault(`${part}: "${reference}" is no area`);
      return [];
    });
  }

  private unique(part: string, thing: string, values: readonly string[]): void {
    const seen = new Set<string>();
    for (const value of values) {
      if (seen.has(value)) this.fault(`${part}: ${thing} ${value} stands twice`);
      seen.add(value);
    }
  }

  private takes(taken: Map<string, string>, value: string, by: string, thing: string): void {
    const other = taken.get(value);
    if (other !== undefined) this.fault(`${by}: ${thing} ${value} is taken by ${other}`);
    taken.set(value, by);
  }

  private apart(part: string, things: string, areas: readonly Area[]): void {
    areas.forEach((area, place) => {
      if (areas.slice(place + 1).some((other) => overlap(area, other))) this.fault(`${part}: ${things} overlap`);
    });
  }
}

/** The order that the schema gives the elements of a sheet (ECMA-376 part 1, 18.3.1.99). */
const ORDER = (
  "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios " +
  "autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations " +
  "hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches " +
  "ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls " +
  "webPublishItems tableParts extLst"
).split(" ");

/** Without a path: there are many cells. */
function children(parent: XmlElement, name: string): XmlElement[] {
  const found: XmlElement[] = [];
  for (let node = parent.firstChild; node !== null; node = node.next)
    if (node instanceof XmlElement && node.name === name) found.push(node);
  return found;
}

function attribute(element: XmlElement, name: string): string | undefined {
  return element.attr(name)?.value;
}

/** Letters, digits, dots and underscores; nothing that reads as a cell. */
function isName(name: string): boolean {
  if (name.length > 255 || !/^[\p{L}_\\][\p{L}\p{N}_.\\?]*$/u.test(name)) return false;
  return !/^([A-Za-z]{1,3}\d+|[rRcC]|[rR]\d*[cC]\d*)$/.test(name);
}

function positionOf(address: string): { row: number; column: number } | undefined {
  const found = /^([A-Z]{1,3})([1-9]\d*)$/.exec(address);
  if (found === null) return undefined;
  const column = [...(found[1] as string)].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
  return { row: Number(found[2]), column };
}

function addressOf(row: number, column: number): string {
  let letters = "";
  for (let left = column; left > 0; left = Math.floor((left - 1) / 26))
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  return letters + String(row);
}

function areaOf(reference: string): Area | undefined {
  const [from = "", to = from] = reference.split(":");
  const [first, last] = [positionOf(from), positionOf(to)];
  if (first === undefined || last === undefined || first.row > last.row || first.column > last.column) return undefined;
  if (last.row > LAST_ROW || last.column > LAST_COLUMN) return undefined;
  return { top: first.row, left: first.column, bottom: last.row, right: last.column };
}

function overlap(a: Area, b: Area): boolean {
  return a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;
}

function within(inner: Area, outer: Area): boolean {
  return (
    inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top && inner.bottom <= outer.bottom
  );
}
