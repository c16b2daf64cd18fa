import type { FormulaCell } from "./calculation";
import { areaOf } from "./addresses";
import type { DefinedName } from "./grid";
import { BRACKETS, NAME } from "./structured";
import { asTyped, outsideQuotes, withOursStored } from "./formula-text";

/** How functions younger than the file format are stored: with a prefix, and some with a second one. */
const TWICE_PREFIXED = "FILTER SORT".split(" ");

/** Functions that fill a range, so that a formula with one of them must be stored as a dynamic array. */
const FILLING =
  "UNIQUE SORTBY RANDARRAY SEQUENCE XLOOKUP ANCHORARRAY LET LAMBDA MAP REDUCE SCAN MAKEARRAY BYROW BYCOL VSTACK HSTACK TOCOL TOROW WRAPROWS WRAPCOLS TAKE DROP CHOOSEROWS CHOOSECOLS EXPAND TEXTSPLIT GROUPBY PIVOTBY TRIMRANGE MUNIT MODE.MULT".split(
    " ",
  );

/** The list of [MS-XLSX] future functions and those added since. */
const PREFIXED = new Set([
  ...FILLING,
  ..."ACOT ACOTH AGGREGATE ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT BITOR BITRSHIFT BITXOR CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL ERF.PRECISE ERFC.PRECISE EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FILTERXML FLOOR.MATH FLOOR.PRECISE FORECAST.ETS FORECAST.ETS.CONFINT FORECAST.ETS.SEASONALITY FORECAST.ETS.STAT FORECAST.LINEAR FORMULATEXT GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS HYPGEOM.DIST IFNA IFS IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN ISFORMULA ISOMITTED ISOWEEKNUM ENCODEURL WEBSERVICE IMAGE STOCKHISTORY FIELDVALUE TRANSLATE DETECTLANGUAGE LOGNORM.DIST LOGNORM.INV MAXIFS MINIFS MODE.SNGL NEGBINOM.DIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTOF PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI POISSON.DIST QUARTILE.EXC QUARTILE.INC RANK.AVG RANK.EQ REGEXEXTRACT REGEXREPLACE REGEXTEST RRI SEC SECH SHEET SHEETS SINGLE SKEW.P STDEV.P STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TEXTAFTER TEXTBEFORE TEXTJOIN UNICHAR UNICODE VALUETOTEXT VAR.P VAR.S WEIBULL.DIST XMATCH XOR Z.TEST".split(
    " ",
  ),
]);

const CALL = /(?<![\w.])([A-Z][A-Z0-9.]*)(?=\s*\()/gi;

/** A formula as typed or as any program wrote it, in the form of a file: the same for one that is in that form. */
export function asExcelStores({
  stored,
  sheet,
  cell,
  spills,
}: Pick<FormulaCell, "stored" | "sheet" | "cell" | "spills">): string {
  const table = sheet.tables.find(({ reference }) => {
    const area = areaOf(reference);
    return (
      area && cell.row >= area.top && cell.row <= area.bottom && cell.column >= area.left && cell.column <= area.right
    );
  });
  return inFileForm(stored, spills, table?.displayName);
}

/** The same for a text that stands in no cell of a Table, as what a name stands for. */
export function inFileForm(formula: string, spills = true, here = ""): string {
  const typed = asTyped(formula);
  const optional = optionalNames(typed);
  const locals = localNames(typed);
  const written = withSingles(withSpillReferences(withWholeReferences(typed, here, optional)), spills);
  return withOursStored(
    outsideQuotes(written, (piece) =>
      piece
        .replace(CALL, (name) => prefixed(name))
        .replace(/(?<![\p{L}\p{N}_.!$])[\p{L}_][\p{L}\p{N}_.]*(?![\p{L}\p{N}_.!])/gu, (name) =>
          optional.has(name.toLowerCase()) ? `_xlop.${name}` : locals.has(name.toLowerCase()) ? `_xlpm.${name}` : name,
        ),
    ),
  );
}

/** What the engine writes otherwise or knows by another way. */
const KNOWN_OTHERWISE = ["ANCHORARRAY", "SINGLE"];

/** As CALL, and with the marks that a file puts before the functions of other add-ins. */
const CALL_OR_MARKED = /(?<![\w.])(_?[A-Z][A-Z0-9._]*)(?=\s*\()/gi;

/** The worksheet functions that a formula calls, without ours and without names given inside it. */
export function functionsCalledIn(typed: string): string[] {
  const locals = localNames(typed);
  const found: string[] = [];
  outsideQuotes(typed, (piece) => {
    for (const [, name] of piece.matchAll(CALL_OR_MARKED)) {
      const upper = (name as string).toUpperCase();
      if (upper.startsWith("YARN.") || KNOWN_OTHERWISE.includes(upper) || locals.has(upper.toLowerCase())) continue;
      found.push(upper);
    }
    return piece;
  });
  return found;
}

function prefixed(name: string): string {
  const upper = name.toUpperCase();
  if (TWICE_PREFIXED.includes(upper)) return `_xlfn._xlws.${upper}`;
  return PREFIXED.has(upper) ? `_xlfn.${upper}` : name;
}

const REFERENCE_BY_HEADING = new RegExp(
  String.raw`("(?:[^"]|"")*"|'(?:[^']|'')*'|\[\d+\](?=[\p{L}_!]))|(${NAME})?(${BRACKETS})`,
  "giu",
);

/**
 * [@mass] and Lots[@[mass]:[price]] are short for Lots[[#This Row],[mass]] and Lots[[#This Row],[mass]:[price]], and
 * inside a Table its name may be left out.
 */
function withWholeReferences(formula: string, here: string, optional: ReadonlySet<string>): string {
  return formula.replace(REFERENCE_BY_HEADING, (whole, other?: string, table?: string, brackets = "[]") => {
    if (other !== undefined) return whole;
    const inner = (brackets as string).slice(1, -1);
    // The optional parameter of a LAMBDA is typed in brackets too.
    if (table === undefined && optional.has(inner.toLowerCase())) return inner;
    const name = table ?? here;
    if (name === "") return whole;
    if (!/^\s*@/.test(inner)) return `${name}${brackets as string}`;
    const columns = inner.replace(/^\s*@\s*/, "");
    if (columns === "") return `${name}[#This Row]`;
    return `${name}[[#This Row],${columns.startsWith("[") ? columns : `[${columns}]`}]`;
  });
}

/** A1# is stored as ANCHORARRAY(A1). */
function withSpillReferences(formula: string): string {
  return formula.replace(
    /("(?:[^"]|"")*")|((?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(?<![\w.])\$?[A-Z]{1,3}\$?\d{1,7})#/giu,
    (_, text?: string, reference?: string) => text ?? `ANCHORARRAY(${reference})`,
  );
}

/** @A1:A9 takes one cell of a range: SINGLE(A1:A9) in a dynamic array; anywhere else a file means it unsaid. */
function withSingles(formula: string, spills: boolean): string {
  const operand = new RegExp(
    String.raw`("(?:[^"]|"")*")|(?:${NAME})?${BRACKETS}|@((?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?(?:${NAME}${BRACKETS}|[\p{L}_$][\p{L}\p{N}_.$:]*))(\()?`,
    "iu",
  );
  let written = "";
  let rest = formula;
  for (let found = operand.exec(rest); found !== null; found = operand.exec(rest)) {
    const [whole, , taken, opens] = found;
    written += rest.slice(0, found.index);
    rest = rest.slice(found.index + whole.length);
    if (taken === undefined) {
      written += whole;
      continue;
    }
    let all = taken;
    if (opens !== undefined) {
      const inside = opens + rest;
      const end = endOfArguments(inside);
      all += inside.slice(0, end);
      rest = inside.slice(end);
      all = taken + withSingles(all.slice(taken.length), spills);
    }
    written += spills ? `SINGLE(${all})` : all;
  }
  return written + rest;
}

/** Where the bracket that opens a text closes. */
function endOfArguments(text: string): number {
  const inside = argumentsAt(text, 0);
  const length = inside.reduce((sum, one) => sum + one.length, 0) + inside.length + 1;
  return Math.min(length, text.length);
}

/** The parameters of a LAMBDA that may be left out: [rate]. */
function optionalNames(formula: string): Set<string> {
  const names = new Set<string>();
  for (const { index } of formula.matchAll(/(?<![\w.])LAMBDA\s*\(/gi)) {
    for (const one of argumentsAt(formula, formula.indexOf("(", index)).slice(0, -1)) {
      const name = /^\s*\[([\p{L}_][\p{L}\p{N}_.]*)\]\s*$/u.exec(one)?.[1];
      if (name !== undefined) names.add(name.toLowerCase());
    }
  }
  return names;
}

/** The names that LET and LAMBDA give to values inside the formula. */
export function localNames(formula: string): Set<string> {
  const names = new Set<string>();
  for (const { index, 1: name } of formula.matchAll(/(?<![\w.])(LET|LAMBDA)\s*\(/gi)) {
    const inside = argumentsAt(formula, formula.indexOf("(", index));
    const given =
      (name as string).toUpperCase() === "LET"
        ? inside.slice(0, -1).filter((_, place) => place % 2 === 0)
        : inside.slice(0, -1);
    for (const one of given) {
      const local = one.trim().replace(/^\[|\]$/g, "");
      if (/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(local)) names.add(local.toLowerCase());
    }
  }
  return names;
}

/** The arguments between the bracket at this place and the one that closes it. */
export function argumentsAt(formula: string, open: number): string[] {
  const found: string[] = [];
  let depth = 0;
  let from = open + 1;
  for (let place = open; place < formula.length; place++) {
    const character = formula[place] as string;
    if (character === '"' || character === "'") {
      place = formula.indexOf(character, place + 1);
      if (place < 0) break;
    } else if ("({[".includes(character)) depth++;
    else if (")}]".includes(character)) {
      depth--;
      if (depth === 0) {
        found.push(formula.slice(from, place));
        break;
      }
    } else if (character === "," && depth === 1) {
      found.push(formula.slice(from, place));
      from = place + 1;
    }
  }
  return found;
}

const SHEET = String.raw`(?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!)?`;
const RANGE = String.raw`(?:\$?[A-Z]{1,3}\$?\d{1,7}:\$?[A-Z]{1,3}\$?\d{1,7}|\$?[A-Z]{1,3}:\$?[A-Z]{1,3}|[\p{L}_][\p{L}\p{N}_.]*\[(?!@|#This Row|\[#This Row)(?:[^[\]]|\[[^\]]*\])*\]|(?:\$?[A-Z]{1,3}\$?\d{1,7})?#(?![\w!?]))`;
const OPERATOR = String.raw`\s*(?:[-+*/^&=]|<>|<=|>=|<|>)`;
const ONE_AT_A_TIME =
  "ABS|SQRT|INT|EXP|LN|LOG10|LOG|ROUND|ROUNDUP|ROUNDDOWN|TRUNC|MOD|SIGN|LEN|LEFT|RIGHT|MID|UPPER|LOWER|TRIM|TEXT|VALUE|ISNUMBER|ISTEXT|ISBLANK|ISERROR|ISNA|IF|IFERROR|IFNA|NOT|POWER";
const WORKED_ON = new RegExp(
  `${RANGE}${OPERATOR}|${OPERATOR}\\s*(?:'(?:[^']|'')+'!|[\\w.]+!)?${RANGE}|(?<![\\w.])(?:${ONE_AT_A_TIME})\\s*\\(\\s*(?:'(?:[^']|'')+'!|[\\w.]+!)?${RANGE}`,
  "iu",
);
const FILLS = new RegExp(
  `(?<![\\w.])(?:${[...FILLING, ...TWICE_PREFIXED, "TRANSPOSE", "FREQUENCY", "MMULT", "MINVERSE", "TREND", "LINEST"].join("|").replace(/\./g, "\\.")})\\s*\\(`,
  "i",
);

/** Must a formula be stored as a dynamic array, because Excel would otherwise take one cell of a range in it? */
export function needsArray(typed: string, names: readonly DefinedName[] = []): boolean {
  // A name that stands for a range counts as the range.
  const ranges = names.filter(({ ranges: [range = ""] }) => /:/.test(range)).map(({ name }) => name.toLowerCase());
  const withoutText = typed
    .replace(/"(?:[^"]|"")*"/g, '""')
    .replace(/(?<![\w.![])[\p{L}_][\p{L}\p{N}_.]*(?![\w.([!])/gu, (word) =>
      ranges.includes(word.toLowerCase()) ? "A1:A2" : word,
    );
  if (/^\s*SUMPRODUCT\s*\([^()]*\)\s*$/i.test(withoutText)) return false;
  return (
    FILLS.test(withoutText) ||
    WORKED_ON.test(withoutText) ||
    /\{/.test(withoutText) ||
    new RegExp(`^\\s*${SHEET}${RANGE}\\s*$`, "iu").test(withoutText)
  );
}
