/** The engine's own form of a value, as far as these functions look into it. */
interface Element {
  readonly kind: number;
}
export interface Elements extends Element {
  readonly rows: readonly (readonly Element[])[];
  readonly height: number;
  readonly width: number;
}
export type Received = Element | Elements;
export type Invoke = (received: readonly Received[]) => Received;

/** Functions of which every argument is one value. */
const OF_ONE_VALUE =
  "ABS ACOS ACOSH ACOT ACOTH ADDRESS ARABIC ASC ASIN ASINH ATAN ATAN2 ATANH BASE BIN2DEC BIN2HEX BIN2OCT BITAND BITLSHIFT BITOR BITRSHIFT BITXOR CEILING CEILING.MATH CEILING.PRECISE CHAR CLEAN CODE COMBIN COMBINA CONCATENATE COS COSH COT COTH CSC CSCH DATE DATEDIF DATEVALUE DAY DAYS DAYS360 DEC2BIN DEC2HEX DEC2OCT DECIMAL DEGREES DELTA DOLLAR EDATE EOMONTH ERROR.TYPE EVEN EXACT EXP FACT FACTDOUBLE FIND FINDB FIXED FLOOR FLOOR.MATH FLOOR.PRECISE FV GESTEP HEX2BIN HEX2DEC HEX2OCT HOUR INT IPMT ISBLANK ISERR ISERROR ISEVEN ISLOGICAL ISNA ISNONTEXT ISNUMBER ISO.CEILING ISODD ISOWEEKNUM ISTEXT LEFT LEFTB LEN LENB LN LOG LOG10 LOWER MID MIDB MINUTE MOD MONTH MROUND NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NORMDIST NORMINV NORMSDIST NORMSINV NOT NPER NUMBERVALUE OCT2BIN OCT2DEC OCT2HEX ODD PERMUT PMT POWER PPMT PROPER PV QUOTIENT RADIANS RATE REPLACE REPLACEB REPT RIGHT RIGHTB ROMAN SEARCH SEARCHB SEC SECH SECOND SIGN SIN SINH SLN SQRT SQRTPI SUBSTITUTE TAN TANH TEXTAFTER TEXTBEFORE TIME TIMEVALUE TRIM TRUNC UNICHAR UNICODE UPPER VALUE WEEKDAY WEEKNUM YEAR YEARFRAC".split(
    " ",
  );

/** One number into a single row counts along it; the engine counts rows, of which there is one. */
export function alongOneRow(index: Invoke): Invoke {
  return (received) => {
    const [array, number] = received;
    const isRow = array !== undefined && "rows" in array && array.height === 1 && array.width > 1;
    return isRow && number !== undefined && received.length === 2 ? index([array, FIRST_ROW, number]) : index(received);
  };
}

const FIRST_ROW: Element & { readonly value: number } = { kind: 1, value: 1 };

/** Functions that take some arguments whole, counted from 0; of all others each is one value. */
const WITH_RANGES: Readonly<Record<string, (argument: number) => boolean>> = {
  ...taking([0], "COUNTIF LARGE PERCENTILE PERCENTILE.INC PERCENTILE.EXC QUARTILE QUARTILE.INC QUARTILE.EXC SMALL"),
  ...taking([1], "MATCH VLOOKUP HLOOKUP XMATCH RANK RANK.EQ RANK.AVG"),
  ...taking([0, 2], "SUMIF AVERAGEIF"),
  ...taking([1, 2], "LOOKUP FORECAST FORECAST.LINEAR"),
  ...taking([1, 2, 3], "XLOOKUP"),
  ...taking([2], "NETWORKDAYS WORKDAY"),
  ...taking([3], "NETWORKDAYS.INTL WORKDAY.INTL"),
  COUNTIFS: (argument) => argument % 2 === 0,
  ...named("SUMIFS AVERAGEIFS MAXIFS MINIFS", (argument) => argument === 0 || argument % 2 === 1),
};

/** The functions that a worksheet applies to every cell of an array, where the engine looks at the first only. */
export const LIFTED: ReadonlyMap<string, (argument: number) => boolean> = new Map([
  ...OF_ONE_VALUE.map((name) => [name, () => false] as const),
  ...Object.entries(WITH_RANGES),
]);

function named(names: string, whole: (argument: number) => boolean): Record<string, (argument: number) => boolean> {
  return Object.fromEntries(names.split(" ").map((name) => [name, whole]));
}

function taking(whole: readonly number[], names: string): Record<string, (argument: number) => boolean> {
  return named(names, (argument) => whole.includes(argument));
}

/** The function for one value an argument, or for every cell of arrays, each of which fits the largest. */
export function lifted(work: Invoke, whole: (argument: number) => boolean): Invoke {
  return (received) => {
    const spread = received.map((value, argument) => !whole(argument) && isSpread(value));
    if (!spread.includes(true)) return work(received);
    const arrays = received.filter((_, argument) => spread[argument]) as Elements[];
    const height = Math.max(...arrays.map((array) => array.height));
    const width = Math.max(...arrays.map((array) => array.width));
    const rows = Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (_, column) => {
        const each = received.map((value, argument) =>
          spread[argument] ? cellOf(value as Elements, row, column) : value,
        );
        return each.includes(MISSING) ? MISSING : firstOf(work(each));
      }),
    );
    // Where an array came from stays known, so that a plain cell can choose its own row of it.
    const origin = arrays.find((array) => array.height === height && array.width === width);
    return { ...(origin ?? { kind: (arrays[0] as Elements).kind }), rows, height, width };
  };
}

const MISSING: Element & { readonly code: string } = { kind: 4, code: "#N/A" };

function isSpread(value: Received): boolean {
  return "rows" in value && value.height * value.width > 1;
}

function cellOf({ rows, height, width }: Elements, row: number, column: number): Element {
  return rows[height === 1 ? 0 : row]?.[width === 1 ? 0 : column] ?? MISSING;
}

/** A value alone, or the first of several. */
export function firstOf(value: Received): Element {
  return "rows" in value ? (value.rows[0]?.[0] ?? MISSING) : value;
}
