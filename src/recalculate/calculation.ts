import { addressOf, areaOf, heightOf, positionOf, widthOf } from "./addresses";
import type { Book, BookSheet } from "./book";
import type { Implementations } from "./bundle";
import { circleIn } from "./circles";
import { Complaint } from "./command-line";
import { calculate, filledBy, syntaxFault, unknownTo, type Pending, type Size } from "./engine";
import { functionsCalledIn } from "./future-functions";
import { filterTrouble, passingOverFiltered } from "./filtered-rows";
import { asTyped, callsOurs, isDead, moved, outsideQuotes, sheetsNamedIn } from "./formula-text";
import { Grid, type Area, type Content } from "./grid";
import { readingsOf, readsAnything } from "./references";
import { laidOut } from "./second-engine";
import type { SheetPart, StoredCell } from "./sheet-part";
import { valueIn } from "./stored-text";
import { CellError, rowsOf, type Outcome, type Value } from "./values";
import { isWhatIfTable, whatIfTable } from "./what-if-tables";
import { writtenOut } from "./written-out";
import { elements } from "./xml";

/** A formula of a workbook and what it gives. */
export interface FormulaCell {
  readonly sheet: BookSheet;
  readonly cell: StoredCell;
  /** As the file has it, with shared formulas written out. */
  readonly stored: string;
  /** As a person types it. */
  readonly typed: string;
  /** With addresses in place of headings of Tables, and with what names stand for: as the engines read it. */
  readonly written: string;
  readonly calls: boolean;
  /** Is a call of ours in a form that Excel does not bind? */
  readonly dead: boolean;
  /** May it fill more than its own cell? */
  readonly spills: boolean;
  /** An old-style array formula is held to its area. */
  readonly confined: boolean;
  /** The cells it filled when the file was saved. */
  readonly saved: Area;
  readonly volatile: boolean;
}

export interface Result {
  readonly formula: FormulaCell;
  readonly outcome: Outcome;
  /** Why a formula cannot be right whatever its value: an unknown function of ours, a missing sheet. */
  readonly fault?: string;
  /** Why the formula cannot be worked out here: the saved value was taken as it is. */
  readonly taken?: string;
  /** Did the second engine work it out, where the first could not? */
  readonly bySecond?: boolean;
  /** Does the second engine give the same other value than was saved? */
  readonly agreed?: boolean;
  /** Does the formula read itself by way of others, in a book that does not iterate? */
  readonly circular?: true;
}

/** The formulas of a workbook in the order of its sheets and cells. */
export function formulasOf(book: Book): FormulaCell[] {
  return book.sheets.flatMap((sheet) => formulasOn(sheet, book));
}

function formulasOn(sheet: BookSheet, book: Book): FormulaCell[] {
  const { dynamicMarks } = book;
  const masters = new Map<string, { text: string; row: number; column: number }>();
  const found: FormulaCell[] = [];
  for (const cell of sheet.part.cells()) {
    const { formula, row, column } = cell;
    if (formula === undefined) continue;
    if (isWhatIfTable(cell)) {
      found.push(...whatIfTable(sheet, cell, formula.attributes));
      continue;
    }
    const { t: kind, si = "", ref } = formula.attributes;
    let stored = formula.text;
    if (kind === "shared" && stored !== "") masters.set(si, { text: stored, row, column });
    if (kind === "shared" && stored === "") {
      const master = masters.get(si);
      if (master !== undefined) stored = moved(master.text, row - master.row, column - master.column);
    }
    if (stored === "") continue;
    const typed = asTyped(stored);
    const own: Area = { top: row, left: column, bottom: row, right: column };
    const calls = callsOurs(stored);
    const dynamic = cell.attributes.cm !== undefined && dynamicMarks.has(cell.attributes.cm);
    const confined = kind === "array" && !dynamic && !calls;
    const spills = calls || dynamic || confined;
    found.push({
      sheet,
      cell,
      stored,
      typed,
      written: passingOverFiltered(writtenOut(typed, { sheet, row, column }, book), sheet, book),
      calls,
      dead: isDead(stored),
      spills,
      confined,
      saved: (spills && kind === "array" && ref !== undefined && areaOf(ref)) || own,
      volatile: /\b(NOW|TODAY|RAND|RANDBETWEEN|RANDARRAY)\s*\(/i.test(stored),
    });
  }
  return found;
}

/** Works out every formula of a workbook with the given functions, from nothing that an earlier calculation left. */
export function calculated(book: Book, formulas: readonly FormulaCell[], functions: Implementations): Result[] {
  const results = workedOut(book, formulas, formulas, functions);
  const filled = results.map(({ formula: { cell }, outcome }): Area => {
    const rows = rowsOf(outcome);
    const right = cell.column + (rows[0]?.length ?? 1) - 1;
    return { top: cell.row, left: cell.column, bottom: cell.row + rows.length - 1, right };
  });
  const circle = circleIn(book, formulas, filled);
  if (circle !== undefined) {
    throw new Complaint(`${book.called}: formulas read each other in a circle and have no result: ${circle}`);
  }
  return results;
}

/**
 * Works out the wanted ones among all formulas of a workbook; the others keep the values that the file holds, or those
 * that are known of them.
 */
export function workedOut(
  book: Book,
  all: readonly FormulaCell[],
  wanted: readonly FormulaCell[],
  functions: Implementations,
  known: ReadonlyMap<FormulaCell, Outcome> = new Map(),
): Result[] {
  if (wanted.length === 0) return [];
  try {
    return workedOutAtOnce(book, all, wanted, functions, known);
  } catch (fault) {
    // One formula can bring the engine down: it is found by halves, and costs nothing but its own cell.
    const [formula] = wanted;
    if (fault instanceof Complaint || formula === undefined) throw fault;
    if (wanted.length === 1) {
      const taken = `it could not be worked out (${(fault as Error).message})`;
      return [{ formula, outcome: savedOf(formula, book), taken }];
    }
    const half = wanted.length >> 1;
    return [wanted.slice(0, half), wanted.slice(half)].flatMap((part) => workedOut(book, all, part, functions, known));
  }
}

function workedOutAtOnce(
  book: Book,
  all: readonly FormulaCell[],
  wanted: readonly FormulaCell[],
  functions: Implementations,
  known: ReadonlyMap<FormulaCell, Outcome>,
): Result[] {
  const faults = new Map(wanted.map((formula) => [formula, faultIn(formula, book, functions)]));
  const lacking = lackingIn(book, wanted);
  const beyond = (formula: FormulaCell) => {
    const fault = faults.get(formula);
    return lacking.get(formula) ?? (fault && (fault.elsewhere || !formula.calls) ? fault.as.message : undefined);
  };
  const working = wanted.filter((formula) => beyond(formula) === undefined);
  const grid = gridOf(book, working, known);
  const work = laidOn(grid, book, all, working, (formula) => sizeNow(known.get(formula), formula), faults);
  const worked = work(functions);
  const outcomes = new Map(working.map((formula, index) => [formula, worked[index] as Outcome]));
  return wanted.map((formula) => {
    const taken = beyond(formula);
    const fault = faults.get(formula);
    if (taken !== undefined) {
      // A sheet that is not there is a fault whoever calculates; what this engine cannot read need not be one.
      const sure = fault?.as.code === "#REF!" && !fault.elsewhere;
      return { formula, outcome: savedOf(formula, book), taken, ...(sure ? { fault: fault.as.message } : {}) };
    }
    if (fault) return { formula, outcome: fault.as, fault: fault.as.message };
    const outcome = outsideTables(formula, outcomes.get(formula) as Outcome);
    return namelessHere(formula, outcome, book)
      ? { formula, outcome: savedOf(formula, book), taken: outcome.message }
      : { formula, outcome };
  });
}

/** Puts formulas on their sheets, to be worked out as often as is wanted; the outcomes are in their order. */
function laidOn(
  grid: Grid,
  book: Book,
  all: readonly FormulaCell[],
  working: readonly FormulaCell[],
  likely: (formula: FormulaCell) => Size,
  faults: ReadonlyMap<FormulaCell, { readonly as: CellError } | undefined> = new Map(),
): (functions: Implementations) => Outcome[] {
  const anchors = anchorsOf(all);
  const places = new Map(all.map((formula, index) => [formula, index]));
  const sizes = all.map(likely);
  const typed = (formula: FormulaCell) =>
    faults.get(formula)?.as.code ?? forEngine(formula.written, formula.sheet.name, anchors, sizes);
  const untyped = working.map((formula): Omit<Pending, "formula"> => {
    const { sheet, cell, spills, confined, saved } = formula;
    return {
      sheet: sheet.name,
      cell: (grid.getWorksheet(sheet.name) as ReturnType<Grid["addSheet"]>).getCell(cell.row, cell.column),
      spills,
      likely: likely(formula),
      ...(confined ? { confined: sizeOf(saved) } : {}),
    };
  });
  // A reference to a whole spill ("A1#") is written as the area the spill turned out to fill, until that holds still.
  const again = (outcomes: readonly Outcome[]): string[] | undefined => {
    let still = true;
    working.forEach((formula, index) => {
      const now = filledBy(outcomes[index] as Outcome);
      const place = places.get(formula) as number;
      still &&= sizes[place]?.height === now.height && sizes[place].width === now.width;
      sizes[place] = now;
    });
    return still ? undefined : working.map(typed);
  };
  const readsSpills = working.some(({ written }) => SPILL_REFERENCE.test(written));
  const known = { inOrder: tellAllTheyRead(working, book), ...(readsSpills ? { again } : {}) };
  return (functions) => {
    const pending = untyped.map((one, index) => ({ ...one, formula: typed(working[index] as FormulaCell) }));
    return calculate(grid, pending, functions, known);
  };
}

/** Of a larger range the engine looks for formulas in it only, and not for the cells that one fills. */
const LARGEST_FOLLOWED = 10_000;

/**
 * Does the engine see from the text of each formula all that it reads? Of a range that begins at a formula that fills
 * several cells it takes for read what that formula fills, which is all of a spill, and may be a part of a range.
 */
function tellAllTheyRead(formulas: readonly FormulaCell[], book: Book): boolean {
  const filling = new Set(
    formulas.flatMap(({ sheet, cell, spills }) => (spills ? [placeOf(sheet.name, cell.row, cell.column)] : [])),
  );
  // It knows a sheet by the very letters of its name.
  const sheets = new Set(book.sheets.map(({ name }) => name));
  return formulas.every(
    (formula) =>
      !readsAnything(formula) &&
      sheetsNamedIn(formula.written).every((name) => sheets.has(name)) &&
      readingsOf(formula, book).every(({ sheet, area }) => {
        const cells = heightOf(area) * widthOf(area);
        return cells === 1 || (cells <= LARGEST_FOLLOWED && !filling.has(placeOf(sheet, area.top, area.left)));
      }),
  );
}

/** A number to be put into a cell. */
export interface Put {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: number;
}

/** Works out the same formulas once more, with other numbers in some cells. */
export type Prepared = (puts: readonly Put[]) => ReadonlyMap<FormulaCell, Outcome>;

/**
 * Makes the wanted formulas ready to be worked out many times, on sheets that are laid out once. What cannot be worked
 * out here has no outcome.
 */
export function preparedFor(
  book: Book,
  all: readonly FormulaCell[],
  wanted: readonly FormulaCell[],
  functions: Implementations,
): Prepared {
  const lacking = lackingIn(book, wanted);
  const working = wanted.filter((one) => !lacking.has(one) && faultIn(one, book, functions) === undefined);
  const grid = gridOf(book, working, new Map());
  const work = laidOn(grid, book, all, working, ({ saved }) => sizeOf(saved));
  return (puts) => {
    for (const { sheet, row, column, value } of puts) {
      (grid.getWorksheet(sheet) as ReturnType<Grid["addSheet"]>).getCell(row, column).value = value;
    }
    const outcomes = work(functions);
    return new Map(working.map((formula, index) => [formula, outsideTables(formula, outcomes[index] as Outcome)]));
  };
}

/** The second engine on one state of a workbook: formulas are asked one by one, and none sees what another gives. */
export interface SecondVoice {
  /** What a formula gives on the values of all cells; nothing where this engine has no answer. */
  readonly opinionOn: (formula: FormulaCell) => Outcome | undefined;
  /** Puts a result into its cells. */
  readonly settle: (formula: FormulaCell, outcome: Outcome) => void;
  readonly forget: () => void;
}

/** The second engine, where it is installed, with saved values or those that are known in all cells. */
export function secondVoice(
  book: Book,
  all: readonly FormulaCell[],
  functions: Implementations,
  known: ReadonlyMap<FormulaCell, Outcome> = new Map(),
): SecondVoice | undefined {
  const grid = gridOf(book, [], known);
  const laid = laidOut(grid, functions);
  if (laid === undefined) return undefined;
  const anchors = anchorsOf(all);
  const sizes = all.map((formula) => sizeNow(known.get(formula), formula));
  return {
    opinionOn: ({ sheet, cell, written, spills, confined, saved }) =>
      laid.workedOut({
        sheet: sheet.name,
        cell: (grid.getWorksheet(sheet.name) as ReturnType<Grid["addSheet"]>).getCell(cell.row, cell.column),
        formula: forEngine(written, sheet.name, anchors, sizes),
        spills,
        ...(confined ? { confined: sizeOf(saved) } : {}),
      }),
    settle: ({ sheet, cell }, outcome) =>
      rowsOf(outcome).forEach((row, down) =>
        row.forEach((value, along) => laid.put(sheet.name, cell.row + down, cell.column + along, contentOf(value))),
      ),
    forget: laid.forget,
  };
}

function anchorsOf(all: readonly FormulaCell[]): Map<string, number> {
  return new Map(all.map(({ sheet, cell }, index) => [placeOf(sheet.name, cell.row, cell.column), index]));
}

function sizeOf(area: Area): Size {
  return { height: heightOf(area), width: widthOf(area) };
}

function sizeNow(outcome: Outcome | undefined, { saved }: FormulaCell): Size {
  return outcome === undefined ? sizeOf(saved) : filledBy(outcome);
}

/** A call of ours with a name in it that is not known here, although the program that saved it knew it. */
function namelessHere({ calls, cell }: FormulaCell, outcome: Outcome, book: Book): outcome is CellError {
  if (!calls || !cell.hasValue || !(outcome instanceof CellError) || outcome.code !== "#NAME?") return false;
  return !(valueIn(cell.value, book.shared) instanceof CellError);
}

/** The formulas with a worksheet function that the engine lacks, and why they cannot be worked out. */
function lackingIn(book: Book, formulas: readonly FormulaCell[]): Map<FormulaCell, string> {
  const called = formulas.map(({ written }) => functionsCalledIn(written));
  const names = new Set(book.names.map(({ name }) => name.toUpperCase()));
  const unknown = new Set(unknownTo([...new Set(called.flat())].filter((name) => !names.has(name))));
  const lacking = new Map<FormulaCell, string>();
  formulas.forEach((formula, index) => {
    const { written, sheet, cell } = formula;
    const name =
      (isWhatIfTable(cell) ? "a what-if table" : undefined) ??
      called[index]?.find((one) => unknown.has(one)) ??
      computedRange(written) ??
      filterTrouble(written, sheet, book);
    if (name !== undefined) lacking.set(formula, `${name} cannot be worked out here`);
  });
  return lacking;
}

/** "A1:INDEX(…)": the engine has no value for a range whose end a function finds. */
function computedRange(typed: string): string | undefined {
  let computed = false;
  outsideQuotes(typed, (piece) => {
    computed ||= /\)\s*:|:\s*[A-Z]+\s*\(/i.test(piece);
    return piece;
  });
  return computed ? "a range with a computed end" : undefined;
}

/** What the file shows in the cells of a formula. */
export function savedOf({ sheet, cell, saved }: FormulaCell, book: Book): Outcome {
  const rows = Array.from({ length: heightOf(saved) }, (_, down) =>
    Array.from({ length: widthOf(saved) }, (_, along) => {
      const stored = sheet.part.find(cell.row + down, cell.column + along);
      return stored ? valueIn(stored.value, book.shared) : null;
    }),
  );
  return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? null) : rows;
}

/** A result of many cells cannot spill into an Excel Table. */
function outsideTables({ sheet, cell }: FormulaCell, outcome: Outcome): Outcome {
  if (!Array.isArray(outcome)) return outcome;
  const bottom = cell.row + outcome.length - 1;
  const right = cell.column + (outcome[0]?.length ?? 1) - 1;
  const hit = sheet.tables.find(({ reference }) => {
    const area = areaOf(reference);
    return area && area.top <= bottom && area.bottom >= cell.row && area.left <= right && area.right >= cell.column;
  });
  return hit ? new CellError("#SPILL!", `the result would spill into the table ${hit.name}`) : outcome;
}

/** Why a formula has no value, and whether the reason is another workbook, whose values the file's saved ones hold. */
function faultIn(
  { written }: FormulaCell,
  book: Book,
  functions: Implementations,
): { as: CellError; elsewhere: boolean } | undefined {
  const known = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  for (const name of sheetsNamedIn(written)) {
    if (/\[/.test(name)) {
      return { as: new CellError("#REF!", `reads another workbook ("${name}"), which is not open`), elsewhere: true };
    }
    if (!known.has(name.toLowerCase())) {
      return { as: new CellError("#REF!", `there is no sheet "${name}"`), elsewhere: false };
    }
  }
  const fault = syntaxFault(asEngineReads(written), functions);
  return fault && { as: fault, elsewhere: false };
}

/** A1#, 'My sheet'!A1# and the stored ANCHORARRAY(A1). */
const SPILL_REFERENCE = /\bANCHORARRAY\s*\(|\$?[A-Z]{1,3}\$?\d{1,7}#/i;
const SPILL_REFERENCES =
  /ANCHORARRAY\s*\(\s*((?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(\$?[A-Z]{1,3}\$?\d{1,7})\s*\)|((?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(?<![\w.])(\$?[A-Z]{1,3}\$?\d{1,7})#|"(?:[^"]|"")*"/giu;

function forEngine(typed: string, on: string, anchors: ReadonlyMap<string, number>, sizes: readonly Size[]): string {
  const written = SPILL_REFERENCE.test(typed)
    ? typed.replace(SPILL_REFERENCES, (whole, sheet1?: string, cell1?: string, sheet2?: string, cell2?: string) => {
        const cell = cell1 ?? cell2;
        const position = cell === undefined ? undefined : positionOf(cell);
        if (position === undefined) return whole;
        const sheet = sheet1 ?? sheet2 ?? "";
        const index = anchors.get(placeOf(sheetNamed(sheet) ?? on, position.row, position.column));
        const size = index === undefined ? undefined : sizes[index];
        if (size === undefined) return "#REF!";
        const first = addressOf(position.row, position.column);
        return `${sheet}${first}:${addressOf(position.row + size.height - 1, position.column + size.width - 1)}`;
      })
    : typed;
  return asEngineReads(withRanges(written));
}

/** A subtotal passes over other subtotals in ranges; the engines look for them in ranges only. */
function withRanges(formula: string): string {
  return /^\s*(SUBTOTAL|AGGREGATE)\s*\([^()]*\)\s*$/i.test(formula)
    ? formula.replace(/(?<=,\s*)(\$?[A-Z]{1,3}\$?\d{1,7})(?=\s*[,)])/gi, "$1:$1")
    : formula;
}

/** What the engine writes otherwise: SINGLE(…) is its @…, and a spill reference it does not know. */
function asEngineReads(typed: string): string {
  return outsideQuotes(typed, (piece) => piece.replace(/\bSINGLE\s*\(/gi, "@(")).replace(
    /(\$?[A-Z]{1,3}\$?\d{1,7})#(?![\w!?])/gi,
    "$1",
  );
}

function sheetNamed(written: string): string | undefined {
  return written === "" ? undefined : written.slice(0, -1).replace(/^'|'$/g, "").replace(/''/g, "'");
}

export function placeOf(sheet: string, row: number, column: number): string {
  return `${sheet.toLowerCase()}!${row},${column}`;
}

/** The sheets without results of these formulas: their cells empty, and what spilled from them left out. */
function gridOf(book: Book, formulas: readonly FormulaCell[], known: ReadonlyMap<FormulaCell, Outcome>): Grid {
  const grid = new Grid();
  grid.properties = { date1904: book.date1904 };
  grid.names.push(...book.names.map((name) => ({ ...name, ranges: name.ranges.map(asTyped) })));
  for (const sheet of book.sheets) {
    const own = [...formulas, ...known.keys()].filter((formula) => formula.sheet === sheet);
    const spilled = spilledCells(own);
    const target = grid.addSheet(sheet.name);
    target.tables.push(...sheet.tables);
    target.mergedRegions.push(...mergedIn(sheet.part));
    for (const row of sheet.part.hiddenRows) target.row(row).hidden = true;
    const calculatedHere = new Set(own.map(({ cell }) => cell));
    for (const cell of sheet.part.cells()) {
      if (cell.isEmpty || calculatedHere.has(cell) || spilled.has(cell)) continue;
      const value = valueIn(cell.value, book.shared);
      if (value === null) continue;
      const place = target.getCell(cell.row, cell.column);
      place.value = contentOf(value);
      // A subtotal passes over the cells that hold one, so such a cell remains a formula, of its saved value.
      if (typeof value === "number" && SUBTOTAL.test(cell.formula?.text ?? "")) place.formula = `SUBTOTAL(9,${value})`;
    }
  }
  for (const [{ sheet, cell }, outcome] of known) {
    rowsOf(outcome).forEach((row, down) =>
      row.forEach((value, along) => {
        if (value === null) return;
        const place = grid.getWorksheet(sheet.name)?.getCell(cell.row + down, cell.column + along);
        if (place) place.value = contentOf(value);
      }),
    );
  }
  return grid;
}

const SUBTOTAL = /^\s*(?:_xlfn\.)?(SUBTOTAL|AGGREGATE)\s*\(/i;

function contentOf(value: Value): Content {
  return value instanceof CellError ? { error: value.code } : value;
}

/** The cells that only show what an array formula filled them with. */
export function spilledCells(formulas: readonly FormulaCell[]): Set<StoredCell> {
  const formulaCells = new Set(formulas.map(({ cell }) => cell));
  const spilled = new Set<StoredCell>();
  for (const { sheet, saved, spills } of formulas) {
    if (!spills || (heightOf(saved) === 1 && widthOf(saved) === 1)) continue;
    for (const cell of cellsIn(sheet.part, saved)) if (!formulaCells.has(cell)) spilled.add(cell);
  }
  return spilled;
}

/** The stored cells of an area, found the cheaper way round: a file may claim an area of a whole sheet. */
export function* cellsIn(part: SheetPart, area: Area): Generator<StoredCell> {
  const { top, left, bottom, right } = area;
  if (heightOf(area) * widthOf(area) > MANY_CELLS) {
    for (const cell of part.cells()) {
      if (cell.row >= top && cell.row <= bottom && cell.column >= left && cell.column <= right) yield cell;
    }
    return;
  }
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      const cell = part.find(row, column);
      if (cell !== undefined) yield cell;
    }
  }
}

const MANY_CELLS = 10_000;

function mergedIn(part: SheetPart): Area[] {
  return [...elements(part.surroundings, "mergeCell")].flatMap(({ attributes }) => areaOf(attributes.ref ?? "") ?? []);
}
