import { calculateFormulas, parse, tokenize } from "@cj-tech-master/excelts/formula";
import type { Implementation, Implementations } from "./bundle";
import { withCriteria } from "./criteria";
import { Grid, type GridCell } from "./grid";
import { alongOneRow, LIFTED, lifted, type Invoke } from "./lifting";
import { shownIn } from "./number-format";
import { withNumbersShown } from "./numbers-in-text";
import { ROUNDINGS } from "./rounding";
import { CellError, rowsOf, type Outcome, type Value } from "./values";

/** The one file that knows the calculation engine. */

export { CellError, type Outcome, type Value } from "./values";

/** The engine's own form of values. */
type Running =
  | { kind: 0 }
  | { kind: 1; value: number }
  | { kind: 2; value: string }
  | { kind: 3; value: boolean }
  | { kind: 4; code: string; message?: string }
  | { kind: 5; rows: Running[][]; height: number; width: number }
  | { kind: number };

/** References and functions have the kinds after this one. */
const LAST_KIND_OF_VALUE = 5;

/** A formula in its cell, waiting to be worked out. */
export interface Pending {
  readonly sheet: string;
  readonly cell: GridCell;
  /** What is typed after the equals sign. */
  readonly formula: string;
  /** May its result fill more cells than its own? */
  readonly spills: boolean;
  /** The cells that an old-style array formula is confined to. */
  readonly confined?: Size;
  /** How many cells its result is likely to fill. */
  readonly likely?: Size;
}

export interface Size {
  readonly height: number;
  readonly width: number;
}

/** How many cells a result fills. */
export function filledBy(outcome: Outcome): Size {
  const rows = rowsOf(outcome);
  return { height: rows.length, width: rows[0]?.length ?? 1 };
}

/** What is known of formulas beside what is typed. */
interface Known {
  /**
   * Does the text of each tell all that it reads? Then they are worked out in their right order as soon as it is known
   * which cells each fills, and what comes out is right at once.
   */
  readonly inOrder?: boolean;
  /** Writes the formulas again after they were worked out, where what they are depends on what came out. */
  readonly again?: (outcomes: readonly Outcome[]) => readonly string[] | undefined;
}

/** Results spill into cells that other formulas read, so a sheet is worked out until it stands still. */
const MOST_PASSES = 60;
/** A sheet that depends on the clock or on chance never does. */
const MOST_PASSES_BY_CHANCE = 4;

/** Works out formulas as typed in a cell ("=YARN.COUNT(10,"NeC","NeW")"), in order, whatever fails. */
export function evaluate(formulas: readonly string[], functions: Implementations): Outcome[] {
  const outcomes: Outcome[] = formulas.map(() => null);
  const sound: Pending[] = [];
  const indexes: number[] = [];
  const grid = new Grid();
  // Each formula has a sheet to itself, so that none spills over another and none reads another.
  formulas.forEach((typed, index) => {
    const formula = typed.trim().replace(/^=/, "");
    const fault = syntaxFault(formula, functions);
    if (fault) outcomes[index] = fault;
    else {
      const sheet = `Sheet${index + 1}`;
      sound.push({ sheet, cell: grid.addSheet(sheet).getCell(1, 1), formula, spills: true });
      indexes.push(index);
    }
  });
  workedOut(grid, sound, functions).forEach((outcome, position) => {
    outcomes[indexes[position] as number] = outcome;
  });
  return outcomes;
}

/** All at once, or, when one of them brings the engine down, each alone. */
function workedOut(grid: Grid, pending: readonly Pending[], functions: Implementations): Outcome[] {
  try {
    return calculate(grid, pending, functions);
  } catch (fault) {
    if (pending.length === 1) {
      return [new CellError("#VALUE!", `the formula could not be worked out: ${(fault as Error).message}`)];
    }
    return pending.flatMap((one) => {
      const alone = new Grid();
      return workedOut(alone, [{ ...one, cell: alone.addSheet(one.sheet).getCell(1, 1) }], functions);
    });
  }
}

/** Works out every pending formula of a grid; the results are in the order of the formulas. */
export function calculate(
  grid: Grid,
  pending: readonly Pending[],
  functions: Implementations,
  { inOrder = false, again }: Known = {},
): Outcome[] {
  const caught: (Running | undefined)[] = [];
  const filling = pending.map(({ spills }) => spills);
  registerAll(grid, functions, caught, filling);
  if (inOrder) fillAsIsLikely(grid, pending);
  const readsFormulas = pending.some(({ formula }) => /\bFORMULATEXT\s*\(/i.test(formula));
  const write = (formulas: readonly string[]) =>
    pending.forEach(({ cell, spills, confined }, index) => {
      const formula = formulas[index] as string;
      cell.spills = spills;
      // The formula is wrapped in a call that catches its value, because the engine writes back codes without messages.
      // A subtotal must stay outermost, where an enclosing subtotal recognises it.
      const bare = !spills && (readsFormulas || /^\s*(SUBTOTAL|AGGREGATE)\s*\(/i.test(formula));
      const { height, width } = confined ?? { height: 0, width: 0 };
      cell.formula = bare ? formula : `CAUGHT(${index},${height},${width},(${formula}))`;
    });
  write(pending.map(({ formula }) => formula));

  let before: Outcome[] | undefined;
  const byChance = pending.some(({ formula }) => /\b(NOW|RAND|RANDBETWEEN|RANDARRAY)\s*\(/i.test(formula));
  for (let pass = 1; pass <= (byChance ? MOST_PASSES_BY_CHANCE : MOST_PASSES); pass++) {
    caught.length = 0;
    workOutOnce(grid);
    const outcomes = pending.map((formula, index) => outcomeIn(formula, caught[index]));
    const settled = fillTheSame(pending, outcomes);
    const anew = again?.(outcomes);
    if (anew !== undefined) write(anew);
    else {
      const spilled = outcomes.some((outcome) => Array.isArray(outcome));
      if (settled && (inOrder || !spilled)) return outcomes;
      if (before !== undefined && same(before, outcomes)) return outcomes;
    }
    before = outcomes;
  }
  return before as Outcome[];
}

function workOutOnce(grid: Grid): void {
  keepingEveryFormula(grid, () => calculateFormulas(grid as unknown as Parameters<typeof calculateFormulas>[0]));
}

/** Does each result fill the cells that it filled before? Notes which they are. */
function fillTheSame(pending: readonly Pending[], outcomes: readonly Outcome[]): boolean {
  let settled = true;
  pending.forEach(({ cell }, index) => {
    const now = filledBy(outcomes[index] as Outcome);
    settled &&= cell.height === now.height && cell.width === now.width;
    Object.assign(cell, now);
  });
  return settled;
}

/** A file may claim an area of a whole sheet. */
const MOST_LIKELY = 100_000;

/**
 * The engine orders formulas by the cells that each filled when the same sheets were last worked out. So blanks are put
 * where results are likely to stand, which costs little, and the formulas are in order the first time.
 */
function fillAsIsLikely(grid: Grid, pending: readonly Pending[]): void {
  const wide = pending.filter(
    ({ cell, spills, likely }) =>
      spills && likely !== undefined && likely.height * likely.width > 1 && cell.height * cell.width === 1,
  );
  const cells = wide.reduce((sum, { likely = { height: 1, width: 1 } }) => sum + likely.height * likely.width, 0);
  if (wide.length === 0 || cells > MOST_LIKELY) return;
  for (const { cell, likely } of wide) {
    cell.spills = true;
    cell.formula = `BLANKS(${likely?.height},${likely?.width})`;
  }
  workOutOnce(grid);
  for (const { cell, likely } of wide) if (!(writtenIn(cell) instanceof CellError)) Object.assign(cell, likely);
}

/**
 * The engine parses all formulas into a cache that holds ten thousand and then looks each up, so that the first of a
 * larger book are lost and come out as #NAME?. It makes the cache for a grid once, on the first calculation: there its
 * limit is lifted, by a cache that never calls itself full.
 */
function keepingEveryFormula(grid: Grid, work: () => void): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- it is called with the map below
  const original = WeakMap.prototype.set;
  WeakMap.prototype.set = function (this: WeakMap<WeakKey, unknown>, key: WeakKey, value: unknown) {
    if (key === grid && value instanceof Map) {
      WeakMap.prototype.set = original;
      Object.defineProperty(value, "size", { get: () => 0 });
    }
    return original.call(this, key, value);
  };
  try {
    work();
  } finally {
    WeakMap.prototype.set = original;
  }
}

/** What stands in a cell after a calculation. */
function outcomeIn({ cell, spills }: Pending, caught: Running | undefined): Outcome {
  const written = writtenIn(cell);
  if (caught === undefined && cell.result === undefined) return NOT_WORKED_OUT;
  if (caught !== undefined && caught.kind > LAST_KIND_OF_VALUE) return NOT_A_VALUE;
  if (typeof written === "string" && written.length > LONGEST_TEXT) return valueOf({ kind: 2, value: written });
  if (!(written instanceof CellError)) return spills && caught && "rows" in caught ? outcomeOf(caught) : written;
  if (spills && caught && "rows" in caught) {
    return written.code === "#SPILL!"
      ? new CellError("#SPILL!", `${caught.height}×${caught.width} cells are needed and some are not empty`)
      : outcomeOf(caught);
  }
  return new CellError(written.code, messageFor(written.code, caught));
}

const NOT_WORKED_OUT = new CellError("#VALUE!", "the formula could not be worked out");
const NOT_A_VALUE = new CellError("#CALC!", "the formula gives a function, not a value");

function writtenIn({ result }: GridCell): Value {
  // A formula that gives a blank shows 0.
  if (result === undefined || result === null) return 0;
  if (typeof result === "string") return withNumbersShown(result);
  if (typeof result !== "object") return result;
  return "error" in result ? new CellError(result.error) : 0;
}

function messageFor(code: string, caught: Running | undefined): string {
  const candidates = caught === undefined ? [] : "rows" in caught ? caught.rows.flat() : [caught];
  for (const value of candidates) if ("code" in value && value.code === code && value.message) return value.message;
  return code === "#NAME?" ? "the formula uses a function or a name that is not known here" : "";
}

function same(before: readonly Outcome[], after: readonly Outcome[]): boolean {
  return before.every((outcome, index) => {
    const other = rowsOf(after[index] as Outcome);
    const rows = rowsOf(outcome);
    return rows.length === other.length && rows.every((row, r) => row.every((value, c) => alike(value, other[r]?.[c])));
  });
}

function alike(one: Value, other: Value | undefined): boolean {
  return one instanceof CellError && other instanceof CellError ? one.code === other.code : Object.is(one, other);
}

/** Excel's limits. */
const LONGEST_FORMULA = 8192;
const LONGEST_TEXT = 32_767;

/** Why a formula cannot be worked out at all. */
export function syntaxFault(formula: string, functions: Implementations): CellError | undefined {
  if (formula === "") return new CellError("#VALUE!", "the formula is empty");
  if (formula.length > LONGEST_FORMULA) {
    return new CellError("#VALUE!", `the formula has ${formula.length} characters; a cell takes ${LONGEST_FORMULA}`);
  }
  for (const [, id] of formula.replace(/"[^"]*"/g, '""').matchAll(/\bYARN\.([A-Z0-9_.]+)\s*\(/gi)) {
    if (!functions.has((id as string).toUpperCase())) {
      return new CellError("#NAME?", `YARN.${(id as string).toUpperCase()} is not a function of this library`);
    }
  }
  try {
    parse(tokenize(formula));
    return undefined;
  } catch (fault) {
    const why = fault instanceof RangeError ? "it is nested too deeply" : (fault as Error).message;
    return new CellError("#VALUE!", `the formula is not well formed: ${why}`);
  }
}

/** Which of these worksheet functions the engine does not know: called without arguments, they have no name for it. */
export function unknownTo(names: readonly string[]): string[] {
  const grid = new Grid();
  const pending = names.map((name, index): Pending => {
    const sheet = `Sheet${index + 1}`;
    return { sheet, cell: grid.addSheet(sheet).getCell(1, 1), formula: `${name}()`, spills: true };
  });
  const outcomes = calculate(grid, pending, new Map());
  return names.filter((_, index) => {
    const outcome = outcomes[index];
    return outcome instanceof CellError && outcome.code === "#NAME?";
  });
}

interface OwnFunction {
  readonly name: string;
  readonly minArity: number;
  readonly maxArity: number;
  readonly invoke: Invoke;
}

let own: readonly OwnFunction[] | undefined;

/** The engine's own functions, caught where it looks them up by name: it hands them out in no other way. */
function ownFunctions(): readonly OwnFunction[] {
  if (own !== undefined) return own;
  const caught = new Map<string, OwnFunction>();
  const grid = new Grid();
  const sheet = grid.addSheet("Sheet1");
  [...LIFTED.keys(), "INDEX"].forEach((name, index) => (sheet.getCell(index + 1, 1).formula = `${name}()`));
  // eslint-disable-next-line @typescript-eslint/unbound-method -- it is called on the map that was asked
  const original = Map.prototype.get;
  Map.prototype.get = function (this: Map<unknown, unknown>, key: unknown) {
    const found: unknown = original.call(this, key);
    if (isFunctionOfEngine(found) && found.name === key) caught.set(found.name, found);
    return found;
  };
  try {
    calculateFormulas(grid as unknown as Parameters<typeof calculateFormulas>[0]);
  } finally {
    Map.prototype.get = original;
  }
  return (own = [...caught.values()]);
}

function isFunctionOfEngine(found: unknown): found is OwnFunction {
  return typeof found === "object" && found !== null && "invoke" in found && "minArity" in found && "name" in found;
}

/** Makes our functions known under the name a person types, and what the engine lacks. */
function registerAll(
  grid: Grid,
  functions: Implementations,
  caught: (Running | undefined)[],
  filling: readonly boolean[],
): void {
  const register = (name: string, invoke: (received: unknown[]) => unknown) =>
    grid.userFunctions.set(name, { minArity: 0, maxArity: 255, invoke });
  functions.forEach((implementation, id) => register(`YARN.${id}`, adapted(implementation)));
  // The engine's ROUND works on the binary value (1.005 gives 1).
  ROUNDINGS.forEach((round, name) =>
    register(name, lifted(adapted(round) as Invoke, oneValueEach) as (received: unknown[]) => unknown),
  );
  for (const { name, minArity, maxArity, invoke } of ownFunctions()) {
    const whole = LIFTED.get(name);
    grid.userFunctions.set(name, {
      minArity,
      maxArity,
      invoke: (whole === undefined ? alongOneRow(invoke) : lifted(withCriteria(name, invoke), whole)) as (
        received: unknown[],
      ) => unknown,
    });
  }
  register("TEXT", lifted((received) => textOf(received, grid), oneValueEach) as (received: unknown[]) => unknown);
  register("BLANKS", (received) => {
    const [height, width] = (received as { value: number }[]).map(({ value }) => value) as [number, number];
    const rows = Array.from({ length: height }, () => Array.from({ length: width }, (): Running => ({ kind: 0 })));
    return { kind: 5, rows, height, width };
  });
  register("CAUGHT", (received) => {
    const [index, height, width, value] = received as [
      { value: number },
      { value: number },
      { value: number },
      Running,
    ];
    const fitted =
      height.value > 0
        ? confinedTo(value, height.value, width.value)
        : filling[index.value]
          ? withoutOrigin(value)
          : value;
    caught[index.value] = fitted;
    return fitted;
  });
}

const oneValueEach = () => false;

/** The engine's TEXT lacks conditions, elapsed times and narrow numbers. */
function textOf([value, format]: readonly Running[], { properties: { date1904 } }: Grid): Running {
  const [given, pattern] = [value, format].map((one) => cellOf(one as Running) as string | number | boolean | null);
  for (const one of [value, format]) if (one !== undefined && "code" in one) return one;
  const number =
    typeof given === "string" && given.trim() !== "" && !Number.isNaN(Number(given)) ? Number(given) : given;
  const text = shownIn(String(pattern ?? ""), number ?? 0, { date1904 });
  return text === undefined ? { kind: 4, code: "#VALUE!" } : { kind: 2, value: text };
}

/**
 * An array that remembers which cells it came from is cut, for whoever reads the formula's own cell, to the row that
 * the cell stands in, as in an old formula. One that spills has its first value there.
 */
function withoutOrigin(value: Running): Running {
  if (!("rows" in value)) return value;
  const { rows, height, width } = value;
  return { kind: value.kind, rows, height, width };
}

/** An old-style array formula fills its cells: a single value fills all, what is missing is #N/A. */
function confinedTo(value: Running, height: number, width: number): Running {
  const rows = Array.from({ length: height }, (_, r) =>
    Array.from({ length: width }, (_, c): Running => {
      if (!("rows" in value)) return value;
      const row = value.rows[value.height === 1 ? 0 : r];
      return row?.[value.width === 1 ? 0 : c] ?? { kind: 4, code: "#N/A" };
    }),
  );
  return height === 1 && width === 1 ? (rows[0]?.[0] as Running) : { kind: 5, rows, height, width };
}

/** Calls one of our functions the way Excel does: ranges as rows of cells, omitted arguments as null. */
function adapted(implementation: Implementation): (received: unknown[]) => unknown {
  return (received) => {
    try {
      return running(implementation(...received.map((value) => cellsOf(value as Running))));
    } catch (thrown) {
      return runningError(thrown);
    }
  };
}

function cellsOf(value: Running): unknown[][] {
  return "rows" in value ? value.rows.map((row) => row.map(cellOf)) : [[cellOf(value)]];
}

function cellOf(value: Running): unknown {
  if ("code" in value) return { code: value.code, message: value.message };
  return "value" in value ? value.value : null;
}

function running(result: unknown): Running {
  if (!Array.isArray(result)) return runningCell(result);
  const rows = (result as unknown[][]).map((row) => row.map(runningCell));
  if (rows.length === 1 && rows[0]?.length === 1) return rows[0][0] as Running;
  return { kind: 5, rows, height: rows.length, width: rows[0]?.length ?? 0 };
}

function runningCell(cell: unknown): Running {
  if (typeof cell === "number") return { kind: 1, value: cell };
  if (typeof cell === "string") return { kind: 2, value: cell };
  if (typeof cell === "boolean") return { kind: 3, value: cell };
  // A returned null shows as 0 in Excel.
  if (cell === null || cell === undefined) return { kind: 1, value: 0 };
  return runningError(cell);
}

function runningError(thrown: unknown): Running {
  const { code, message } = thrown as { code?: unknown; message?: unknown };
  // The engine hands the object on as it is, so the message comes back with its own cell.
  return {
    kind: 4,
    code: typeof code === "string" ? code : "#VALUE!",
    message: typeof message === "string" ? message : typeof code === "string" ? "" : String(thrown),
  };
}

function outcomeOf(value: Running): Outcome {
  if (!("rows" in value)) return valueOf(value);
  if (value.height === 0 || value.width === 0) return new CellError("#CALC!", "the formula gives an empty array");
  const rows = value.rows.map((row) => row.map(valueOf));
  return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] as Value) : rows;
}

function valueOf(value: Running): Value {
  if ("code" in value) return new CellError(value.code, value.message);
  if (value.kind === 0) return 0;
  if (!("value" in value)) return NOT_A_VALUE;
  if (typeof value.value === "string") {
    return value.value.length > LONGEST_TEXT
      ? new CellError("#VALUE!", `the text has ${value.value.length} characters; a cell takes ${LONGEST_TEXT}`)
      : withNumbersShown(value.value);
  }
  return typeof value.value === "number" && !Number.isFinite(value.value) ? new CellError("#NUM!") : value.value;
}
