import { CellError, shownAs, type Value } from "../../src/recalculate/values";
import { COUNT_SYSTEMS } from "../../src/tables/count-systems";
import { TWIST_CONVENTIONS } from "../../src/tables/twist-conventions";
import { TWIST_UNITS } from "../../src/tables/twist-units";
import { YIELD_KINDS } from "../../src/tables/yield-kinds";

/** Nothing is a dash: a column of zeros hides the figures among them. */
const orNone = (format: string) => `${format};-${format};"–"`;

/** How a column or a cell shows its numbers. */
export const FORMATS = {
  whole: "#,##0",
  /** A whole number of which none is nothing, as of lots. */
  wholeOrNone: orNone("#,##0"),
  kg: orNone("#,##0.0"),
  hours: orNone("#,##0.0"),
  kg3: orNone("#,##0.000"),
  /** A mass on the scale, in kg. */
  weighed: orNone("#,##0.00"),
  money: orNone("#,##0.00"),
  price: orNone("#,##0.0000"),
  percent: orNone("0.00%"),
  percent1: orNone("0.0%"),
  percent4: orNone("0.0000%"),
  /** A regain of 0 is a regain. */
  percentOrZero: "0.00%",
  /** How likely something is by chance. */
  chance: '[<0.0001]"< 0.0001";0.0000',
  tiny: "0E+00",
  decimal: "0.00",
  decimal1: "#,##0.0",
  /** Counts lie anywhere between thousandths and millions. */
  count: "[<1]0.0000;[<1000]#,##0.00;#,##0",
  date: "yyyy-mm-dd",
  /** The day of the month. */
  day: "d",
  text: "@",
  /** What is seen of the cell is its colour. */
  unseen: ";;;",
} as const;

export type Format = keyof typeof FORMATS;

/** The same for an axis, which has its zero. */
export function withZero(format: Format): string {
  return FORMATS[format].split(";")[0] as string;
}

/** Words that a person may choose from; or where they stand in the book, as a formula that starts with "=". */
export type Choices = readonly string[] | string;

/** Words that a person may choose from, as the functions know them. */
export const WORDS = {
  count: COUNT_SYSTEMS.map(({ word }) => word),
  twist: TWIST_UNITS.map(({ word }) => word),
  twistConvention: TWIST_CONVENTIONS.map(({ word }) => word),
  yieldKind: YIELD_KINDS.map(({ word }) => word),
} as const;

/** A file holds no longer list of choices than this. */
const LONGEST_CHOICES = 255;

/** What a cell takes: one of the words, or a number that its format makes sense of. */
export function validationFor(format: Format | undefined, choices: Choices | undefined) {
  const refusal = { allowBlank: true, showErrorMessage: true, errorStyle: "stop", errorTitle: "Input" } as const;
  if (choices) {
    return {
      ...refusal,
      type: "list",
      formulae: [typeof choices === "string" ? choices.slice(1) : listed(choices)],
      error: "Choose one of the words of the list.",
    } as const;
  }
  if (format?.startsWith("percent"))
    return {
      ...refusal,
      type: "decimal",
      operator: "between",
      formulae: [-1, 1],
      error: "A share from -100 % to 100 %: type 18.25% or 0.1825.",
    } as const;
  if (format === undefined || format === "text" || format === "date") return undefined;
  return {
    ...refusal,
    type: "decimal",
    operator: "greaterThanOrEqual",
    formulae: [0],
    error: "A number, 0 or more, in the unit of the heading.",
  } as const;
}

function listed(choices: readonly string[]): string {
  const list = choices.join(",");
  if (list.length > LONGEST_CHOICES || choices.some((word) => word.includes(",")))
    throw new Error(`too much to choose from: ${list}`);
  return `"${list}"`;
}

/** A heading over numbers names their unit in brackets; a percent is its own unit. */
export function mustNameUnit(header: string, format: Format | undefined): void {
  const unitless =
    format === undefined || format.startsWith("percent") || ["text", "date", "unseen", "chance"].includes(format);
  if (!unitless && !/\(.+\)/.test(header)) throw new Error(`"${header}" names no unit`);
}

/** How many characters a value takes in its cell. */
export function lengthShown(value: Value | Date, format: Format | undefined): number {
  if (value instanceof Date || format === "date") return 10;
  if (typeof value !== "number" || format === undefined) {
    return typeof value === "number"
      ? Math.min(shownAs(value).length, 9)
      : value instanceof CellError
        ? 7
        : shownAs(value).length;
  }
  const decimals = /\.(0+)/.exec(FORMATS[format])?.[1]?.length ?? 0;
  if (format.startsWith("percent")) return (value * 100).toFixed(decimals).length + 1;
  return value.toLocaleString("en-GB", { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).length;
}
