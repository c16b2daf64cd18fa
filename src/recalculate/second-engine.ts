import { createRequire } from "node:module";
import type * as Core from "@univerjs/core";
import type * as Engine from "@univerjs/engine-formula";
import type { Implementation, Implementations } from "./bundle";
import type { Pending } from "./engine";
import { outsideQuotes } from "./formula-text";
import type { Content, Grid } from "./grid";
import { withNumbersShown } from "./numbers-in-text";
import { ROUNDINGS } from "./rounding";
import { CellError, rowsOf, type Outcome, type Value } from "./values";

/**
 * The one file that knows the second calculation engine, which is another program altogether: where both give the same,
 * it is no quirk of either. It is slower to load than to calculate, so it is loaded when it is asked.
 */

interface Modules {
  readonly core: typeof Core;
  readonly engine: typeof Engine;
}

let loaded: Modules | false | undefined;

function modules(): Modules | undefined {
  if (loaded === undefined) {
    const require = createRequire(import.meta.url);
    try {
      loaded = {
        core: require("@univerjs/core") as typeof Core,
        engine: require("@univerjs/engine-formula") as typeof Engine,
      };
    } catch {
      // It is no part of the functions, and where it was left out one engine does.
      loaded = false;
    }
  }
  return loaded || undefined;
}

/** Is it installed? It is not loaded for that. */
export function hasSecondEngine(): boolean {
  try {
    createRequire(import.meta.url).resolve("@univerjs/engine-formula");
    return true;
  } catch {
    return false;
  }
}

/** Sheets laid out once, on which formulas are worked out one by one: none sees what another gives. */
export interface Laid {
  /** What a formula gives; nothing where this engine has no answer either. */
  readonly workedOut: (pending: Pending) => Outcome | undefined;
  readonly put: (sheet: string, row: number, column: number, value: Content) => void;
  readonly forget: () => void;
}

const BOOK = "book";

export function laidOut(grid: Grid, functions: Implementations): Laid | undefined {
  const found = modules();
  // It counts days from 1900 only.
  if (found === undefined || grid.properties.date1904) return undefined;
  const { core, engine } = found;
  const univer = new core.Univer({ logLevel: core.LogLevel.SILENT, locale: core.LocaleType.EN_US });
  univer.registerPlugin(engine.UniverFormulaEnginePlugin);
  univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, snapshotOf(grid, core));
  const injector = univer.__getInjector();
  const lexer = injector.get(engine.Lexer);
  const builder = injector.get(engine.AstTreeBuilder);
  const interpreter = injector.get(engine.Interpreter);
  const runtime = injector.get(engine.IFormulaRuntimeService);
  const current = injector.get(engine.IFormulaCurrentConfigService);
  const known = injector.get(engine.IFunctionService);
  registerAll(known, engine, functions);
  current.load({
    formulaData: {},
    arrayFormulaCellData: {},
    arrayFormulaRange: {},
    forceCalculate: false,
    dirtyRanges: [],
    dirtyNameMap: {},
    dirtyDefinedNameMap: {},
    dirtyUnitFeatureMap: {},
    dirtyUnitOtherFormulaMap: {},
    clearDependencyTreeCache: {},
    excludedCell: {},
    allUnitData: {},
  });
  const identities = new Map(grid.worksheets.map(({ id, name }) => [name.toLowerCase(), `sheet${id}`]));
  const identityOf = (sheet: string) => identities.get(sheet.toLowerCase()) ?? "";
  const forgetRanges = () => {
    engine.FORMULA_REF_TO_ARRAY_CACHE.clear();
    engine.CELL_INVERTED_INDEX_CACHE.clear();
  };
  forgetRanges();

  return {
    workedOut: ({ sheet, cell, formula, spills, confined }) => {
      const identity = identityOf(sheet);
      try {
        const { rowCount, columnCount } = current.getSheetRowColumnCount(BOOK, identity);
        runtime.setCurrent(cell.row - 1, cell.col - 1, rowCount, columnCount, identity, BOOK);
        const node = lexer.treeBuilder(`=${withPlainNumbers(formula)}`);
        if (!(node instanceof engine.LexerNode)) return undefined;
        const tree = builder.parse(node);
        if (tree === null || tree === undefined) return undefined;
        const result: unknown = interpreter.execute(engine.generateExecuteAstNodeData(tree));
        const outcome = outcomeOf(result as Result);
        if (confined !== undefined) return fitted(outcome, confined.height, confined.width);
        // A plain cell shows one value of a range, which this engine does not choose.
        return Array.isArray(outcome) && !spills ? undefined : outcome;
      } catch {
        return undefined;
      }
    },
    put: (sheet, row, column, value) => {
      current.getUnitData()[BOOK]?.[identityOf(sheet)]?.cellData.setValue(row - 1, column - 1, stored(value, core));
      forgetRanges();
    },
    forget: () => {
      forgetRanges();
      univer.dispose();
    },
  };
}

/** Numbers as they are typed; the arrays in braces, which hold no quotient, are passed over. */
const NUMBERS = /\{[^}]*\}|(?<![\p{L}\p{N}_.$!])(?:\d*\.?\d+|\d+\.)(?:E[-+]?\d+)?(?![\p{L}\p{N}_.(!:])/giu;

/** A number that JavaScript writes with an exponent ("1e-9") is a text to this engine, so it is written as a quotient. */
function withPlainNumbers(formula: string): string {
  return outsideQuotes(formula, (piece) =>
    piece.replace(NUMBERS, (typed) => {
      const [digits, exponent] = String(Number(typed)).split("e-");
      return exponent === undefined ? typed : `(${digits}/1${"0".repeat(Number(exponent))})`;
    }),
  );
}

/**
 * A whole column has as many rows as the sheet, and a cell beyond the last row is taken for a name: so there is room
 * beside what is used, and not a million rows of it.
 */
const SPARE = 200;

function snapshotOf(grid: Grid, core: typeof Core): Partial<Core.IWorkbookData> {
  const sheets = grid.worksheets.map((sheet) => {
    const cellData: Record<number, Record<number, Core.ICellData>> = {};
    const rowData: Record<number, Partial<Core.IRowData>> = {};
    sheet.eachRow((row: { hidden: boolean; eachCell: (visit: unknown) => void }, number: number) => {
      if (row.hidden) rowData[number - 1] = { hd: core.BooleanNumber.TRUE };
      const cells: Record<number, Core.ICellData> = {};
      row.eachCell((cell: { value: Content }, column: number) => {
        if (cell.value !== null) cells[column - 1] = stored(cell.value, core);
      });
      cellData[number - 1] = cells;
    });
    const { bottom, right } = sheet.dimensions ?? { bottom: 1, right: 1 };
    const identity = `sheet${sheet.id}`;
    return { id: identity, name: sheet.name, rowCount: bottom + SPARE, columnCount: right + SPARE, cellData, rowData };
  });
  return {
    id: BOOK,
    name: BOOK,
    sheetOrder: sheets.map(({ id }) => id),
    sheets: Object.fromEntries(sheets.map((sheet) => [sheet.id, sheet])),
  };
}

function stored(value: Content, { CellValueType }: typeof Core): Core.ICellData {
  if (value === null) return {};
  if (typeof value === "number") return { v: value, t: CellValueType.NUMBER };
  if (typeof value === "boolean") return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
  return { v: typeof value === "string" ? value : value.error, t: CellValueType.STRING };
}

/** What the engine hands about, as far as it is looked into here. */
interface Result {
  isReferenceObject(): boolean;
  isArray(): boolean;
  isError(): boolean;
  isNull(): boolean;
  isValueObject(): boolean;
  isLambda?(): boolean;
  getValue(): unknown;
  getErrorType(): string;
  getErrorContent(): string;
  getArrayValue(): (Result | null | undefined)[][];
  toArrayValueObject(): Result;
}

function outcomeOf(result: Result): Outcome {
  if (result.isReferenceObject()) return outcomeOf(result.toArrayValueObject());
  if (!result.isArray()) return valueOf(result);
  const rows = result.getArrayValue().map((row) => Array.from(row, valueOf));
  return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] as Value) : rows;
}

function valueOf(result: Result | null | undefined): Value {
  if (result === null || result === undefined || result.isNull()) return 0;
  if (result.isError()) return new CellError(result.getErrorType(), result.getErrorContent());
  const value = result.getValue();
  if (typeof value === "string") return withNumbersShown(value);
  if (typeof value === "number" && !Number.isFinite(value)) return new CellError("#NUM!");
  return typeof value === "number" || typeof value === "boolean" ? value : new CellError("#CALC!");
}

/** An old-style array formula fills its cells: a single value fills all, what is missing is #N/A. */
function fitted(outcome: Outcome, height: number, width: number): Outcome {
  const given = rowsOf(outcome);
  const rows = Array.from({ length: height }, (_, r) =>
    Array.from({ length: width }, (_, c): Value => {
      const row = given[given.length === 1 ? 0 : r];
      const value = row?.[row.length === 1 ? 0 : c];
      return value === undefined ? new CellError("#N/A") : value;
    }),
  );
  return height === 1 && width === 1 ? (rows[0]?.[0] as Value) : rows;
}

type Variant = Engine.BaseValueObject;

/** Its own functions, and ours under the names that a person types. */
function registerAll(known: Engine.IFunctionService, engine: typeof Engine, functions: Implementations): void {
  const own = [
    engine.functionArray,
    engine.functionCompatibility,
    engine.functionDatabase,
    engine.functionDate,
    engine.functionEngineering,
    engine.functionFinancial,
    engine.functionInformation,
    engine.functionLogical,
    engine.functionLookup,
    engine.functionMath,
    engine.functionMeta,
    engine.functionStatistical,
    engine.functionText,
  ].flat() as [new (name: string) => Engine.BaseFunction, string][];
  known.registerExecutors(...own.map(([Made, name]) => new Made(name)));
  const register = (name: string, implementation: Implementation) => {
    const made = new engine.BaseFunction(name);
    made.calculate = (...given: Variant[]) => answered(implementation, given, engine);
    known.registerExecutors(made);
  };
  functions.forEach((implementation, id) => register(`YARN.${id}`, implementation));
  // Its own work on the binary value.
  ROUNDINGS.forEach((round, name) => register(name, round));
}

/** Calls one of our functions the way Excel does: ranges as rows of cells, omitted arguments as null. */
function answered(implementation: Implementation, given: Variant[], engine: typeof Engine): Variant {
  try {
    const result = implementation(...given.map((one) => cellsOf(one as unknown as Result)));
    if (!Array.isArray(result)) return objectOf(result, engine);
    const rows = (result as unknown[][]).map((row) => row.map((cell) => objectOf(cell, engine)));
    return new engine.ArrayValueObject({
      calculateValueList: rows,
      rowCount: rows.length,
      columnCount: rows[0]?.length ?? 0,
      unitId: "",
      sheetId: "",
      row: -1,
      column: -1,
    });
  } catch (thrown) {
    return objectOf(thrown, engine);
  }
}

function cellsOf(given: Result): unknown[][] {
  const rows = given.isArray() ? given.getArrayValue() : [[given]];
  return rows.map((row) =>
    Array.from(row, (cell) => {
      if (cell === null || cell === undefined || cell.isNull()) return null;
      return cell.isError() ? { code: cell.getErrorType(), message: cell.getErrorContent() } : cell.getValue();
    }),
  );
}

function objectOf(value: unknown, engine: typeof Engine): Variant {
  if (typeof value === "number") return engine.NumberValueObject.create(value);
  if (typeof value === "string") return engine.StringValueObject.create(value);
  if (typeof value === "boolean") return engine.BooleanValueObject.create(value);
  // A returned null shows as 0 in Excel.
  if (value === null || value === undefined) return engine.NumberValueObject.create(0);
  const { code = "#VALUE!", message = "" } = value as { code?: string; message?: string };
  return engine.ErrorValueObject.create(code as Engine.ErrorType, message);
}
