import { addressOf, positionOf } from "./addresses";
import { decoded, elements, encoded, firstElement, withAttributes, type Attributes } from "./xml";
import type { StoredValue } from "./stored-text";

/** The formula of a cell as the file holds it. */
export interface StoredFormula {
  readonly attributes: Attributes;
  readonly text: string;
}

export class StoredCell {
  constructor(
    readonly row: number,
    readonly column: number,
    readonly attributes: Attributes,
    private inner: string,
    private readonly prefix: string,
  ) {}

  get address(): string {
    return addressOf(this.row, this.column);
  }

  get formula(): StoredFormula | undefined {
    if (!this.inner.includes("f")) return undefined;
    const found = firstElement(this.inner, "f");
    return found && { attributes: found.attributes, text: decoded(found.inner) };
  }

  get value(): StoredValue {
    const type = this.attributes.t;
    if (type === "inlineStr")
      return { type, text: [...elements(this.inner, "t")].map((t) => decoded(t.inner)).join("") };
    return { type, text: decoded(firstElement(this.inner, "v")?.inner ?? "") };
  }

  /** Was a value saved? A text may be empty. */
  get hasValue(): boolean {
    const { type, text } = this.value;
    return text !== "" || (type === "str" && firstElement(this.inner, "v") !== undefined);
  }

  /** Does the cell hold anything but a style? */
  get isEmpty(): boolean {
    return this.inner === "";
  }

  /** Replaces the value; the formula stays as it is unless another is given. */
  write(value: StoredValue | undefined, formula?: StoredFormula): void {
    const kept = firstElement(this.inner, "f");
    const f = formula
      ? `<${this.prefix}${withAttributes("f", formula.attributes)}>${encoded(formula.text)}</${this.prefix}f>`
      : kept
        ? this.inner.slice(kept.start, kept.end)
        : "";
    delete this.attributes.t;
    if (value?.type !== undefined) this.attributes.t = value.type;
    this.inner = value === undefined ? f : `${f}<${this.prefix}v>${encoded(value.text)}</${this.prefix}v>`;
  }

  /** Leaves nothing but the value. */
  writeOnly(value: StoredValue | undefined): void {
    this.inner = "";
    delete this.attributes.cm;
    delete this.attributes.vm;
    this.write(value);
  }

  get xml(): string {
    const tag = `${this.prefix}${withAttributes("c", this.attributes)}`;
    return this.inner === "" ? `<${tag}/>` : `<${tag}>${this.inner}</${this.prefix}c>`;
  }
}

class StoredRow {
  readonly cells = new Map<number, StoredCell>();

  constructor(
    readonly number: number,
    readonly attributes: Attributes,
  ) {}
}

/** One sheet's part: its cells can be read and changed, all else in it stays byte for byte. */
export class SheetPart {
  private readonly rows = new Map<number, StoredRow>();
  private readonly before: string;
  private readonly after: string;
  private readonly prefix: string;

  constructor(xml: string) {
    const data = firstElement(xml, "sheetData");
    if (data === undefined) throw new SyntaxError("the sheet has no sheetData");
    this.before = xml.slice(0, data.start);
    this.after = xml.slice(data.end);
    this.prefix = data.prefix;
    this.read(data.inner);
  }

  private read(data: string): void {
    let number = 0;
    for (const element of elements(data, "row")) {
      number = element.attributes.r === undefined ? number + 1 : Number(element.attributes.r);
      const row = new StoredRow(number, element.attributes);
      let column = 0;
      for (const { attributes, inner } of elements(element.inner, "c")) {
        const position = attributes.r === undefined ? undefined : positionOf(attributes.r);
        column = position?.column ?? column + 1;
        attributes.r = addressOf(number, column);
        row.cells.set(column, new StoredCell(number, column, attributes, inner, this.prefix));
      }
      this.rows.set(number, row);
    }
  }

  /** The text around the cells: merged areas, validations and the like. */
  get surroundings(): string {
    return this.before + this.after;
  }

  *cells(): Generator<StoredCell> {
    for (const row of this.rows.values()) yield* row.cells.values();
  }

  *hiddenRows(): Generator<number> {
    for (const { number, attributes } of this.rows.values()) {
      if (attributes.hidden === "1" || attributes.hidden === "true") yield number;
    }
  }

  find(row: number, column: number): StoredCell | undefined {
    return this.rows.get(row)?.cells.get(column);
  }

  /** The cell at a place, made when there is none. */
  cell(row: number, column: number): StoredCell {
    let stored = this.rows.get(row);
    if (stored === undefined) this.rows.set(row, (stored = new StoredRow(row, { r: String(row) })));
    let cell = stored.cells.get(column);
    if (cell === undefined) {
      cell = new StoredCell(row, column, { r: addressOf(row, column) }, "", this.prefix);
      stored.cells.set(column, cell);
      // The hint about the columns in use no longer holds.
      delete stored.attributes.spans;
    }
    return cell;
  }

  get xml(): string {
    const rows = [...this.rows.values()].sort((a, b) => a.number - b.number).map((row) => this.rowXml(row));
    return `${this.withDimension(this.before)}<${this.prefix}sheetData>${rows.join("")}</${this.prefix}sheetData>${this.after}`;
  }

  private rowXml({ attributes, cells }: StoredRow): string {
    const tag = `${this.prefix}${withAttributes("row", attributes)}`;
    if (cells.size === 0) return `<${tag}/>`;
    const inOrder = [...cells.values()].sort((a, b) => a.column - b.column).map((cell) => cell.xml);
    return `<${tag}>${inOrder.join("")}</${this.prefix}row>`;
  }

  /** Says again which area is in use. */
  private withDimension(before: string): string {
    const dimension = firstElement(before, "dimension");
    if (dimension === undefined) return before;
    let [top, left, bottom, right] = [Infinity, Infinity, 0, 0];
    for (const { row, column } of this.cells()) {
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    }
    const used = bottom === 0 ? "A1" : `${addressOf(top, left)}:${addressOf(bottom, right)}`;
    return `${before.slice(0, dimension.start)}<${this.prefix}dimension ref="${used}"/>${before.slice(dimension.end)}`;
  }
}
