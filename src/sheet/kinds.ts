import { DIGITS_SHOWN } from "../trade/decimal";
import { refuse, saying, type RefusalKind } from "../trade/refusal";
import { isBlank, shown, type Cell } from "./cells";
import { meaningOf, refusalOf, refuseNoWord, type Vocabulary } from "./words";

/** Reads one cell that is not blank and holds no error value; refuses what is not of its kind. */
export interface Kind<T> {
  (cell: Cell, argument: string): T;
  /** The least and the most of the numbers that stand for themselves: a long column of them need not be read one by one. */
  readonly plain?: readonly [least: number, most: number] | undefined;
  /** How a cell will be refused, where that can be told without reading it. */
  readonly refusalOf?: (cell: Cell) => RefusalKind | undefined;
}

/** Is the cell a number that need not be read by its kind? */
export function standsForItself(cell: Cell, { plain }: Pick<Kind<unknown>, "plain">): boolean {
  return plain !== undefined && typeof cell === "number" && cell >= plain[0] && cell <= plain[1];
}

function numberIn(cell: Cell, argument: string, allowed: string): number {
  if (typeof cell === "number" && Number.isFinite(cell)) return cell;
  const came = shown(cell);
  const advice = typeof cell === "string" ? asNumber(cell) : undefined;
  const advised = `${allowed}; ${advice}`;
  // A message that is too long is cut, and half an advice is none.
  const fits = advice !== undefined && saying(argument, came, advised).endsWith(advice);
  return refuse(argument, came, fits ? advised : allowed);
}

const POINT_DECIMAL = /^[-+]?(\d+|[1-9]\d{0,2}(,\d{3})+|[1-9]\d{0,2}( \d{3})+)(\.\d+)?\s?%?$/;
const COMMA_DECIMAL = /^[-+]?(\d+|[1-9]\d{0,2}(\.\d{3})+|[1-9]\d{0,2}( \d{3})+)(,\d+)?\s?%?$/;

/** How to make a number of a text that reads as one; a text that reads as two is never converted for the caller. */
function asNumber(written: string): string | undefined {
  const trimmed = written.trim();
  const point = POINT_DECIMAL.test(trimmed);
  const comma = COMMA_DECIMAL.test(trimmed);
  if (point && comma && /[.,]/.test(trimmed)) return "type it as a number";
  if (point) return 'NUMBERVALUE(…,".",",") makes it one';
  return comma ? 'NUMBERVALUE(…,",",".") makes it one' : undefined;
}

/** Does a text read as a number, such as "36,5"? */
export function readsAsNumber(written: string): boolean {
  return asNumber(written) !== undefined;
}

/** Would the kind take this cell? */
export function accepts(kind: Kind<unknown>, cell: Cell): boolean {
  try {
    kind(cell, "");
    return true;
  } catch {
    return false;
  }
}

/** A number that passes a test; `allowed` is what the message says is wanted. */
export function numberThat(allowed: string, test: (value: number) => boolean): Kind<number> {
  return tested((value) => value, allowed, test);
}

/** A number, as what it stands for, that passes a test. */
function tested(of: (value: number) => number, allowed: string, test: (value: number) => boolean): Kind<number> {
  const read: Kind<number> = (cell, argument) => {
    const value = of(numberIn(cell, argument, allowed));
    return test(value) ? value : refuse(argument, String(cell), allowed);
  };
  return taking((value) => test(of(value)), read);
}

/** A kind that takes the numbers that pass a test and nothing else. */
function taking(test: (value: number) => boolean, read: Kind<number>): Kind<number> {
  const taken = (cell: Cell): boolean => typeof cell === "number" && Number.isFinite(cell) && test(cell);
  return Object.assign(read, { refusalOf: (cell: Cell) => (taken(cell) ? undefined : "argument") });
}

/** The same for all numbers between two, which stand for themselves. */
function takingBetween(least: number, most: number, read: Kind<number>): Kind<number> {
  const kind = taking((value) => value >= least && value <= most, read);
  return Object.assign(kind, { plain: [least, most] as const });
}

/** A number from `least` on. */
function numberFrom(least: number, allowed: string): Kind<number> {
  const read = numberThat(allowed, (value) => value >= least);
  return Object.assign(read, { plain: [least, Number.MAX_VALUE] as const });
}

/** A number within limits that belong to the argument. */
export function numberBetween(least: number, most: number, allowed: string): Kind<number> {
  const read = numberThat(allowed, (value) => value >= least && value <= most);
  return Object.assign(read, { plain: [least, most] as const });
}

export const anyNumber = numberFrom(-Number.MAX_VALUE, "must be a number");
export const positive = numberFrom(Number.MIN_VALUE, "must be a number above 0");
export const notNegative = numberFrom(0, "must be a number, 0 or more");
/** A whole number as its cell shows it: 4.35*100 is 435, though the double is a trace below it. */
export function wholeThat(allowed: string, test: (value: number) => boolean): Kind<number> {
  return tested(wholeShown, allowed, (value) => Number.isInteger(value) && test(value));
}

function wholeShown(value: number): number {
  return Number.isInteger(value) ? value : Number(value.toPrecision(DIGITS_SHOWN));
}

export const wholeNumber = wholeThat("must be a whole number, 1 or more", (value) => value >= 1);
/** How many decimals to round to; the sheet's own ROUND takes negative ones too. */
export const decimalPlaces = wholeThat("must be a whole number from -9 to 9", (value) => value >= -9 && value <= 9);

/**
 * A fraction (0.1825 is what a cell that shows 18.25 % holds). A number beyond `most` that can only be a percent
 * typed whole is answered with how to write it, if that would be taken. Where more than 100 % is allowed, a number up
 * to 2 is likelier a fraction that is too large.
 */
export function fraction(least: number, most: number, allowed: string, open = false): Kind<number> {
  const within = (value: number): boolean => value >= least && (open ? value < most : value <= most);
  const howTo = (percent: number): string => `write ${shortly(percent)}% or ${shortly(percent / 100)}; ${allowed}`;
  const read = (cell: Cell, argument: string): number => {
    const value = numberIn(cell, argument, allowed);
    if (within(value)) return value;
    if (value >= 1 && within(value / 100) && !(most > 1 && value <= 2)) refuse(argument, String(value), howTo(value));
    // A percent sign behind a fraction: 0.724% for 72.4%.
    if (within(value * 100)) refuse(argument, String(value), howTo(value * 10000));
    return refuse(argument, String(value), allowed);
  };
  return open ? taking(within, read) : takingBetween(least, most, read);
}

function shortly(value: number): number {
  return Number(value.toPrecision(12));
}

/** A rate that is small by nature: even a number below 1 can only be a percent typed whole. */
export function percentOf(most: number, allowed: string): Kind<number> {
  return takingBetween(0, most, (cell, argument) => {
    const value = numberIn(cell, argument, allowed);
    if (value >= 0 && value <= most) return value;
    const whole = value / 100;
    if (whole < 0 || whole > most) return refuse(argument, String(value), allowed);
    return refuse(argument, String(value), `write ${value}% or ${shortly(whole)}; ${allowed}`);
  });
}

/** A share of a whole: 0 to 1. */
export const share = fraction(0, 1, "must be 0 to 1 (0% to 100%)");
/** A share of something that is there. */
export const shareAboveZero = fraction(Number.MIN_VALUE, 1, "must be above 0 and at most 1 (100%)");
/** A loss may be negative, when a stage takes something up, but less than everything. */
export const loss = fraction(-1, 1, "must be below 1 (100%) and not below -1", true);
/** Moisture regain: water on dry mass. */
export const regain = fraction(0, 1, "must be 0 to 1 (0% to 100%)");
/** A regain that a contract, a label or a law states: none passes that of wool by much; common practice, no source. */
export const standardRegain = fraction(0, 0.3, "must be 0 to 0.3 (30%), as standard regains are");
/** Vegetable matter in greasy wool; more is no wool lot but a percentage of something else. */
export const vegetableMatter = fraction(0, 0.3, "must be 0 to 0.3 (0% to 30%)");
/** Noil on top and noil: combing leaves more top than noil. */
export const noilShare = fraction(0, 0.5, "must be 0 to 0.5 (0% to 50%)");
/** Clean yield: no wool yields less, and conditioned yields can pass 100 %; common practice, no source. */
export const cleanYield = fraction(0.1, 1.5, "must be 0.1 to 1.5 (10% to 150%)");
const FIBRES_VARY = "must be 0 to 1 (100%), the deviation over the mean";
/**
 * Coefficient of variation of fibre diameter: even an unsorted fleece with its guard hair stays below 1, and no fibre is
 * so even that a 5.2 could be 5.2%; it is a deviation in micron, or a density. Common practice, no source.
 */
export const diameterVariation = takingBetween(0, 1, (cell, argument) => {
  const isPercent = typeof cell === "number" && cell >= 10;
  return isPercent ? PERCENT_OF_FIBRES(cell, argument) : FRACTION_OF_FIBRES(cell, argument);
});
const PERCENT_OF_FIBRES = fraction(0, 1, FIBRES_VARY);
const FRACTION_OF_FIBRES = numberBetween(0, 1, FIBRES_VARY);
/** Coefficient of variation. */
export const variation = fraction(0, 2, "must be 0 to 2 (0% to 200%)");
/** Change of length in twisting, negative when the yarn gets longer; common practice, no source. 0.5 is 0.5% typed whole. */
export const takeUp = fraction(-0.4, 0.4, "must be -0.4 to 0.4 (40%); 0.5% is 0.005");
/** A rate on a value: 0.05 is 5 %. */
export const rate = fraction(0, 10, "must be 0 to 10 (0% to 1000%)");

export const text: Kind<string> = (cell, argument) => {
  if (typeof cell === "string") return cell.trim();
  return typeof cell === "number" && Number.isFinite(cell)
    ? String(cell)
    : refuse(argument, shown(cell), "must be text");
};

export const truth: Kind<boolean> = (cell, argument) => {
  if (typeof cell === "boolean") return cell;
  return cell === 1 || cell === 0 ? cell === 1 : refuse(argument, shown(cell), "must be TRUE or FALSE");
};

/** One word of a closed set. A column of the same word is looked up once, and so is one of the same wrong word. */
export function word<T>(words: Vocabulary<T>): Kind<T> {
  let lastText: string | undefined;
  let lastMeaning: T;
  const read: Kind<T> = (cell, argument) => {
    if (cell === lastText && lastText !== undefined) return lastMeaning;
    if (typeof cell !== "string") refuseNoWord(words, shown(cell), argument);
    lastMeaning = meaningOf(words, cell, argument);
    lastText = cell;
    return lastMeaning;
  };
  return Object.assign(read, {
    refusalOf: (cell: Cell) => (typeof cell === "string" ? refusalOf(words, cell) : "argument"),
  });
}

/** Either of two kinds, told apart by whether the cell holds a number: a factor or the name of a rule. */
export function numberOr<T>(whenNumber: Kind<number>, otherwise: Kind<T>): Kind<number | T> {
  return (cell, argument) => (typeof cell === "number" ? whenNumber(cell, argument) : otherwise(cell, argument));
}

/** Inside a table: a cell that may stay blank, and what it then means. */
export function blankIs<T>(kind: Kind<T>, fallback: T): Kind<T> {
  const read: Kind<T> = (cell, argument) => (isBlank(cell) ? fallback : kind(cell, argument));
  MAY_BE_BLANK.add(read);
  return kind.plain ? Object.assign(read, { plain: kind.plain }) : read;
}

/** A column where 0 can only be a blank: desktop Excel hands blank cells of a range over as 0. */
export function blankOrZero<T, F>(kind: Kind<T>, fallback: F): Kind<T | F> {
  return blankIs<T | F>((cell, argument) => (cell === 0 ? fallback : kind(cell, argument)), fallback);
}

const MAY_BE_BLANK = new WeakSet<Kind<unknown>>();

export function mayBeBlank(kind: Kind<unknown>): boolean {
  return MAY_BE_BLANK.has(kind);
}
