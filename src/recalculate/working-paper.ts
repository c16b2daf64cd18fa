import { basename } from "node:path";
import type { Difference } from "./compare";
import type { Described } from "./described";
import { harmless } from "./harmless";
import { generalText, isDateFormat, shownIn } from "./number-format";
import type { Job, Recalculated, Remark } from "./recalculation";
import type { InFormat, ReportTable, Shown } from "./report-page";

/** What an accountant files of a recalculation: what was looked at and how, each finding on one line, sums by sheet. */
export interface WorkingPaper {
  readonly title: string;
  /** The file and the work done on it. */
  readonly facts: readonly (readonly [label: string, words: string])[];
  readonly compared: readonly string[];
  readonly notCompared: readonly string[];
  readonly totals: ReportTable;
  readonly findings: readonly Finding[];
}

/** One line of the paper. */
export interface Finding {
  readonly kind: Kind;
  readonly sheet: string;
  readonly cell: string;
  readonly row: string;
  readonly column: string;
  readonly formula: string;
  readonly saved: Shown;
  readonly now: Shown;
  readonly difference: Shown;
  /** A share of what was saved. */
  readonly share: number | undefined;
  readonly remark: string;
}

/** In the order in which they are listed. */
export const KINDS = {
  differs: "differs",
  fault: "cannot be right",
  follows: "worked out anew",
  kept: "not recalculated",
  unreproduced: "not reproduced here",
  taken: "not compared",
} as const;
export type Kind = keyof typeof KINDS;

/** What each kind of finding means, once for the reader. */
export const MEANINGS: Readonly<Record<Kind, string>> = {
  differs: "The saved value is not what the formula gives on the saved values of what it reads. Biggest first.",
  fault: "The formula cannot be right whatever it shows.",
  follows: "What the formula gives after the change, worked out from formulas that were reproduced before it.",
  kept: "The cell keeps its saved value although what it reads has changed, for the reason given.",
  unreproduced:
    "A native formula that is not reproduced here: its saved value is stale, or the formula is beyond this program. No verdict; open the workbook in a spreadsheet program.",
  taken: "The cell was not compared, for the reason given; its saved value was taken as it is.",
};

export function workingPaper(result: Recalculated, asked: Partial<Job>, written: Date): WorkingPaper {
  const { workbook, digest, version, formulas, engines, seconds, error } = result;
  const findings = findingsOf(result);
  const set = (asked.set ?? []).map(({ place, value }) => `${place} = ${value}`).join("; ");
  return {
    title: harmless(basename(workbook)),
    facts: [
      ["File", harmless(workbook)],
      ["SHA-256 of the file", digest === "" ? "it could not be read" : digest],
      ["Date of this paper", `${written.toISOString().slice(0, 16).replace("T", " ")} UTC`],
      ["Worked out by", `yarn-worksheet-functions ${version}, in ${seconds} s`],
      ...(set === "" ? [] : [["Values put in", harmless(set)] as const]),
      ...(error === undefined ? [["Result", verdictOf(result)] as const] : [["Result", harmless(error)] as const]),
    ],
    compared:
      error !== undefined
        ? []
        : [
            `${counted(formulas, "formula")} in the workbook; ${counted(result.cells, "cell")} compared with what the formula gives on the saved values of what it reads.`,
            asked.tolerance === undefined
              ? "Numbers count as the same up to a relative difference of 1e-12 for calls of YARN functions and 1e-9 for native formulas; texts and truths must be equal."
              : `Numbers count as the same up to a relative difference of ${asked.tolerance}; texts and truths must be equal.`,
            engines === 2
              ? "Native formulas were asked of two calculation engines: one is reproduced when either gives the saved value."
              : "Native formulas were asked of one calculation engine.",
            ...(asked.strict
              ? ["Native formulas on which both engines give the same other value count as differences."]
              : []),
            ...(result.neverCalculated > 0
              ? [`${counted(result.neverCalculated, "formula")} had no saved value and were worked out from nothing.`]
              : []),
          ],
    notCompared:
      error !== undefined
        ? []
        : [
            ...(result.passedOver > 0
              ? [
                  `${counted(result.passedOver, "formula")} not compared; those that were looked at are listed below with the reason.`,
                ]
              : []),
            ...(result.nativeUnjudged === undefined
              ? []
              : [`Native formulas were left alone: ${harmless(result.nativeUnjudged)}.`]),
            "Typed-in values, charts, pivot tables, conditional formats, validation and macros were not looked at.",
          ],
    totals: totalsOf(findings),
    findings,
  };
}

function verdictOf({ differences, faults, unreproduced, notRecalculated }: Recalculated): string {
  const parts = [
    differences.length > 0
      ? `${counted(differences.length, "cell")} ${differences.length === 1 ? "differs" : "differ"}`
      : "no cell differs",
    ...(faults.length > 0 ? [`${counted(faults.length, "formula")} cannot be right`] : []),
    ...(unreproduced.length > 0 ? [`${counted(unreproduced.length, "native cell")} not reproduced here`] : []),
    ...(notRecalculated.length > 0 ? [`${counted(notRecalculated.length, "cell")} not recalculated`] : []),
  ];
  return parts.join("; ");
}

function findingsOf(result: Recalculated): Finding[] {
  const { differences, faults, recalculated, notRecalculated, unreproduced, taken, moving = [] } = result;
  return [
    ...biggestFirst(differences.map((one) => compared("differs", one))),
    ...faults.map((one) => remarked("fault", one)),
    ...biggestFirst(recalculated.map((one) => compared("follows", one))),
    ...notRecalculated.map((one) => remarked("kept", one)),
    ...biggestFirst(unreproduced.map((one) => compared("unreproduced", one))),
    ...[...taken, ...moving].map((one) => remarked("taken", one)),
  ];
}

/** First what has no difference in figures (an error, another text), then by the size of the difference. */
function biggestFirst(findings: readonly Finding[]): Finding[] {
  return [...findings].sort((one, other) => sizeOf(other) - sizeOf(one));
}

function sizeOf({ difference }: Finding): number {
  return typeof difference === "object" ? Math.abs(difference.value) : Infinity;
}

function compared(kind: Kind, difference: Difference): Finding {
  const { sheet, cell, formula, saved, now, message, sure, circular, described } = difference;
  const both = typeof saved === "number" && typeof now === "number";
  const format = settledFormat(described, both ? [saved, now] : []);
  const shown = (value: string | number | boolean | null): Shown =>
    typeof value === "number" ? inFormat(value, format, described) : worded(value);
  const by = both ? now - saved : undefined;
  return {
    ...placed(kind, { sheet, cell, described }),
    formula: harmless(formula),
    saved: shown(saved),
    now: shown(now),
    difference: by === undefined ? "" : { value: by, format: formatOfDifference(format, by) },
    share: both && saved !== 0 ? (now - saved) / Math.abs(saved) : undefined,
    remark: harmless(
      [sure && !circular ? "surely stale: both engines give this" : "", message].filter(Boolean).join("; "),
    ),
  };
}

function remarked(kind: Kind, { sheet, cell, message, described }: Remark): Finding {
  const saved = described?.saved ?? null;
  return {
    ...placed(kind, { sheet, cell, described }),
    formula: harmless(described?.formula ?? ""),
    saved:
      described === undefined
        ? ""
        : typeof saved === "number"
          ? inFormat(saved, settledFormat(described, []), described)
          : worded(saved),
    now: "",
    difference: "",
    share: undefined,
    remark: harmless(message),
  };
}

function placed(
  kind: Kind,
  { sheet, cell, described }: { sheet: string; cell: string; described: Described | undefined },
) {
  return { kind, sheet: harmless(sheet), cell, row: shortened(described?.row), column: shortened(described?.column) };
}

const LONGEST_HEADING = 80;

function shortened(heading = ""): string {
  const words = harmless(heading).trim();
  return words.length > LONGEST_HEADING ? `${words.slice(0, LONGEST_HEADING - 1)}…` : words;
}

function worded(value: string | boolean | null): string {
  if (value === null) return "(nothing)";
  return typeof value === "boolean" ? String(value).toUpperCase() : harmless(value);
}

function inFormat(value: number, format: string, described: Described | undefined): InFormat {
  return { value, format, ...(described?.date1904 ? { date1904: true } : {}) };
}

/** Formats of more characters are none (Excel's limit). */
const LONGEST_FORMAT = 255;
const FIFTEEN_DIGITS = "0.0##############";

/** The cell's own format, unless it shows two different numbers alike or cannot show one. */
function settledFormat(described: Described | undefined, numbers: readonly number[]): string {
  const format = described?.format ?? "General";
  if (format.length > LONGEST_FORMAT || /[\u0000-\u001f]/.test(format)) return "General";
  const shown = numbers.map((number) => shownIn(format, number, described));
  if (shown.includes(undefined)) return "General";
  return shown.length === 2 && shown[0] === shown[1] ? FIFTEEN_DIGITS : format;
}

const SMALL = "0.0##E+0";

function formatOfDifference(format: string, difference: number): string {
  // Days and parts of days.
  if (isDateFormat(format)) return "General";
  if (format === FIFTEEN_DIGITS) return SMALL;
  const shown = shownIn(format, difference);
  const size = Number(generalText(Math.abs(difference)));
  return shown === undefined || (size > 0 && !/[1-9]/.test(shown)) ? SMALL : format;
}

/** Sums by sheet; differences are added up where all of a sheet are shown alike, because others have other units. */
function totalsOf(findings: readonly Finding[]): ReportTable {
  const whole = { decimals: 0 };
  const sheets = [...new Set(findings.map(({ sheet }) => sheet))];
  const kinds = (Object.keys(KINDS) as Kind[]).filter((kind) => findings.some((one) => one.kind === kind));
  const differing = kinds.includes("differs");
  const rows = sheets.map((sheet): Shown[] => {
    const own = findings.filter((one) => one.sheet === sheet);
    const sums = own.flatMap(({ kind, difference }) =>
      kind === "differs" && typeof difference === "object" ? [difference] : [],
    );
    const formats = new Set(sums.map(({ format }) => format));
    const sum = sums.reduce((total, { value }) => total + value, 0);
    const [format = ""] = formats;
    return [
      sheet,
      ...kinds.map((kind) => own.filter((one) => one.kind === kind).length),
      ...(differing ? [sums.length === 0 ? "" : formats.size > 1 ? "several units" : { value: sum, format }] : []),
    ];
  });
  const all = kinds.map((kind) => findings.filter((one) => one.kind === kind).length);
  return {
    title: "Totals by sheet",
    columns: [
      { heading: "Sheet" },
      ...kinds.map((kind) => ({
        heading: `${KINDS[kind].replace(/^./, (first) => first.toUpperCase())} (cells)`,
        shows: whole,
      })),
      ...(differing ? [{ heading: "Sum of the differences", figures: true }] : []),
    ],
    rows: sheets.length > 1 ? [...rows, ["In all", ...all, ...(differing ? [""] : [])]] : rows,
  };
}

/** The findings as a table, one a line. */
export function findingsTable(findings: readonly Finding[], { withKind }: { withKind: boolean }): ReportTable {
  return {
    columns: [
      ...(withKind ? [{ heading: "Finding" }] : []),
      { heading: "Sheet", unbroken: true },
      { heading: "Cell", unbroken: true },
      { heading: "Row" },
      { heading: "Column" },
      { heading: "Formula" },
      { heading: "Saved", figures: true },
      { heading: "Now", figures: true },
      { heading: "Difference", figures: true },
      { heading: "Per cent", figures: true },
      { heading: "Remark" },
    ],
    rows: findings.map(({ kind, sheet, cell, row, column, formula, saved, now, difference, share, remark }) => [
      ...(withKind ? [KINDS[kind]] : []),
      sheet,
      cell,
      row,
      column,
      formula,
      saved,
      now,
      difference,
      share === undefined ? "" : { value: share, format: Math.abs(share) < SMALL_SHARE ? "0.00######%" : "0.00%" },
      remark,
    ]),
    long: true,
    breaks: true,
  };
}

/** Below a hundredth of a per cent. */
const SMALL_SHARE = 5e-5;

export function counted(count: number, what: string): string {
  return `${count.toLocaleString("en")} ${what}${count === 1 ? "" : "s"}`;
}
