/** Sheets as the calculation needs them: positions, formulas and values, nothing of how they look. */

/** A stored value; an error value is kept as the engine keeps it. */
export type Content = number | string | boolean | { error: string } | null;

export interface Table {
  readonly name: string;
  readonly displayName: string;
  readonly tl: { readonly row: number; readonly col: number };
  readonly columns: readonly { readonly name: string }[];
  /** One entry a data row: the engine reads the number of rows only. */
  readonly rows: readonly undefined[];
  readonly headerRow: boolean;
  readonly totalsRow: boolean;
}

export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export interface DefinedName {
  readonly name: string;
  readonly ranges: string[];
  readonly localSheetId?: number;
}

const HOLDS_NOTHING = 0;
const HOLDS_A_VALUE = 2;
const HOLDS_A_FORMULA = 6;

export class GridCell {
  formula: string | undefined;
  value: unknown = null;
  result: Content | Date | undefined;
  /** Does the formula spill? */
  spills = false;
  /** The rows and columns that its result filled when the sheets were last worked out. */
  height = 1;
  width = 1;

  constructor(
    readonly row: number,
    readonly col: number,
  ) {}

  get type(): number {
    if (this.formula !== undefined) return HOLDS_A_FORMULA;
    return this.value === null ? HOLDS_NOTHING : HOLDS_A_VALUE;
  }

  get model(): { isDynamicArray?: boolean } {
    return this.spills ? { isDynamicArray: true } : {};
  }
}

class GridRow {
  hidden = false;
  readonly cells = new Map<number, GridCell>();

  eachCell(first: unknown, second?: unknown): void {
    const visit = (second ?? first) as (cell: GridCell, column: number) => void;
    this.cells.forEach((cell, column) => visit(cell, column));
  }
}

class GridSheet {
  readonly tables: Table[] = [];
  readonly mergedRegions: Area[] = [];
  private readonly rows = new Map<number, GridRow>();
  private bottom = 0;
  private right = 0;

  constructor(
    readonly id: number,
    readonly name: string,
  ) {}

  get dimensions(): Area | null {
    return this.bottom === 0 ? null : { top: 1, left: 1, bottom: this.bottom, right: this.right };
  }

  row(number: number): GridRow {
    let row = this.rows.get(number);
    if (row === undefined) this.rows.set(number, (row = new GridRow()));
    return row;
  }

  findCell(row: number, column: number): GridCell | undefined {
    return this.rows.get(row)?.cells.get(column);
  }

  getCell(row: number, column: number): GridCell {
    const { cells } = this.row(row);
    let cell = cells.get(column);
    if (cell === undefined) {
      cells.set(column, (cell = new GridCell(row, column)));
      this.bottom = Math.max(this.bottom, row);
      this.right = Math.max(this.right, column);
    }
    return cell;
  }

  eachRow(first: unknown, second?: unknown): void {
    const visit = (second ?? first) as (row: GridRow, number: number) => void;
    this.rows.forEach((row, number) => visit(row, number));
  }

  getTables(): { table: Table }[] {
    return this.tables.map((table) => ({ table }));
  }
}

export class Grid {
  readonly worksheets: GridSheet[] = [];
  private readonly byName = new Map<string, GridSheet>();
  readonly names: DefinedName[] = [];
  readonly definedNames = { getAllEntries: () => this.names, getAllNames: () => this.names };
  properties = { date1904: false };
  /** Filled by the engine's file. */
  userFunctions = new Map<string, { minArity: number; maxArity: number; invoke: (received: unknown[]) => unknown }>();

  addSheet(name: string): GridSheet {
    const sheet = new GridSheet(this.worksheets.length + 1, name);
    this.worksheets.push(sheet);
    this.byName.set(name.toLowerCase(), sheet);
    return sheet;
  }

  getWorksheet(which?: number | string): GridSheet | undefined {
    return typeof which === "number" ? this.worksheets[which - 1] : this.byName.get((which ?? "").toLowerCase());
  }
}
