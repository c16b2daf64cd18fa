/**
 * Values as a cell shows them: number formats of ECMA-376 part 1, 18.8.31, in the English of Excel, without colours and
 * without widths. Where the standard says nothing, what spreadsheet programs saved decides (tests/number-format.test.ts).
 */

export interface Shown {
  /** Does the workbook count its days from 1904? */
  readonly date1904?: boolean;
}

/** A number, truth or text in a number format; nothing where the format cannot show the number, as a date before 1900. */
export function shownIn(
  format: string,
  value: number | boolean | string,
  { date1904 = false }: Shown = {},
): string | undefined {
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  const sections = sectionsOf(format);
  const numbers = sections.filter((section, index) => index < 3 && !section.some(({ kind }) => kind === "text"));
  if (typeof value === "string") {
    const texts = sections[3] ?? sections.find((section) => section.some(({ kind }) => kind === "text"));
    return texts === undefined
      ? value
      : texts.map((token) => (token.kind === "text" ? value : literalOf(token))).join("");
  }
  const chosen = sectionFor(numbers.length > 0 ? numbers : sections, value);
  if (chosen === undefined) return generalText(value);
  const { section, magnitude } = chosen;
  const sign = magnitude < 0 ? "-" : "";
  if (section.some(({ kind }) => kind === "text"))
    return section.map((token) => (token.kind === "text" ? generalText(value) : literalOf(token))).join("");
  if (section.some(({ kind }) => kind === "date" || kind === "elapsed")) return dateText(section, magnitude, date1904);
  if (section.some(({ kind }) => kind === "general")) {
    return (
      sign +
      section.map((token) => (token.kind === "general" ? generalText(Math.abs(magnitude)) : literalOf(token))).join("")
    );
  }
  return sign + numberText(section, Math.abs(magnitude));
}

/** Does a format show a date or a time of day? */
export function isDateFormat(format: string): boolean {
  return sectionsOf(format)[0]?.some(({ kind }) => kind === "date" || kind === "elapsed") ?? false;
}

type Kind =
  | "literal"
  | "digit"
  | "point"
  | "comma"
  | "percent"
  | "exponent"
  | "slash"
  | "text"
  | "general"
  | "date"
  | "elapsed"
  | "condition";
interface Token {
  readonly kind: Kind;
  readonly text: string;
}
type Section = readonly Token[];

const TOKENS: readonly (readonly [Kind, RegExp])[] = [
  ["literal", /^"([^"]*)"?/],
  ["literal", /^\\([^])/],
  ["literal", /^_[^]/],
  ["literal", /^\*[^]/],
  ["elapsed", /^\[(h+|m+|s+)\]/i],
  ["condition", /^\[\s*((?:[<>]=?|<>|=)\s*-?[\d.]+(?:E[-+]?\d+)?)\s*\]/i],
  ["literal", /^\[\$([^\]-]*)(?:-[^\]]*)?\]/],
  ["literal", /^\[[^\]]*\]()/],
  ["general", /^General/i],
  ["date", /^(AM\/PM|A\/P)/i],
  ["exponent", /^(E[-+])/i],
  ["date", /^(y+|m+|d+|h+|s+(?:\.0+)?)/i],
  ["digit", /^[0#?]/],
  ["point", /^\./],
  ["comma", /^,/],
  ["percent", /^%/],
  ["slash", /^\//],
  ["text", /^@/],
  ["literal", /^([^])/],
];

const known = new Map<string, Section[]>();

function sectionsOf(format: string): Section[] {
  let sections = known.get(format);
  if (sections === undefined) {
    if (known.size > MOST_KNOWN) known.clear();
    known.set(format, (sections = readSections(format)));
  }
  return sections;
}

const MOST_KNOWN = 500;

function readSections(format: string): Section[] {
  const sections: Token[][] = [[]];
  let rest = format;
  while (rest !== "") {
    if (rest.startsWith(";")) {
      sections.push([]);
      rest = rest.slice(1);
      continue;
    }
    for (const [kind, expression] of TOKENS) {
      const found = expression.exec(rest);
      if (found === null) continue;
      rest = rest.slice(found[0].length);
      const text = found[0].startsWith("_") ? " " : found[0].startsWith("*") ? "" : (found[1] ?? found[0]);
      (sections[sections.length - 1] as Token[]).push({ kind, text });
      break;
    }
  }
  return sections.map(settled);
}

/** A fraction of seconds may follow an elapsed count, and in a section of dates digits are plain characters. */
function settled(section: Token[]): Token[] {
  if (!section.some(({ kind }) => kind === "date" || kind === "elapsed")) return section;
  const joined: Token[] = [];
  for (let at = 0; at < section.length; at++) {
    const token = section[at] as Token;
    if (token.kind === "elapsed" && /^s/i.test(token.text) && section[at + 1]?.kind === "point") {
      let places = 0;
      while (section[at + 2 + places]?.text === "0") places++;
      joined.push({ kind: "elapsed", text: `${token.text}.${"0".repeat(places)}` });
      at += 1 + places;
    } else
      joined.push(
        ["date", "elapsed", "condition"].includes(token.kind) ? token : { kind: "literal", text: token.text },
      );
  }
  return joined;
}

/** The section for a number, and the number as that section shows it: without its sign where the section stands for it. */
function sectionFor(sections: readonly Section[], value: number): { section: Section; magnitude: number } | undefined {
  const conditions = sections.map((section) => section.find(({ kind }) => kind === "condition")?.text);
  const [first, second] = conditions;
  let index: number;
  if (first === undefined && second === undefined) {
    index = value < 0 && sections.length > 1 ? 1 : value === 0 && sections.length > 2 ? 2 : 0;
  } else if (first === undefined ? value > 0 : holds(first, value)) index = 0;
  else if (second !== undefined && holds(second, value)) index = 1;
  else index = first !== undefined && second !== undefined ? 2 : 1;
  const section = sections[index];
  if (section === undefined) return undefined;
  return { section, magnitude: value < 0 && index > 0 ? -value : value };
}

function holds(condition: string, value: number): boolean {
  const [, operator, limit] = /^([<>=]+)\s*(.*)$/.exec(condition) as RegExpExecArray;
  const compared = value - Number(limit);
  return operator === "="
    ? compared === 0
    : operator === "<>"
      ? compared !== 0
      : ((operator as string).includes("=") && compared === 0) ||
        ((operator as string).startsWith("<") ? compared < 0 : compared > 0);
}

function literalOf({ kind, text }: Token): string {
  return kind === "condition" ? "" : text;
}

/** A number with up to ten digits, as a narrow cell shows it. */
export function generalText(value: number): string {
  const size = Math.abs(value);
  const sign = value < 0 ? "-" : "";
  if (size === 0) return "0";
  const order = Math.floor(Math.log10(size));
  if (order >= -9 && order <= 10) {
    const whole = withoutZeros(size.toFixed(Math.max(0, Math.min(9, 9 - Math.max(0, order)))));
    const exact = Number(whole) === size || order >= -4;
    if (exact) return sign + whole;
  }
  const [digits = "", exponent = ""] = size.toExponential(5).split("e");
  return `${sign}${withoutZeros(digits)}E${exponent.replace(/^([-+])(\d)$/, "$10$2")}`;
}

function withoutZeros(decimal: string): string {
  return decimal.includes(".") ? decimal.replace(/\.?0+$/, "") : decimal;
}

/** The digits before and after the point, rounded half up at so many places on the fifteen digits a sheet has. */
function roundedDigits(value: number, places: number): { whole: string; fraction: string } {
  const [mantissa = "0", exponent = "0"] = value.toExponential(14).split("e");
  const digits = mantissa.replace(".", "");
  const point = 1 + Number(exponent);
  // The digits from the first place before the point on, then one more that decides.
  const padded =
    point > 0
      ? digits.padEnd(point + places + 1, "0")
      : "0".repeat(1 - point) + digits.padEnd(point + places + 15, "0");
  const before = Math.max(point, 1);
  const kept = padded.slice(0, before + places).padEnd(before + places, "0");
  const up = Number(padded[before + places] ?? "0") >= 5;
  const rounded = up ? String(BigInt(kept) + 1n).padStart(kept.length, "0") : kept;
  const cut = rounded.length - places;
  return { whole: rounded.slice(0, cut).replace(/^0+/, ""), fraction: rounded.slice(cut) };
}

function numberText(section: Section, value: number): string {
  if (section.some(({ kind }) => kind === "exponent")) return scientificText(section, value);
  const slash = section.findIndex(({ kind }) => kind === "slash");
  if (slash > 0 && section.slice(0, slash).some(({ kind }) => kind === "digit"))
    return fractionText(section, slash, value);
  const last = section.reduce((found, { kind }, index) => (kind === "digit" ? index : found), -1);
  const point = section.findIndex(({ kind }) => kind === "point");
  const end = point < 0 ? last : Math.min(last, point);
  const places = point < 0 ? 0 : section.slice(point).filter(({ kind }) => kind === "digit").length;
  // Commas after the last digit divide by thousands.
  let scale = 1;
  for (let at = last + 1; section[at]?.kind === "comma"; at++) scale *= 1000;
  if (point >= 0) for (let at = point - 1; section[at]?.kind === "comma"; at--) scale *= 1000;
  const percents = section.filter(({ kind }) => kind === "percent").length;
  const { whole, fraction } = roundedDigits((value * 100 ** percents) / scale, places);
  return filledIn(section, point, whole, fraction, grouped(section.slice(0, end + 1)));
}

/** A comma between digits stands for one at every thousand. */
function grouped(section: Section): boolean {
  const digits = section.flatMap(({ kind }, index) => (kind === "digit" ? [index] : []));
  const [first = 0, last = 0] = [digits[0], digits[digits.length - 1]];
  return section.slice(first, last).some(({ kind }) => kind === "comma");
}

/** Puts digits into their places, from the point outwards. */
function filledIn(
  section: Section,
  point: number,
  whole: string,
  fraction: string,
  inThousands: boolean,
  sign = "",
): string {
  const cut = point < 0 ? section.length : point;
  const places = section.slice(0, cut).filter(({ kind }) => kind === "digit").length;
  let left = whole.padStart(places, "\0");
  let seen = 0;
  let shown = "";
  for (const token of section.slice(0, cut)) {
    if (token.kind !== "digit") {
      if (token.kind !== "comma") shown += literalOf(token);
      continue;
    }
    if (seen++ === 0) shown += sign;
    // The first place takes all digits that are more than there are places.
    const taken = seen === 1 ? left.length - places + 1 : 1;
    for (const digit of left.slice(0, taken)) {
      const character = digit !== "\0" ? digit : token.text === "0" ? "0" : token.text === "?" ? " " : "";
      shown += character;
      left = left.slice(1);
      const rest = left.length;
      if (inThousands && character !== "" && rest > 0 && rest % 3 === 0) shown += character === " " ? " " : ",";
    }
  }
  let at = 0;
  const significant = fraction.replace(/0+$/, "").length;
  for (const token of section.slice(cut)) {
    if (token.kind === "point" && at === 0) shown += ".";
    else if (token.kind === "digit") {
      const digit = fraction[at++] ?? "0";
      shown += at <= significant || token.text === "0" ? digit : token.text === "?" ? " " : "";
    } else if (token.kind !== "comma") shown += literalOf(token);
  }
  return shown;
}

/** With several places before the point the exponent goes in steps of as many. */
function scientificText(section: Section, value: number): string {
  const mark = section.findIndex(({ kind }) => kind === "exponent");
  const mantissa = section.slice(0, mark);
  const point = mantissa.findIndex(({ kind }) => kind === "point");
  const before = (point < 0 ? mantissa : mantissa.slice(0, point)).filter(({ kind }) => kind === "digit").length;
  const places = point < 0 ? 0 : mantissa.slice(point).filter(({ kind }) => kind === "digit").length;
  const step = Math.max(1, before);
  let exponent = value === 0 ? 0 : Math.floor(Number(value.toExponential(14).split("e")[1]) / step) * step;
  const shifted = (by: number) =>
    Number(`${value.toExponential(14).split("e")[0]}e${Number(value.toExponential(14).split("e")[1]) - by}`);
  let digits = roundedDigits(shifted(exponent), places);
  if (digits.whole.length > step) {
    exponent += step;
    digits = roundedDigits(shifted(exponent), places);
  }
  const { text: written } = section[mark] as Token;
  const sign = exponent < 0 ? "-" : written.endsWith("+") ? "+" : "";
  const rest = section.slice(mark + 1);
  const isGrouped = grouped(point < 0 ? mantissa : mantissa.slice(0, point));
  return (
    filledIn(mantissa, point, digits.whole || "0".repeat(step), digits.fraction, isGrouped) +
    (written[0] as string) +
    filledIn(rest, -1, String(Math.abs(exponent)), "", false, sign)
  );
}

/** As a whole number and a fraction, or as a fraction alone. */
function fractionText(section: Section, slash: number, value: number): string {
  let start = slash - 1;
  while (start > 0 && section[start]?.kind !== "digit") start--;
  while (start > 0 && section[start - 1]?.kind === "digit") start--;
  let end = slash + 1;
  while (section[end]?.kind === "literal" && section[end]?.text === " ") end++;
  const from = end;
  while (section[end]?.kind === "digit" || /^\d$/.test(section[end]?.text ?? "")) end++;
  const denominator = section
    .slice(from, end)
    .map(({ text }) => text)
    .join("");
  const whole = section.slice(0, start).some(({ kind }) => kind === "digit");
  const part = whole ? value - Math.floor(value) : value;
  const fixed = /^[1-9]\d*$/.test(denominator) ? Number(denominator) : undefined;
  let [above, below] =
    fixed === undefined ? nearestFraction(part, 10 ** denominator.length - 1) : [Math.round(part * fixed), fixed];
  let ones = whole ? Math.floor(value) : 0;
  if (whole && above === below) [ones, above, below] = [ones + 1, 0, fixed ?? 1];
  const front = filledIn(section.slice(0, start), -1, ones === 0 && above !== 0 ? "" : String(ones), "", false);
  const back = section.slice(end).map(literalOf).join("");
  const width = (tokens: Section) => tokens.filter(({ kind }) => kind === "digit").length;
  if (whole && above === 0) {
    const blank = section
      .slice(start, end)
      .map(({ kind, text }) => (kind === "digit" ? (text === "#" ? "" : " ") : " "));
    return front + (section.slice(start, end).some(({ text }) => text === "?") ? blank.join("") : "") + back;
  }
  const numerator = section.slice(start, slash);
  const upper = String(above).padStart(
    width(numerator),
    numerator.some(({ text }) => text === "0") ? "0" : numerator.some(({ text }) => text === "?") ? " " : "",
  );
  const lower = denominator.includes("?")
    ? String(below).padEnd(denominator.length, " ")
    : denominator.includes("0") && fixed === undefined
      ? String(below).padStart(denominator.length, "0")
      : String(below);
  return `${front}${upper}/${lower}${back}`;
}

/** The last step of a number's continued fraction with a denominator of at most so much. */
function nearestFraction(value: number, most: number): [number, number] {
  let [before, above] = [0, 1];
  let [earlier, below] = [1, 0];
  let rest = value;
  for (let round = 0; round < 40; round++) {
    const whole = Math.floor(rest);
    const [numerator, denominator] = [whole * above + before, whole * below + earlier];
    if (denominator > most) break;
    [before, above, earlier, below] = [above, numerator, below, denominator];
    if (Math.abs(rest - whole) < 1e-11) break;
    rest = 1 / (rest - whole);
  }
  return [above, below];
}

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];
const DAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
const SECONDS_A_DAY = 86_400;
/** The sheet's number of 31 December 9999, the last day there is. */
const LAST_DAY = 2_958_465;
/** The sheet's number of 1 January 1970, and how many days later the calendar from 1904 begins (ECMA-376 part 1, 18.17.4.1). */
export const FIRST_DAY_OF_1970 = 25_569;
export const DAYS_TO_1904 = 1_462;

function dateText(section: Section, value: number, date1904: boolean): string | undefined {
  const elapsed = section.some(({ kind }) => kind === "elapsed");
  const serial = value + (date1904 && !elapsed ? DAYS_TO_1904 : 0);
  if ((!elapsed && serial < 0) || Math.abs(serial) >= LAST_DAY + 1) return undefined;
  const places = Math.max(
    0,
    ...section.map(({ kind, text }) =>
      kind === "date" || kind === "elapsed" ? (/\.(0+)$/.exec(text)?.[1] ?? "").length : 0,
    ),
  );
  const unit = 10 ** places;
  // Rounded to what is shown of the seconds, so that 59.9996 s is a minute.
  const ticks = Math.round(Number((Math.abs(serial) * SECONDS_A_DAY * unit).toPrecision(15)));
  const seconds = Math.floor(ticks / unit);
  const fraction = String(ticks % unit).padStart(places, "0");
  const day = Math.floor(seconds / SECONDS_A_DAY);
  const { year, month, date } = calendarOf(day);
  const hour = Math.floor(seconds / 3600) % 24;
  const noon = section.some(({ kind, text }) => kind === "date" && /^a/i.test(text));
  const counted = section.find(({ kind }) => kind === "elapsed")?.text[0]?.toLowerCase();
  const padded = (number: number, width: number) => String(number).padStart(width, "0");
  const shown = section.map((token, index) => {
    if (token.kind !== "date" && token.kind !== "elapsed") return literalOf(token);
    const letter = (token.text[0] as string).toLowerCase();
    const [letters = ""] = token.text.split(".");
    const width = letters.length;
    const two = Math.min(width, 2);
    const isCount = token.kind === "elapsed" || letter === counted;
    switch (letter) {
      case "y":
        return width <= 2 ? padded(year % 100, 2) : padded(year, 4);
      case "d":
        if (width <= 2) return padded(date, two);
        return width === 3 ? dayOfWeek(day).slice(0, 3) : dayOfWeek(day);
      case "h":
        if (isCount) return padded(Math.floor(seconds / 3600), width);
        return padded(noon ? ((hour + 11) % 12) + 1 : hour, two);
      case "s": {
        const whole = isCount ? padded(seconds, width) : padded(seconds % 60, two);
        return token.text.includes(".") ? `${whole}.${fraction.slice(0, token.text.length - width - 1)}` : whole;
      }
      case "a": {
        const half = hour < 12 ? "AM" : "PM";
        if (width > 3 || /m/i.test(token.text)) return half;
        return /^a/.test(token.text) ? (half[0] as string).toLowerCase() : half[0];
      }
      default:
        if (token.kind === "elapsed" || isMinutes(section, index)) {
          return isCount ? padded(Math.floor(seconds / 60), width) : padded(Math.floor(seconds / 60) % 60, two);
        }
        if (width <= 2) return padded(month + 1, two);
        if (width === 3) return (MONTHS[month] as string).slice(0, 3);
        return width === 5 ? (MONTHS[month] as string)[0] : MONTHS[month];
    }
  });
  return (value < 0 && ticks > 0 ? "-" : "") + shown.join("");
}

/** An m beside hours or seconds means minutes. */
function isMinutes(section: Section, index: number): boolean {
  const near = (step: number) => {
    for (let at = index + step; at >= 0 && at < section.length; at += step) {
      const { kind, text } = section[at] as Token;
      if ((kind === "date" && !/^a/i.test(text)) || kind === "elapsed") return (text[0] as string).toLowerCase();
    }
    return "";
  };
  return near(-1) === "h" || near(1) === "s" || near(-1) === "s";
}

/** Day 60 is the 29 February 1900 that sheets have and the calendar has not; day 0 the one before 1 January. */
function calendarOf(day: number): { year: number; month: number; date: number } {
  if (day === 0) return { year: 1900, month: 0, date: 0 };
  if (day === 60) return { year: 1900, month: 1, date: 29 };
  const known = new Date((day - FIRST_DAY_OF_1970 + (day < 60 ? 1 : 0)) * SECONDS_A_DAY * 1000);
  return { year: known.getUTCFullYear(), month: known.getUTCMonth(), date: known.getUTCDate() };
}

function dayOfWeek(day: number): string {
  return DAYS[(day + 6) % 7] as string;
}
