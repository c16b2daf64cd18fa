import { addressOf, positionOf } from "./addresses";
import { decoded, elements, encoded, endOfTag, firstElement, withAttributes, type Attributes } from "./xml";
import type { StoredValue } from "./stored-text";

/** The formula of a cell as the file holds it. */
export interface StoredFormula {
  readonly attributes: Attributes;
  readonly text: string;
}

export class StoredCell {
  private changed = false;

  constructor(
    readonly row: number,
    readonly column: number,
    readonly attributes: Attributes,
    private inner: string,
    private readonly prefix: string,
    /** As the file has it; nothing for a cell that is new. */
    private readonly written?: Written,
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
    this.changed = true;
    delete this.attributes.t;
    if (value?.type !== undefined) this.attributes.t = value.type;
    this.inner = value === undefined ? f : `${f}<${this.prefix}v>${encoded(value.text)}</${this.prefix}v>`;
  }

  /** Replaces the formula; the value stays as it is. */
  rewrite({ attributes, text }: StoredFormula): void {
    const kept = firstElement(this.inner, "f");
    if (kept === undefined) return;
    const f = `<${this.prefix}${withAttributes("f", attributes)}>${encoded(text)}</${this.prefix}f>`;
    this.inner = this.inner.slice(0, kept.start) + f + this.inner.slice(kept.end);
    this.changed = true;
  }

  /** Replaces the text of the formula and nothing else. */
  reword(text: string): void {
    const kept = firstElement(this.inner, "f");
    if (kept === undefined) return;
    const from = endOfTag(this.inner, kept.start + 1) + 1;
    this.inner = this.inner.slice(0, from) + encoded(text) + this.inner.slice(from + kept.inner.length);
    this.changed = true;
  }

  /** Leaves nothing but the value. */
  writeOnly(value: StoredValue | undefined): void {
    this.inner = "";
    delete this.attributes.cm;
    delete this.attributes.vm;
    this.write(value);
  }

  get isChanged(): boolean {
    return this.changed || this.written === undefined;
  }

  get xml(): string {
    const { before = "", text = "" } = this.written ?? {};
    if (!this.isChanged) return before + text;
    const tag = `${this.prefix}${withAttributes("c", this.attributes)}`;
    return before + (this.inner === "" ? `<${tag}/>` : `<${tag}>${this.inner}</${this.prefix}c>`);
  }
}

/** An element as the file has it, with what stands before it. */
interface Written {
  readonly before: string;
  readonly text: string;
}

class StoredRow {
  readonly cells = new Map<number, StoredCell>();
  /** What stands after the last cell. */
  after = "";
  /** Has it got a cell that the file does not have? */
  grown = false;

  constructor(
    readonly number: number,
    readonly attributes: Attributes,
    private readonly prefix: string,
    private readonly written?: Written,
  ) {}

  get isChanged(): boolean {
    return this.grown || [...this.cells.values()].some((cell) => cell.isChanged);
  }

  get xml(): string {
    const { before = "", text = "" } = this.written ?? {};
    if (!this.isChanged) return before + text;
    const tag = `${this.prefix}${withAttributes("row", this.attributes)}`;
    const opening = this.grown ? `<${tag}>` : text.slice(0, endOfTag(text, 1) + 1);
    const cells = [...this.cells.values()].sort((a, b) => a.column - b.column).map((cell) => cell.xml);
    return `${before}${opening}${cells.join("")}${this.after}</${this.prefix}row>`;
  }
}

/** One sheet's part: its cells can be read and changed, all else in it stays byte for byte. */
export class SheetPart {
  private readonly rows = new Map<number, StoredRow>();
  private readonly before: string;
  private readonly after: string;
  private readonly prefix: string;
  /** What stands after the last row. */
  private afterRows = "";
  /** By their numbers. */
  readonly hiddenRows: number[] = [];

  constructor(private readonly written: string) {
    const data = firstElement(written, "sheetData");
    if (data === undefined) throw new SyntaxError("the sheet has no sheetData");
    this.before = written.slice(0, data.start);
    this.after = written.slice(data.end);
    this.prefix = data.prefix;
    this.read(data.inner);
  }

  private read(data: string): void {
    let number = 0;
    let rowsEnd = 0;
    for (const { attributes: ofRow, inner: cells, start: rowStart, end: rowEnd } of elements(data, "row")) {
      number = ofRow.r === undefined ? number + 1 : Number(ofRow.r);
      const written = { before: data.slice(rowsEnd, rowStart), text: data.slice(rowStart, rowEnd) };
      const row = new StoredRow(number, ofRow, this.prefix, written);
      if (ofRow.hidden === "1" || ofRow.hidden === "true") this.hiddenRows.push(number);
      rowsEnd = rowEnd;
      let column = 0;
      let cellsEnd = 0;
      for (const { attributes, inner, start, end } of elements(cells, "c")) {
        const position = attributes.r === undefined ? undefined : positionOf(attributes.r);
        column = position?.column ?? column + 1;
        attributes.r = addressOf(number, column);
        const written = { before: cells.slice(cellsEnd, start), text: cells.slice(start, end) };
        row.cells.set(column, new StoredCell(number, column, attributes, inner, this.prefix, written));
        cellsEnd = end;
      }
      row.after = cells.slice(cellsEnd);
      this.rows.set(number, row);
    }
    this.afterRows = data.slice(rowsEnd);
  }

  /** Does any cell differ from what the file has? */
  get isChanged(): boolean {
    return [...this.rows.values()].some((row) => row.isChanged);
  }

  /** The text around the cells: merged areas, validations and the like. */
  get surroundings(): string {
    return this.before + this.after;
  }

  *cells(): Generator<StoredCell> {
    for (const row of this.rows.values()) yield* row.cells.values();
  }

  find(row: number, column: number): StoredCell | undefined {
    return this.rows.get(row)?.cells.get(column);
  }

  /** The cell at a place, made when there is none. */
  cell(row: number, column: number): StoredCell {
    let stored = this.rows.get(row);
    if (stored === undefined) {
      this.rows.set(row, (stored = new StoredRow(row, { r: String(row) }, this.prefix)));
    }
    let cell = stored.cells.get(column);
    if (cell === undefined) {
      cell = new StoredCell(row, column, { r: addressOf(row, column) }, "", this.prefix);
      stored.cells.set(column, cell);
      // The hint about the columns in use no longer holds.
      delete stored.attributes.spans;
      stored.grown = true;
    }
    return cell;
  }

  get xml(): string {
    if (!this.isChanged) return this.written;
    const rows = [...this.rows.values()].sort((a, b) => a.number - b.number);
    const grown = rows.some((row) => row.grown);
    const before = grown ? this.withDimension(this.before) : this.before;
    return `${before}<${this.prefix}sheetData>${rows.map((row) => row.xml).join("")}${this.afterRows}</${this.prefix}sheetData>${this.after}`;
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
