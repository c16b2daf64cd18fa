import type { Recalculated } from "../../recalculate/recalculation";

type Shown = string | number | boolean | null;

/** One cell of the book and what there is to say of it. */
export interface ToldCell {
  readonly cell: string;
  readonly formula: string;
  readonly saved: string;
  readonly now: string;
  readonly verdict: string;
}

export interface ToldSheet {
  readonly sheet: string;
  readonly cells: readonly ToldCell[];
}

/** What recalculation says of a book, sheet by sheet in the order of the book. */
export function toldCells(result: Recalculated, sheets: readonly string[]): ToldSheet[] {
  return bySheet(sheets, [
    ...result.faults.map((one) => remark(one, "cannot be right")),
    ...result.differences.map((one) => compared(one, "differs")),
    ...result.recalculated.map((one) => compared(one, "follows from a difference")),
    ...result.notRecalculated.map((one) => remark(one, "keeps its saved value")),
    ...result.unreproduced.map((one) => compared(one, "native, not reproduced here")),
    ...result.taken.map((one) => remark(one, "not judged")),
  ]);
}

/** What a change of inputs brings: the cells that come out otherwise, and those that could not follow. */
export function toldChanges(result: Recalculated, sheets: readonly string[]): ToldSheet[] {
  return bySheet(sheets, [
    ...result.recalculated.map((one) => compared(one, "")),
    ...result.notRecalculated.map((one) => remark(one, "keeps its saved value")),
  ]);
}

type Located = readonly [sheet: string, told: ToldCell];

function compared(
  { sheet, cell, formula, saved, now, message }: Recalculated["differences"][number],
  verdict: string,
): Located {
  return [sheet, { cell, formula, saved: shown(saved), now: shown(now), verdict: joined(verdict, message) }];
}

function remark({ sheet, cell, message, formula = "" }: Remarked, verdict: string): Located {
  return [sheet, { cell, formula, saved: "", now: "", verdict: joined(verdict, message) }];
}

interface Remarked {
  readonly sheet: string;
  readonly cell: string;
  readonly message: string;
  readonly formula?: string;
}

function joined(verdict: string, message: string): string {
  return [verdict, message].filter(Boolean).join(": ");
}

function bySheet(sheets: readonly string[], located: readonly Located[]): ToldSheet[] {
  return sheets
    .map((sheet) => ({ sheet, cells: oneLineACell(located.filter(([on]) => on === sheet).map(([, told]) => told)) }))
    .filter(({ cells }) => cells.length > 0);
}

/** A cell of which there is more than one thing to say has one line all the same. */
function oneLineACell(told: readonly ToldCell[]): ToldCell[] {
  const lines = new Map<string, ToldCell>();
  for (const one of told) {
    const before = lines.get(one.cell);
    lines.set(one.cell, before === undefined ? one : together(before, one));
  }
  return [...lines.values()];
}

function together(first: ToldCell, second: ToldCell): ToldCell {
  return {
    cell: first.cell,
    formula: first.formula || second.formula,
    saved: first.saved || second.saved,
    now: first.now || second.now,
    verdict: [first.verdict, second.verdict].filter(Boolean).join("; "),
  };
}

export function shown(value: Shown): string {
  if (value === null) return "(nothing)";
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}

/** The sentences over the tables. */
export function summaryOf({
  cells,
  differences,
  faults,
  passedOver,
  neverCalculated,
  nativeUnjudged,
  formulas,
}: Recalculated): string[] {
  const differ =
    differences.length === 0
      ? "none differs"
      : `${counted(differences.length, "cell")} ${differences.length === 1 ? "differs" : "differ"}`;
  return [
    `${counted(formulas, "formula")}, ${counted(cells, "cell")} compared, ${differ}.`,
    ...(faults.length > 0 ? [`${counted(faults.length, "call")} cannot be right.`] : []),
    ...(passedOver > 0
      ? [
          `${counted(passedOver, "formula")} not compared: they depend on the clock, on chance or on a function not known here.`,
        ]
      : []),
    ...(neverCalculated > 0
      ? [`${counted(neverCalculated, "formula")} had no saved value and came from nothing.`]
      : []),
    ...(nativeUnjudged === undefined ? [] : [`Native formulas were left alone: ${nativeUnjudged}.`]),
  ];
}

export function counted(number: number, thing: string): string {
  return `${number} ${thing}${number === 1 ? "" : "s"}`;
}
